import type { DistrictView } from '../ledger/district-view.js'
import type { Loaded } from '../ledger/loaded.js'
import { dayIn } from '../ledger/spans.js'
import type { Day, ExceptedProblem, Problem } from '../types.js'

/**
 * Sets aside the problems that an exception in force covers. Law is never excused: a problem that rests on law
 * stays, whatever an exception says; nor is a file that could not be read.
 */
export function applyExceptions(
  problems: readonly Problem[],
  view: DistrictView,
  asOf: Day,
): { readonly standing: Problem[]; readonly excepted: ExceptedProblem[] } {
  const standing: Problem[] = []
  const excepted: ExceptedProblem[] = []
  const inForce = view.exceptions.filter(
    (exception) => dayIn(exception.data.from) <= asOf && asOf <= dayIn(exception.data.until),
  )
  for (const problem of problems) {
    const exception =
      isLaw(problem) || problem.at.span ? undefined : inForce.find((candidate) => covers(candidate, problem))
    if (!exception) standing.push(problem)
    else
      excepted.push({
        problem,
        exception: exception.file,
        why: exception.data.why,
        until: dayIn(exception.data.until),
      })
  }
  return { standing, excepted }
}

export function isLaw(problem: Problem): boolean {
  return problem.sources.some((source) => source.kind === 'law')
}

/** Whether an exception names a problem: by its rule, site, record, key and what it is about. Not whether it may. */
export function covers({ data }: Loaded<'exception'>, problem: Problem): boolean {
  if (data.rule !== problem.rule) return false
  if (data.site !== undefined && data.site !== problem.site) return false
  if (data.record !== undefined && data.record !== problem.at.file) return false
  if (data.key !== undefined && data.key !== problem.at.path.join('.')) return false
  if (data.about === undefined) return true
  return (
    problem.at.path.includes(data.about) ||
    problem.identity.includes(data.about) ||
    Object.values(problem.args).flat().includes(data.about)
  )
}
