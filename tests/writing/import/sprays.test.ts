import { expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { readLedger } from '../../../src/ledger/read-ledger.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { day } from '../../ledger/small-site.js'
import { referenceKind } from '../../measure/stats-reference.js'
import { recordsOf } from './plan-of.js'

/**
 * Insects left on 72 plots after six sprays: Beall G (1942) The transformation of data from entomological field
 * experiments, Biometrika 32:243–262, R's InsectSprays. Each plot is a trap here and each spray a room; taken over from a
 * file, the ledger has to count what R sums up.
 */
const sprays = referenceKind<
  { analysis: string; group: string[]; count: number[] },
  { groups: { group: string; n: number; sum: number }[] }
>('open_data')
const found = sprays.cases.find(({ input }) => input.analysis === 'group_summary')
if (!found) throw new Error('the case is missing')
const { input, expected } = found

const groups = [...new Set(input.group)]
const plots = input.group.map((group, at) => ({
  id: `${group}${(at % 12) + 1}`,
  group,
  count: input.count[at] ?? 0,
}))

const ledger = ledgerWith(`
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days}]
areas: {kitchen: {kind: kitchen}, room-1: {kind: classroom}, ${groups.map((group) => `plot-${group}: {kind: classroom}`).join(', ')}}
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set: {${plots.map(({ id, group }) => `${id}: {kind: sticky-trap, area: plot-${group}, for: [ant], within-reach: no}`).join(', ')}}
`)

function caughtBySpray(map: string, csv: string): Record<string, { traps: number; caught: number }> {
  const files = new Map([...ledger, ...Object.entries(recordsOf(csv, { ledger, map }))])
  const caught: Record<string, { traps: number; caught: number }> = {}
  readLedger(memorySource(files), { asOf: day('2026-04-30'), asOfIsToday: true }, (view) => {
    for (const { checks } of view.devices)
      for (const check of checks) {
        if (!check.area.startsWith('plot-')) continue
        const group = check.area.slice('plot-'.length)
        const before = caught[group] ?? { traps: 0, caught: 0 }
        caught[group] = { traps: before.traps + 1, caught: before.caught + (check.caught.get('ant') ?? 0) }
      }
  })
  return caught
}

const published = Object.fromEntries(
  expected.groups.map(({ group, n, sum }) => [group, { traps: n, caught: sum }]),
)

it('what R sums up is what was published', () => {
  expect(published).toEqual({
    A: { traps: 12, caught: 174 },
    B: { traps: 12, caught: 184 },
    C: { traps: 12, caught: 25 },
    D: { traps: 12, caught: 59 },
    E: { traps: 12, caught: 42 },
    F: { traps: 12, caught: 200 },
  })
})

it.each(['on the device', 'new since the last look'])(
  'and what the ledger counts, with counts %s',
  (counts) => {
    const csv = `Plot;Insects;Day\n${plots.map(({ id, count }) => `${id};${count};13.03.2026`).join('\n')}\n`
    const map = `
delimiter: ";"
date: {column: Day, format: DD.MM.YYYY}
site: {always: oak}
by: {always: okafor}
device: Plot
pest: {always: ant}
count: Insects
counts: ${counts}
`
    expect(caughtBySpray(map, csv)).toEqual(published)
  },
)
