import { overlaid } from '../files/overlaid.js'
import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import type { RecordPath } from '../records/paths.js'
import type { Day, ExceptedProblem, Problem } from '../types.js'
import { asCarriedOut } from './draft.js'
import { fingerprintOf } from './fingerprint.js'
import type { DoneWhen } from './not-yet.js'
import { lastDayFor, notYetOf } from './not-yet.js'
import type { CheckResult } from './run-check.js'
import { runCheck } from './run-check.js'

/** An application that is not made yet: where its record would lie, and what it would say. */
export interface DraftedApplication {
  readonly path: RecordPath & { readonly site: string; readonly day: Day }
  readonly text: Uint8Array
}

/** Something that is not on record yet, with the last day on which it can be done in time. */
export interface StillToDo {
  readonly problem: Problem
  readonly when: DoneWhen
  readonly because: string
  readonly lastDay: Day
}

export interface Precheck {
  readonly draft: DraftedApplication
  /** What would be wrong once it is carried out as drafted. */
  readonly broken: readonly Problem[]
  readonly stillToDo: readonly StillToDo[]
  /** Told of the ledger as it is, and told with other facts once this is carried out: one cause is told once. */
  readonly toldOtherwise: readonly Problem[]
  /** What an exception in force covers. */
  readonly excepted: readonly ExceptedProblem[]
  /** The site with the application carried out; undefined where it could not be judged. */
  readonly view: SiteView | undefined
  readonly treatment: Treatment | undefined
  /** The whole check of the ledger with the application carried out, as of its day. */
  readonly checked: CheckResult
}

/**
 * What the ordinary rules would say of an application if it were carried out as drafted and nothing else happened: what
 * they say of the ledger with it, without what they say of the ledger that does not hold it, both as of its day.
 * `today` tells only which moments have passed.
 */
export function precheck(source: Source, draft: DraftedApplication, today: Day): Precheck {
  const { file, day, site } = draft.path
  const options = { asOf: day, asOfIsToday: false }
  const laid = overlaid(source, new Map([[file, asCarriedOut(draft.text)]]))
  const before = runCheck(overlaid(source, new Map([[file, null]])), options)
  const checked = runCheck(laid, options)
  const { added, otherwise } = differenceOf(lasting(before.problems, day), lasting(checked.problems, day))
  const excepted = differenceOf(
    before.excepted.map(({ problem }) => problem),
    checked.excepted.map(({ problem }) => problem),
  )
  let view: SiteView | undefined
  readLedger(laid, options, (one) => {
    if (one.id === site) view = one
  })
  const treatment = treatmentIn(view, file)
  const broken: Problem[] = []
  const stillToDo: StillToDo[] = []
  for (const problem of added) {
    const open = view && treatment ? openOf(problem, view, treatment) : undefined
    if (open && open.lastDay >= today) stillToDo.push(open)
    else broken.push(problem)
  }
  return {
    draft,
    broken,
    stillToDo,
    toldOtherwise: otherwise,
    excepted: checked.excepted.filter(({ problem }) => excepted.added.includes(problem)),
    view,
    treatment,
    checked,
  }
}

function treatmentIn(view: SiteView | undefined, file: string): Treatment | undefined {
  return view?.treatments.find(({ record, how }) => how === 'application' && record.file === file)
}

function openOf(problem: Problem, view: SiteView, treatment: Treatment): StillToDo | undefined {
  const found = notYetOf(problem)
  if (!found) return undefined
  const { when, because } = found
  return { problem, when, because, lastDay: lastDayFor(problem, view, treatment) }
}

/** What has not ended by the day: it stands, or becomes true later. */
function lasting(problems: readonly Problem[], day: Day): Problem[] {
  return problems.filter(({ until }) => until === undefined || until > day)
}

/**
 * Problems that come on top, as multisets of fingerprints. One that was told before, and now with other facts, is kept
 * apart: it tells of several uses together, of which this would be one more.
 */
function differenceOf(
  before: readonly Problem[],
  after: readonly Problem[],
): { readonly added: Problem[]; readonly otherwise: Problem[] } {
  const known = new Map<string, string[]>()
  for (const problem of before) {
    const fingerprint = fingerprintOf(problem)
    known.set(fingerprint, [...(known.get(fingerprint) ?? []), factsOf(problem)])
  }
  const added: Problem[] = []
  const otherwise: Problem[] = []
  for (const problem of after) {
    const told = known.get(fingerprintOf(problem))
    if (!told || told.length === 0) added.push(problem)
    else {
      const same = told.indexOf(factsOf(problem))
      if (same === -1) otherwise.push(problem)
      told.splice(Math.max(same, 0), 1)
    }
  }
  return { added, otherwise }
}

function factsOf({ args, level }: Problem): string {
  return JSON.stringify([level, Object.entries(args).sort(([a], [b]) => (a < b ? -1 : 1))])
}
