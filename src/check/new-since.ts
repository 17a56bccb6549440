import type { ReadOptions } from '../ledger/read-ledger.js'
import type { ExceptedProblem, NotChecked, Problem } from '../types.js'
import { fingerprintOf } from './fingerprint.js'
import { gravity, isNoWorse } from './no-worse.js'
import type { CheckResult } from './run-check.js'
import { standsOn } from './stands-on.js'

/** What stands in a ledger, parted into what a change brought and what stood before it. */
export interface ChangeChecked {
  /** The complete check of the ledger as it is now. */
  readonly now: CheckResult
  /** Problems that stand now and stood in none of the ledgers before. */
  readonly brought: readonly Problem[]
  /** Problems that stand now and stood before. */
  readonly known: readonly Problem[]
  /** Problems that an exception covers now and none covered before. */
  readonly excepted: readonly ExceptedProblem[]
  /**
   * What is checked now and was not checked before, with the reason: nothing is known to have stood there, so all its
   * problems are among those brought, and which of them are new cannot be told.
   */
  readonly notCompared: readonly NotChecked[]
}

/**
 * What a change brought, from complete checks of the ledger as it is now and as it was before, as of one day, so that what it
 * causes elsewhere is told too. A merge has several ledgers before it: it brings what stood in none of them. With no
 * ledger before, everything is brought.
 */
export function broughtSince(
  now: CheckResult,
  then: readonly CheckResult[],
  options: ReadOptions,
): ChangeChecked {
  const standing = standingIn(now, options)
  const brought = new Set(
    inNone(
      standing,
      then.map((result) => standingIn(result, options)),
    ),
  )
  const excepted = now.excepted.filter(({ problem }) => standsOn(problem, options.asOf))
  const newlyExcepted = new Set(
    inNone(
      excepted.map(({ problem }) => problem),
      then.map((result) => result.excepted.map(({ problem }) => problem)),
    ),
  )
  return {
    now,
    brought: standing.filter((problem) => brought.has(problem)),
    known: standing.filter((problem) => !brought.has(problem)),
    excepted: excepted.filter(({ problem }) => newlyExcepted.has(problem)),
    notCompared: notComparedWith(now, then),
  }
}

function standingIn(result: CheckResult, { asOf }: ReadOptions): Problem[] {
  return result.problems.filter((problem) => standsOn(problem, asOf))
}

function inNone(after: readonly Problem[], befores: readonly (readonly Problem[])[]): readonly Problem[] {
  let left = new Set(after)
  for (const before of befores) {
    const unknown = new Set(newAmong(after, before))
    left = new Set([...left].filter((problem) => unknown.has(problem)))
  }
  return [...left]
}

function notComparedWith(now: CheckResult, then: readonly CheckResult[]): NotChecked[] {
  // What is not checked now either is told as that, and has no problems of which to doubt whether they are new.
  const told = new Set(now.notChecked.map(({ what }) => what))
  const found: NotChecked[] = []
  for (const each of then.flatMap(({ notChecked }) => notChecked)) {
    if (told.has(each.what)) continue
    told.add(each.what)
    found.push(each)
  }
  return found
}

/**
 * The problems of a ledger that are not among those of another, compared as multisets, so that the same problem a
 * second time is new. First by fingerprint; then, since an item put before another in a list moves it, by everything
 * but the number in the list. A problem that has become worse is new too: a note that is an error now, or one that is
 * told for three uses and was told for two.
 */
export function newAmong(after: readonly Problem[], before: readonly Problem[]): Problem[] {
  const known = new Set<Problem>()
  const left = paired(after, before, fingerprintOf, known)
  paired(
    after.filter((problem) => !known.has(problem)),
    left,
    withoutListNumbers,
    known,
  )
  return after.filter((problem) => !known.has(problem))
}

/** Pairs problems one to one by a key, puts those that found a partner into `known`, and returns the partners left over. */
function paired(
  after: readonly Problem[],
  before: readonly Problem[],
  keyOf: (problem: Problem) => string,
  known: Set<Problem>,
): Problem[] {
  const partners = new Map<string, Problem[]>()
  for (const problem of before) {
    const key = keyOf(problem)
    const same = partners.get(key)
    if (same) same.push(problem)
    else partners.set(key, [problem])
  }
  // The least grave that is grave enough is taken, so that a graver one is left for a graver problem.
  for (const same of partners.values()) same.sort((a, b) => gravity(a) - gravity(b))
  for (const problem of after) {
    const same = partners.get(keyOf(problem)) ?? []
    const at = same.findIndex((partner) => isNoWorse(problem, partner))
    if (at === -1) continue
    same.splice(at, 1)
    known.add(problem)
  }
  return [...partners.values()].flat()
}

/** Its own day and arguments belong to it, lest a problem mended in one item hide the same one made in another. */
function withoutListNumbers({ rule, at, identity, args, from, until }: Problem): string {
  const keys = at.path.filter((key) => typeof key === 'string')
  return JSON.stringify([rule, at.file, keys, identity, args, from, until ?? null])
}
