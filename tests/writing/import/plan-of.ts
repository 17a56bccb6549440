import { memorySource } from '../../../src/files/memory.js'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import type { ImportKind } from '../../../src/writing/import/mapping.js'
import type { Asked, ImportPlan } from '../../../src/writing/import/plan-import.js'
import { planImport } from '../../../src/writing/import/plan-import.js'
import { readMapping } from '../../../src/writing/import/read-mapping.js'
import type { Given } from '../../../src/writing/import/row-head.js'
import { day } from '../../ledger/small-site.js'

/** Oak School with three traps in the kitchen from 2026-03-06 on: K2 and K10 for cockroaches, K3 for ants as well. */
export const traps = `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set:
  K2: {kind: sticky-trap, area: kitchen, for: [german-cockroach], within-reach: no}
  K3: {kind: sticky-trap, area: kitchen, for: [german-cockroach, ant], within-reach: no}
  K10: {kind: sticky-trap, area: kitchen, for: [german-cockroach], within-reach: no}
`

/** One row for each pest on a device, all of Oak School and okafor. */
export const plainMap = `
date: Date
site: {always: oak}
by: {always: okafor}
device: Trap
pest: Pest
count: Count
`

export interface Tried {
  readonly kind?: ImportKind
  readonly map?: string
  readonly ledger?: ReadonlyMap<string, string>
  readonly given?: Given
  readonly today?: string
}

/** What a file would bring, or the reason it cannot be read. */
export function tryImport(csv: string | Uint8Array, tried: Tried = {}) {
  const {
    kind = 'counts',
    map = plainMap,
    ledger = ledgerWith(traps),
    given = {},
    today = '2026-04-30',
  } = tried
  const read = readMapping(kind, 'map.yaml', Buffer.from(map, 'utf8'))
  if ('troubles' in read) throw new Error(`the mapping of this test: ${JSON.stringify(read.troubles)}`)
  const bytes = typeof csv === 'string' ? Buffer.from(csv, 'utf8') : csv
  return planImport(
    memorySource(ledger),
    { kind, mapping: read.mapping, file: 'in.csv', bytes, given } as Asked,
    { asOf: day(today), asOfIsToday: true },
  )
}

export function planOf(csv: string | Uint8Array, tried: Tried = {}): ImportPlan {
  const plan = tryImport(csv, tried)
  if ('unreadable' in plan) throw new Error(plan.unreadable)
  return plan
}

/** Problems as `line:column says`, with what to do about that one. */
export function troublesOf(csv: string | Uint8Array, tried: Tried = {}): string[] {
  return planOf(csv, tried).troubles.map(
    ({ file, line, column, says, todo }) =>
      `${file === 'in.csv' ? '' : `${file}:`}${line}:${column} ${says}${todo === undefined ? '' : ` ${todo}`}`,
  )
}

/** The new records, by path; none may be wrong. */
export function recordsOf(csv: string | Uint8Array, tried: Tried = {}): Record<string, string> {
  const plan = planOf(csv, tried)
  if (plan.troubles.length > 0) throw new Error(JSON.stringify(plan.troubles))
  return Object.fromEntries(plan.fresh.map(({ file, text }) => [file, text] as const).sort())
}

export function unreadable(csv: string | Uint8Array, tried: Tried = {}): string {
  const plan = tryImport(csv, tried)
  if (!('unreadable' in plan)) throw new Error(`it could be read: ${JSON.stringify(plan.troubles)}`)
  return plan.unreadable
}
