import type { Brought } from '../check/brought-by.js'
import { broughtBy } from '../check/brought-by.js'
import type { LocatedProblem } from '../check/locate-problems.js'
import type { Source } from '../files/source.js'
import type { ReadOptions } from '../ledger/read-ledger.js'
import { ruleById } from '../rules/all.js'
import { ledgerFormat } from '../rules/rule.js'
import type { WrittenNew } from './new/write-new.js'
import { writeNew } from './new/write-new.js'

export type WrittenChecked =
  | { readonly is: 'written'; readonly brought: readonly LocatedProblem[] }
  /** It is wrong in itself: nothing was written. */
  | { readonly is: 'wrong'; readonly brought: readonly LocatedProblem[] }
  | { readonly is: 'refused'; readonly why: Exclude<WrittenNew, 'written'> }

/**
 * Writes one new record of a site, but only if nothing in it is wrong in itself: a name that nobody bears, a day that does not
 * exist, a device that does not stand. What else it brings, such as a term that now runs, is told and hinders nothing; nor
 * does what was done and should not have been, which is a fact to be recorded.
 */
export function writeChecked(
  root: string,
  source: Source,
  { site, file, text }: { readonly site: string; readonly file: string; readonly text: string },
  options: ReadOptions,
): WrittenChecked {
  const brought = broughtBy(source, site, new Map([[file, Buffer.from(text, 'utf8')]]), options)
  if (isWrongIn(brought, file)) return { is: 'wrong', brought: brought.problems }
  const written = writeNew(root, file, text)
  return written === 'written'
    ? { is: 'written', brought: brought.problems }
    : { is: 'refused', why: written }
}

/** Whether a file makes the site unreadable, or bears an error of its own. */
export function isWrongIn({ problems, isJudged }: Brought, file: string): boolean {
  if (!isJudged) return true
  return problems.some(
    ({ problem }) => problem.at.file === file && problem.level === 'error' && isOfTheRecord(problem.rule),
  )
}

/** Whether a rule is about the record and not about the work that it tells of: it rests on the format or on YAML. */
function isOfTheRecord(id: string): boolean {
  const rule = ruleById(id)
  return rule === undefined || rule.source === ledgerFormat || rule.source.kind === 'standard'
}
