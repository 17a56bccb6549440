import { dayOf } from '../../src/measure/calendar.js'
import { demoLedger } from '../../src/writing/demo/ledger.js'
import type { Draft } from './draft.js'
import { copyOf } from './draft.js'

export interface LedgerOptions {
  readonly sites: number
  readonly years: number
  readonly seed: number
  readonly until: string
}

const generated = new Map<string, Draft>()

/** A clean generated ledger as its last commit leaves it: generated once, and each time a copy that may be changed. */
export function cleanLedger(options: LedgerOptions): Draft {
  const name = JSON.stringify(options)
  const known = generated.get(name) ?? generate(options)
  generated.set(name, known)
  return copyOf(known)
}

function generate({ until, ...options }: LedgerOptions): Draft {
  const lastDay = dayOf(until)
  if (lastDay === null) throw new RangeError(`no such day: ${until}`)
  const files = new Map<string, string>()
  for (const commit of demoLedger({ ...options, until: lastDay, clean: true }))
    for (const { path, text } of commit.files) files.set(path, text)
  return { files, lastDay }
}

/**
 * The ledgers into which faults are put. Three end in a closure, since some faults stand only there; three have
 * two sites, which share their people.
 */
export const baseLedgers: readonly LedgerOptions[] = [
  { sites: 2, years: 1, seed: 11, until: '2025-11-20' },
  { sites: 1, years: 1, seed: 12, until: '2026-05-15' },
  { sites: 2, years: 1, seed: 13, until: '2026-03-20' },
  { sites: 1, years: 1, seed: 14, until: '2025-12-31' },
  { sites: 1, years: 1, seed: 15, until: '2026-07-10' },
  { sites: 2, years: 1, seed: 16, until: '2025-12-30' },
]

/** On how many ledgers each kind is tried at most, where so many have a place for it: as many as the table is measured on. */
export const ledgersPerKind = 4

/** The short form: every kind in two ledgers, and in more until all that it allows beside its rule has spoken. */
export const ledgersPerKindInShort = 2
