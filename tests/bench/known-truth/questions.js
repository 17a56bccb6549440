import { changesTable, pooledTable, tallyChanges } from './changes.js'
import { drawnLedger } from './ledger.js'
import { onsetsTable, tallyOnsets } from './onsets.js'
import { noneTable, ratesTable, tallyRates } from './rates.js'
import { sourcesTable, tallySources } from './sources.js'
import { mean, tally } from './tally.js'
import { fitsTable, seasonsTable, tallyTrends, verdictsTable } from './trends.js'

export const questions = [tallyRates, tallyTrends, tallyChanges, tallyOnsets, tallySources]
const tables = [
  ratesTable,
  noneTable,
  fitsTable,
  verdictsTable,
  seasonsTable,
  changesTable,
  pooledTable,
  onsetsTable,
  sourcesTable,
]

/** What the ledgers of one hardship with these seeds, both counted, say to every question. */
export function measured({ hardship, first, last }) {
  const counted = tally()
  for (let seed = first; seed <= last; seed += 1) {
    const ledger = drawnLedger(hardship, seed)
    for (const question of questions) question(ledger, counted)
    counted.endLedger()
  }
  return counted.sums()
}

/** The tables as Markdown, from the sums by hardship. */
export function tablesOf(sumsByHardship) {
  return tables
    .map(({ title, head, row }) => {
      const rows = [head, head.map(() => '---')]
      for (const [hardship, sums] of sumsByHardship) rows.push([hardship, ...row(sums, mean)])
      return `${title}:\n\n${rows.map((cells) => `| ${cells.join(' | ')} |`).join('\n')}\n`
    })
    .join('\n')
}
