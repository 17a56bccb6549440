import { existsSync } from 'node:fs'
import { relative, resolve, sep } from 'node:path'
import { revision } from '../files/git-source.js'
import { readRecord } from '../files/read-record.js'
import type { Source } from '../files/source.js'
import { workTree } from '../files/work-tree.js'
import { dayOf } from '../measure/calendar.js'
import type { Day } from '../types.js'
import { dayOption } from './day-option.js'
import { rootAbove } from './ledger-root.js'
import type { Surroundings } from './terminal.js'
import { UsageError } from './usage-error.js'

export interface LedgerOptions {
  readonly ledger?: string
  readonly rev?: string
  readonly asOf?: string
}

export interface OpenLedger {
  readonly root: string
  readonly source: Source
  readonly asOf: Day
  readonly asOfIsToday: boolean
  /** The paths asked for, from the root of the ledger; empty when the whole ledger was. */
  readonly asked: readonly string[]
}

/** Finds the ledger that holds the paths, or the current folder: the nearest district.yaml, looking upwards. */
export function openLedger(paths: readonly string[], options: LedgerOptions, here: Surroundings): OpenLedger {
  const start = resolve(here.cwd(), options.ledger ?? paths[0] ?? '.')
  const root = rootAbove(start)
  if (root === undefined) {
    throw new UsageError(
      `There is no ledger at ${options.ledger ?? paths[0] ?? here.cwd()}: no district.yaml there or above. Start one with \`doorsweep new district\`, or try \`doorsweep demo DIR\`.`,
    )
  }
  const asked = paths
    .map((path) => insideOf(root, resolve(here.cwd(), path), path, options.rev !== undefined))
    .filter((path) => path !== '')
  const source = options.rev === undefined ? workTree(root) : revision(root, options.rev)
  if (!source) throw new UsageError(`git knows no revision ${options.rev} here.`)
  const asOf = options.asOf === undefined ? undefined : dayOption('--as-of', options.asOf)
  return {
    root,
    source,
    asOf: asOf ?? todayIn(source, here),
    asOfIsToday: asOf === undefined,
    asked: asked.length === paths.length ? asked : [],
  }
}

function insideOf(root: string, path: string, written: string, elsewhere: boolean): string {
  const inside = relative(root, path).split(sep).join('/')
  if (inside.startsWith('..')) throw new UsageError(`${written} is not in the ledger at ${root}.`)
  if (!elsewhere && !existsSync(path)) throw new UsageError(`${written} does not exist.`)
  return inside
}

function todayIn(source: Source, here: Surroundings): Day {
  return today(timeZoneOf(source), here)
}

/** The as-of day where there is no ledger, and so no time zone: that of the option, or else today. */
export function dayWithoutLedger(asOf: string | undefined, here: Surroundings): Day {
  return asOf === undefined ? today('UTC', here) : dayOption('--as-of', asOf)
}

/** Today in a time zone. DOORSWEEP_TODAY stands in for the clock, so that a run can be repeated. */
export function today(timeZone: string, here: Surroundings): Day {
  const stated = here.env.DOORSWEEP_TODAY
  if (stated !== undefined) {
    const day = dayOf(stated)
    if (day === null) throw new UsageError(`DOORSWEEP_TODAY=${stated}: write a day as year-month-day.`)
    return day
  }
  const parts = formatIn(timeZone).formatToParts(new Date())
  const part = (type: string) => parts.find((found) => found.type === type)?.value ?? ''
  return dayOf(`${part('year')}-${part('month')}-${part('day')}`) ?? 0
}

function formatIn(timeZone: string): Intl.DateTimeFormat {
  const shape = { year: 'numeric', month: '2-digit', day: '2-digit' } as const
  try {
    return new Intl.DateTimeFormat('en-CA', { ...shape, timeZone })
  } catch {
    return new Intl.DateTimeFormat('en-CA', { ...shape, timeZone: 'UTC' })
  }
}

export function timeZoneOf(source: Source): string {
  const read = source.read('district.yaml')
  if ('refused' in read) return 'UTC'
  const parsed = readRecord(read.bytes)
  const zone = 'data' in parsed ? parsed.data['time-zone'] : undefined
  return typeof zone === 'string' ? zone : 'UTC'
}
