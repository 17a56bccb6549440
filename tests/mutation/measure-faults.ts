import { createHash } from 'node:crypto'
import { locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import type { LedgerOptions } from './base-ledgers.js'
import { cleanLedger, ledgersPerKind } from './base-ledgers.js'
import type { Draft } from './draft.js'
import { copyOf, lineOf } from './draft.js'
import type { FaultKind, Where } from './fault.js'
import { seededRandom } from './fault.js'

/** What the check says of a ledger on its last day, taken as today: problems as `file:line rule`, each once. */
export interface Verdict {
  readonly standing: readonly string[]
  /** Problems that a later record made good. */
  readonly ended: readonly string[]
  /** Problems told twice: one rule, one place, one thing. */
  readonly toldTwice: readonly string[]
  readonly notChecked: readonly string[]
}

export function verdictOn({ files, lastDay }: Draft): Verdict {
  const source = memorySource(files)
  const result = runCheck(source, { asOf: lastDay, asOfIsToday: true })
  const located = locateProblems(
    result.problems.filter(({ from }) => from <= lastDay),
    source,
  )
  const lines = located.map(({ problem, location, fingerprint }) => ({
    line: `${problem.at.file}:${location?.line ?? 1} ${problem.rule}`,
    stands: standsOn(problem, lastDay),
    // A fault of the text has no key path; two at one line are one thing told twice.
    fingerprint: `${fingerprint} ${problem.from} ${problem.at.span ? location?.line : ''}`,
  }))
  const once = (all: readonly { readonly line: string }[]) => [...new Set(all.map(({ line }) => line))].sort()
  const first = new Set<string>()
  return {
    standing: once(lines.filter(({ stands }) => stands)),
    ended: once(lines.filter(({ stands }) => !stands)),
    toldTwice: once(lines.filter(({ fingerprint }) => first.size === first.add(fingerprint).size)),
    notChecked: result.notChecked.map(({ what, why }) => `${what}: ${why}`),
  }
}

/** One fault in one ledger, and what came of it. */
export interface Trial {
  readonly ledger: number
  /** Places at which the fault should have been reported and was not. */
  readonly missed: readonly string[]
  /** What was reported and is no consequence of the fault. */
  readonly falseAlarms: readonly string[]
  /** False alarms that the kind says the program gives today. */
  readonly tolerated: readonly string[]
  /** Of the rules a kind allows beside its own, those that spoke. */
  readonly also: readonly string[]
  /** The ledger was to have a part that cannot be judged, or was not to have one, and it is otherwise. */
  readonly wronglyChecked: readonly string[]
  /** Places of the fault outside the files its kind names. */
  readonly elsewhere: readonly string[]
}

/**
 * Puts faults into ledgers that are generated once, each in a copy. A kind gets so many ledgers, and more where what it
 * allows or tolerates did not yet happen in them.
 */
export function faultTrials(options: readonly LedgerOptions[], perKind: number, atMost = ledgersPerKind) {
  const ledgers = options.map(cleanLedger)
  const number = (kind: FaultKind) => [...kind.name].reduce((sum, letter) => sum + letter.charCodeAt(0), 0)
  return function trialsOf(kind: FaultKind): Trial[] {
    const trials: Trial[] = []
    for (const step of ledgers.keys()) {
      if (trials.length >= perKind && allHappened(kind, trials)) break
      if (trials.length === atMost) break
      const ledger = (number(kind) + step) % ledgers.length
      const base = ledgers[ledger]
      const trial = base && trialOf(kind, base, ledger)
      if (trial) trials.push(trial)
    }
    return trials
  }
}

function allHappened(kind: FaultKind, trials: readonly Trial[]): boolean {
  const spoke = new Set(trials.flatMap(({ also }) => also))
  return (
    Object.keys(kind.also ?? {}).every((rule) => spoke.has(rule)) &&
    (kind.tolerated === undefined || trials.some(({ tolerated }) => tolerated.length > 0))
  )
}

const standingBefore = new Map<string, readonly string[]>()

/** What stands before the fault, where something was added for it. Many kinds add the same: it is checked once. */
function standingIn(draft: Draft): readonly string[] {
  const hash = createHash('sha256')
  hash.update(JSON.stringify([draft.lastDay, ...draft.files]))
  const name = hash.digest('hex')
  const known = standingBefore.get(name) ?? verdictOn(draft).standing
  standingBefore.set(name, known)
  return known
}

function trialOf(kind: FaultKind, base: Draft, ledger: number): Trial | null {
  const draft = copyOf(base)
  const fault = kind.make(draft, seededRandom(1000 * ledger + kind.name.length))
  if (!fault) return null
  const before = fault.before ? standingIn(fault.before) : []
  const { standing, ended, toldTwice, notChecked } = verdictOn(draft)
  const told = kind.ended ? ended : standing
  const expected = expectedIn(draft, kind, fault.where)
  const unmet = expected.filter((wanted) => !told.some((line) => matches(line, wanted)))
  const allowed = (line: string) =>
    expected.some((wanted) => matches(line, wanted)) || kind.also?.[ruleIn(line)] !== undefined
  const falseAlarms = [
    ...before.map((line) => `before the fault: ${line}`),
    ...told.filter((line) => !allowed(line)),
    ...(kind.ended ? standing.map((line) => `still standing: ${line}`) : []),
    ...toldTwice.map((line) => `told twice: ${line}`),
  ]
  const isTolerated = (line: string) => kind.tolerated?.[ruleIn(line)] !== undefined
  return {
    ledger,
    missed: unmet.map(({ text }) => text),
    falseAlarms: falseAlarms.filter((line) => !isTolerated(line)),
    tolerated: falseAlarms.filter(isTolerated),
    also: told.map(ruleIn).filter((rule) => kind.also?.[rule] !== undefined),
    wronglyChecked:
      (kind.unchecked === true) === notChecked.length > 0 ? [] : ['not checked:', ...notChecked],
    elsewhere: fault.where.map(({ file }) => file).filter((file) => !kind.at.test(file)),
  }
}

interface Expected {
  readonly text: string
  readonly file: string
  /** Undefined where any line of the file will do. */
  readonly line: number | undefined
  readonly rule: string
}

function expectedIn(draft: Draft, kind: FaultKind, where: readonly Where[]): Expected[] {
  return where.map(({ file, path, onKey, line }) => {
    const known = line ?? (path ? lineOf(draft, file, path, onKey) : undefined)
    return { text: `${file}:${known ?? '*'} ${kind.expect}`, file, line: known, rule: kind.expect }
  })
}

function matches(line: string, { file, line: number, rule }: Expected): boolean {
  if (number !== undefined) return line === `${file}:${number} ${rule}`
  return line.startsWith(`${file}:`) && ruleIn(line) === rule
}

function ruleIn(line: string): string {
  return line.slice(line.lastIndexOf(' ') + 1)
}
