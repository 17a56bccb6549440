import { broughtBy } from '../../check/brought-by.js'
import type { LocatedProblem } from '../../check/locate-problems.js'
import { locateProblems } from '../../check/locate-problems.js'
import { runCheck, standsOn } from '../../check/run-check.js'
import { overlaid } from '../../files/overlaid.js'
import type { Source } from '../../files/source.js'
import { onlySite } from '../../ledger/one-site.js'
import type { ReadOptions } from '../../ledger/read-ledger.js'
import { dayOf } from '../../measure/calendar.js'
import { placeOf } from '../new/place.js'
import type { WrittenChecked } from '../write-checked.js'
import { isWrongIn, writeChecked } from '../write-checked.js'
import { draftText } from './draft.js'
import type { Session } from './session.js'

/** The record to be: where it goes and what it says. */
export interface RecordToBe {
  readonly site: string
  readonly file: string
  readonly text: string
}

/** Undefined while it is not known who made the visit or what for. */
export function recordToBe({ plan, state }: Session): RecordToBe | undefined {
  const { by, word, purpose } = state.draft
  const day = dayOf(plan.day)
  if (by === undefined || purpose === undefined || day === null) return undefined
  const place = placeOf({ kind: 'visit', day, site: plan.site, by, ...(word === undefined ? {} : { word }) })
  return 'refused' in place ? undefined : { site: plan.site, file: place.file, text: draftText(state.draft) }
}

/**
 * What is wrong in the record itself as far as it goes, such as a count that fell. What it does not say yet is no
 * problem, and nothing beside the record is told.
 */
export function wrongSoFar(source: Source, record: RecordToBe, options: ReadOptions): LocatedProblem[] {
  const laid = overlaid(
    onlySite(source, record.site),
    new Map([[record.file, Buffer.from(record.text, 'utf8')]]),
  )
  const { problems } = runCheck(laid, options)
  const own = problems.filter(
    (problem) => problem.at.file === record.file && !problem.gap && standsOn(problem, options.asOf),
  )
  return locateProblems(own, laid)
}

/** Files that the record names and that are not beside it yet, from the root of the ledger. */
export function filesNotThere(source: Source, { plan, state }: Session): string[] {
  const folder = `sites/${plan.site}/visits`
  const named = Object.values(state.draft.files).map(({ file }) => `${folder}/${file}`)
  if (named.length === 0) return []
  const isOnTheWay = (one: string) => `${folder}/`.startsWith(`${one}/`) || one.startsWith(`${folder}/`)
  const there = new Set(source.list(isOnTheWay).flatMap(({ path, kind }) => (kind === 'file' ? [path] : [])))
  return named.filter((path) => !there.has(path))
}

/** What the record would bring, and whether it is wrong in itself, so that it cannot be written. */
export function foreseen(
  source: Source,
  record: RecordToBe,
  options: ReadOptions,
): { readonly problems: readonly LocatedProblem[]; readonly isWrong: boolean } {
  const brought = broughtBy(
    source,
    record.site,
    new Map([[record.file, Buffer.from(record.text, 'utf8')]]),
    options,
  )
  return { problems: brought.problems, isWrong: isWrongIn(brought, record.file) }
}

/** Writes it, all or nothing. One that is there already with the same bytes was written just before a crash. */
export function writeRecord(
  root: string,
  source: Source,
  record: RecordToBe,
  options: ReadOptions,
): WrittenChecked {
  const there = source.read(record.file)
  if ('bytes' in there && Buffer.from(there.bytes).equals(Buffer.from(record.text, 'utf8')))
    return { is: 'written', brought: [] }
  return writeChecked(root, source, record, options)
}
