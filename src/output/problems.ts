import type { LocatedException, LocatedProblem } from '../check/locate-problems.js'
import type { Level, NotChecked } from '../types.js'

/** What a check shows, in any format. */
export interface ProblemsPage {
  readonly asOf: string
  readonly source: string
  readonly problems: readonly LocatedProblem[]
  readonly excepted: readonly LocatedException[]
  readonly notChecked: readonly NotChecked[]
  readonly records: number
  readonly sites: number
  readonly later: number
  /** Problems that stand but that a path or a rule chosen by the user keeps from being shown. */
  readonly hidden: number
}

export function countByLevel(problems: readonly LocatedProblem[]): Record<Level, number> {
  const counts: Record<Level, number> = { error: 0, warning: 0, note: 0 }
  for (const { problem } of problems) counts[problem.level]++
  return counts
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}
