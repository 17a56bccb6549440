import { existsSync } from 'node:fs'
import { relative, resolve, sep } from 'node:path'
import { leftOutOfCheckout, withLeftOut } from '../files/git-absent.js'
import { revision } from '../files/git-source.js'
import { readRecord } from '../files/read-record.js'
import type { Source } from '../files/source.js'
import { workTree } from '../files/work-tree.js'
import type { Day } from '../types.js'
import { dayOption } from './day-option.js'
import { rootAbove } from './ledger-root.js'
import type { Surroundings } from './terminal.js'
import { today } from './today.js'
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
  const source =
    options.rev === undefined
      ? withLeftOut(here.looked?.root === root ? here.looked.source : workTree(root), leftOutOfCheckout(root))
      : revision(root, options.rev)
  if (!source) throw new UsageError(`git knows no revision ${options.rev} here.`)
  const asOf = options.asOf === undefined ? undefined : dayOption('--as-of', options.asOf)
  return {
    root,
    source,
    asOf: asOf ?? today(timeZoneOf(source), here),
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

/** The as-of day where there is no ledger, and so no time zone: that of the option, or else today. */
export function dayWithoutLedger(asOf: string | undefined, here: Surroundings): Day {
  return asOf === undefined ? today('UTC', here) : dayOption('--as-of', asOf)
}

export function timeZoneOf(source: Source): string {
  const read = source.read('district.yaml')
  if ('refused' in read) return 'UTC'
  const parsed = readRecord(read.bytes)
  const zone = 'data' in parsed ? parsed.data['time-zone'] : undefined
  return typeof zone === 'string' ? zone : 'UTC'
}
