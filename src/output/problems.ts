import type { LocatedException, LocatedProblem } from '../check/locate-problems.js'
import { ruleById } from '../rules/all.js'
import type { Level, NotChecked, Problem } from '../types.js'

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
  /** When only what a change brought is shown. */
  readonly compared?: Compared
}

/** What a ledger was compared with, to find what a change brought. */
export interface Compared {
  /** In words: `HEAD`, `the merge base of main and HEAD`, `nothing, since there is no commit yet`. */
  readonly with: string
  /** The commits, in full; a merge follows more than one. */
  readonly commits: readonly string[]
  /** Problems that stand and stood there too. They are not shown. */
  readonly known: number
  /** What was not checked there, with the reason: which of the problems shown are new is not known. */
  readonly notCompared: readonly NotChecked[]
}

export function countByLevel(problems: readonly LocatedProblem[]): Record<Level, number> {
  const counts: Record<Level, number> = { error: 0, warning: 0, note: 0 }
  for (const { problem } of problems) counts[problem.level]++
  return counts
}

export function plural(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}

/** What there is to say of something that was not checked before a change. */
export function notComparedSentence({ what, why }: NotChecked): string {
  return `${what}: before the change it could not be checked: ${why}. Which of its problems are new cannot be told, so all are shown.`
}

/** The sentence of a problem, made by its rule. */
export function sentenceOf(problem: Problem): string {
  return ruleById(problem.rule)?.says(problem.args) ?? problem.rule
}

/** The lowest level that makes a check fail. */
export type FailOn = Level | 'never'

const order: Record<FailOn, number> = { note: 0, warning: 1, error: 2, never: 3 }

export function reaches(level: Level, failOn: FailOn): boolean {
  return order[level] >= order[failOn]
}

/**
 * A file of the ledger as a path from the root of the git repository that holds it, which is where services that show
 * problems beside the lines look for it. `prefix` is the folder of the ledger in the repository: `''` when it is the root.
 */
export function pathInRepository(file: string, prefix: string): string {
  const folder = prefix.replace(/\/+$/, '')
  return folder === '' ? file : `${folder}/${file}`
}

/** What was not checked is a file, the folder of a site, or said in words, such as the whole ledger. */
export function isPath(what: string): boolean {
  return /^sites\/|\.[a-z]+$/.test(what)
}
