import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import type { EffectOptions } from '../../src/reports/effect.js'
import { effectReport } from '../../src/reports/effect.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

export type Texts = Readonly<Record<string, string>>

export const board = (area = 'kitchen', traps = 10, pest = 'german-cockroach') =>
  `{kind: sticky-trap, area: ${area}, for: [${pest}], traps: ${traps}}`

export const effectOptions = (more: Partial<EffectOptions> = {}): EffectOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  window: 30,
  ...more,
})

export function effectOn(visits: Texts, others: Texts = {}, more: Partial<EffectOptions> = {}): Report {
  return effectReport(memorySource(oakFiles(visits, others)), effectOptions(more))
}

export const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []

export function only(rows: readonly Row[]): Row {
  const [row, ...others] = rows
  if (!row || others.length > 0) throw new Error(`one row is asked for, not ${rows.length}`)
  return row
}

/**
 * Ten traps of one device, set on a day and read every so many days: what it caught each time, renewed each time, so that
 * counts are catches. `done` is added to the visit of a day.
 */
export function readEvery(
  counts: readonly (number | null)[],
  {
    from = '2026-03-01',
    every = 10,
    id = 'K1',
    set = board(),
    pest = 'german-cockroach',
    done = {},
  }: {
    from?: string
    every?: number
    id?: string
    set?: string
    pest?: string
    done?: Texts
  } = {},
): Record<string, string> {
  const begin = day(from)
  const visits: Record<string, string> = { [isoOf(begin)]: `set: {${id}: ${set}}` }
  counts.forEach((count, at) => {
    const date = isoOf(begin + every * (at + 1))
    const reading = count === null ? '{unusable: missing, renewed: yes}' : `{${pest}: ${count}, renewed: yes}`
    visits[date] = [`readings: {${id}: ${reading}}`, ...(done[date] ? [done[date]] : [])].join('\n')
  })
  return visits
}

export const cleaned = (area = 'kitchen', pest = 'german-cockroach') =>
  `actions: {clean: {did: scrubbed, tactic: cleaning, area: ${area}, pest: ${pest}}}`

/** Another site, with two kitchens and a hall, and its visits under their dates. */
export function elm(visits: Texts): Record<string, string> {
  const files: Record<string, string> = {
    'sites/elm/site.yaml':
      'name: Elm School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: front office\ncontract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]\nareas: {galley: {kind: kitchen}, scullery: {kind: kitchen}, hall: {kind: dining}}\n',
  }
  for (const [date, text] of Object.entries(visits))
    files[`sites/elm/visits/${date}-okafor.yaml`] = `purpose: follow-up\nby: okafor\n${text}`
  return files
}
