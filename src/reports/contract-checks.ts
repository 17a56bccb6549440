import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { CheckTerms } from '../rules/inspection/check-terms.js'
import { checkTermsOn, deviceName } from '../rules/inspection/check-terms.js'
import type { CheckDue, ToldBy } from '../rules/inspection/checks-due.js'
import { checksDue } from '../rules/inspection/checks-due.js'
import type { Day } from '../types.js'
import type { Settled } from './contract-outcomes.js'
import { noContract } from './contract-spans.js'
import type { Period } from './period.js'

export type AsksForChecks = 'contract' | 'plan' | 'rulebook'

/** A check of a device that was late or has no record. */
export interface LateCheck extends Settled {
  readonly device: string
  readonly kind: string
  readonly area: string
  readonly interval: string
  readonly since: Day
  readonly lastDay: Day
  readonly read: Day | undefined
  /** The problem that tells the same cause in its stead; undefined where it is told as overdue itself. */
  readonly toldBy: ToldBy | undefined
  readonly files: readonly string[]
}

/** Checks of devices under one entry of the contract, by what states their interval. */
export interface CheckFacts {
  readonly index: number
  readonly askedBy: AsksForChecks
  readonly intervals: Set<string>
  inTime: number
  running: number
  noAccess: number
  readonly late: LateCheck[]
  /** By last day: checks due together are made or left together. */
  readonly together: Map<Day, { successes: number; trials: number }>
  readonly files: Set<string>
}

/**
 * Checks of devices settled in a period: read in time on one of its days, or late from one of them on. Where a month
 * asks for one check, further ones of that month count for nothing; else each look settles the interval then running.
 */
export function checkFacts(view: SiteView, period: Period): CheckFacts[] {
  const groups = new Map<string, CheckFacts>()
  const groupOf = ({ service, sources }: CheckTerms) => {
    const index = service?.index ?? noContract
    const askedBy = asksFor(sources[0]?.kind)
    return getOrMake(groups, `${index} ${askedBy}`, () => newGroup(index, askedBy))
  }
  let before: CheckDue | undefined
  for (const due of checksDue(view)) {
    if (before && !isSameMonth(before, due)) add(view, period, groupOf, before)
    before = due
  }
  if (before) add(view, period, groupOf, before)
  countNoAccess(view, period, groupOf)
  return [...groups.values()]
}

type GroupOf = (terms: CheckTerms) => CheckFacts

function newGroup(index: number, askedBy: AsksForChecks): CheckFacts {
  return {
    index,
    askedBy,
    intervals: new Set(),
    inTime: 0,
    running: 0,
    noAccess: 0,
    late: [],
    together: new Map(),
    files: new Set(),
  }
}

function asksFor(kind: string | undefined): AsksForChecks {
  return kind === 'contract' || kind === 'plan' ? kind : 'rulebook'
}

/** The look between two gaps was a further one of a month that had its check, so that the same check is still asked. */
function isSameMonth(a: CheckDue, b: CheckDue): boolean {
  return a.device === b.device && a.terms.interval === 'monthly' && a.lastDay === b.lastDay
}

function add(view: SiteView, { from, to }: Period, groupOf: GroupOf, due: CheckDue): void {
  const { gap, terms, late, lastDay, device, toldBy } = due
  const isIn = (day: Day) => from <= day && day <= to
  const isRunning = late ? late.from > view.asOf : gap.end === undefined
  if (isRunning) {
    if (to === view.asOf) groupOf(terms).running++
    return
  }
  if (!late) {
    // Picked up or taken up before the check was due, or in a site that was closed by then.
    if (!gap.looked || gap.end === undefined || gap.end > lastDay || !isIn(gap.end)) return
    const group = groupOf(terms)
    group.inTime++
    group.intervals.add(terms.text)
    countTogether(group, lastDay, 1)
    for (const file of filesOn(due, gap.end)) group.files.add(file)
    return
  }
  if (!isIn(late.from)) return
  const read = gap.looked ? gap.end : undefined
  const group = groupOf(terms)
  group.intervals.add(terms.text)
  countTogether(group, lastDay, 0)
  group.late.push({
    outcome: read === undefined ? 'no record' : 'late',
    daysLate: read === undefined ? 0 : read - lastDay,
    device: device.id,
    kind: deviceName(device),
    area: gap.area,
    interval: terms.text,
    since: gap.since,
    lastDay,
    read,
    toldBy,
    files: [...new Set([device.set.visit.file, ...filesOn(due, gap.since), ...filesOn(due, read)])],
  })
}

function countTogether({ together }: CheckFacts, lastDay: Day, successes: 0 | 1): void {
  const cluster = getOrMake(together, lastDay, () => ({ successes: 0, trials: 0 }))
  cluster.trials++
  cluster.successes += successes
}

/** Visits that looked at the device on a day. */
function filesOn({ device }: CheckDue, day: Day | undefined): string[] {
  return device.checks.flatMap(({ moment }) => (moment.day === day ? moment.visit.file : []))
}

function countNoAccess(view: SiteView, { from, to }: Period, groupOf: GroupOf): void {
  for (const device of view.devices)
    for (const { noAccess, moment } of device.checks) {
      if (!noAccess || moment.day < Math.max(from, view.begins) || moment.day > to) continue
      const terms = checkTermsOn(view, device, moment.day)
      if (!terms) continue
      const group = groupOf(terms)
      group.noAccess++
      group.files.add(moment.visit.file)
    }
}
