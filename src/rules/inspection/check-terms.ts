import { openDayAfter } from '../../ledger/closures.js'
import type { DeviceHistory } from '../../ledger/device-history.js'
import type { ServiceTerms } from '../../ledger/service-terms.js'
import {
  monthlyLastDay,
  nextMonthInSession,
  routineDays,
  routineLastDay,
  serviceTermsOn,
} from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { DatedSpan } from '../../ledger/spans.js'
import { dayIn, inForce } from '../../ledger/spans.js'
import { addMonths, firstOfMonth } from '../../measure/calendar.js'
import { deviceTable } from '../../records/tables.js'
import type { Citation, Day } from '../../types.js'
import { holdsAnimals } from './device-gaps.js'

/** How long a device may stand unread: once in each calendar month in session, or a length of time. */
export type Interval = 'monthly' | { readonly days: number } | { readonly months: number }

/** What asks for the checks of a device on a day, and how often. */
export interface CheckTerms {
  readonly interval: Interval
  /** The interval as it is written. */
  readonly text: string
  readonly sources: readonly Citation[]
  /** Stated in the contract or in a plan, not merely the advice of a rulebook. */
  readonly adopted: boolean
  readonly service: ServiceTerms | undefined
}

/** Contract first, then the plans of the pests it is for (the shortest), then the rulebooks; undefined if none says. */
export function checkTermsOn(view: SiteView, device: DeviceHistory, day: Day): CheckTerms | undefined {
  const { kind } = device
  const service = serviceTermsOn(view, day)
  const agreed = service?.contract.checks?.[kind]
  if (agreed !== undefined) return terms(agreed, [{ kind: 'contract', text: view.site.file }], true, service)
  let planned: CheckTerms | undefined
  for (const pest of device.for) {
    const plan = view.district.plans.get(pest)
    const text = inForce(plan?.data.spans, day)?.checks?.[kind]
    if (!plan || text === undefined) continue
    const found = terms(text, [{ kind: 'plan', text: plan.file }], true, service)
    if (found && (!planned || roughDays(found.interval) < roughDays(planned.interval))) planned = found
  }
  if (planned) return planned
  const advice = view.district.parameters(`check.${kind}`, day)
  return advice && terms(String(advice.value), advice.sources, false, service)
}

function terms(
  text: string,
  sources: readonly Citation[],
  adopted: boolean,
  service: ServiceTerms | undefined,
): CheckTerms | undefined {
  const interval = intervalOf(text)
  return interval && { interval, text, sources, adopted, service }
}

/** `monthly`, `14 days`, `2 weeks`, `3 months`. Undefined for anything else. */
export function intervalOf(text: string): Interval | undefined {
  if (text === 'monthly') return text
  const match = /^(\d+(?:\.\d+)?) (day|week|month)s?$/.exec(text)
  if (!match) return undefined
  const number = Number(match[1])
  if (match[2] === 'month') return { months: Math.floor(number) }
  return { days: Math.floor(match[2] === 'week' ? number * 7 : number) }
}

/** Days of an interval, to tell which of two is longer; months as 31 days. */
function roughDays(interval: Interval): number {
  if (interval === 'monthly') return 31
  return 'days' in interval ? interval.days : interval.months * 31
}

/** Whether the contract or a plan lets a device stand unread from one routine visit to the next. */
export function longerThanRoutine(found: CheckTerms | undefined): boolean {
  if (!found?.adopted || !found.service) return false
  return roughDays(found.interval) > (routineDays(found.service.contract) ?? 31)
}

/** Whether the routine visits of the contract are what these checks wait for: where one is missed, that is told once. */
export function waitsForRoutine(found: CheckTerms): boolean {
  if (found.interval === 'monthly') return true
  return (
    found.service !== undefined && roughDays(found.interval) >= (routineDays(found.service.contract) ?? 28)
  )
}

/**
 * Last day on which a check is in time, after a look on `since`. `coveredMonth` is a day in the last calendar
 * month that has its check. Undefined when no month in session is in sight.
 */
export function lastDayInTime(
  view: SiteView,
  device: DeviceHistory,
  found: CheckTerms,
  since: Day,
  coveredMonth: Day,
): Day | undefined {
  const { interval, service } = found
  if (interval === 'monthly') return lastDayOfNextMonth(view, service, coveredMonth)
  const counted = 'months' in interval ? addMonths(since, interval.months) : undefined
  // An animal in a trap waits weekends, closures and all; boards and stations are not missed while school is out.
  if (holdsAnimals(device.kind)) return counted ?? since + ('days' in interval ? interval.days : 0)
  const days = counted === undefined ? ('days' in interval ? interval.days : 0) : counted - since
  const own = service?.inRecess ? since + days : openDayAfter(view.district, since, days)
  if (found.adopted || !service) return own
  // A contract with routine visits has decided how often its monitors are read. Where it says nothing of checks,
  // the 28 days that are published for boards would else be broken by each month of 31 days.
  const routine = routineDays(service.contract)
  const visited =
    routine === undefined
      ? lastDayOfNextMonth(view, service, coveredMonth)
      : routineLastDay(view.district, service, since, routine)
  return visited === undefined ? undefined : Math.max(own, visited)
}

function lastDayOfNextMonth(
  view: SiteView,
  service: ServiceTerms | undefined,
  coveredMonth: Day,
): Day | undefined {
  const month = nextMonthInSession(view.district, coveredMonth, service)
  return month === undefined ? undefined : monthlyLastDay(month, service)
}

/** The calendar month a look counts for: the next one that waits for its check, if still in time for it, else its own. */
export function monthCoveredBy(
  view: SiteView,
  service: ServiceTerms | undefined,
  day: Day,
  coveredMonth: Day,
): Day {
  const waiting = nextMonthInSession(view.district, coveredMonth, service)
  const own = firstOfMonth(day)
  if (waiting === undefined || waiting >= own || day > monthlyLastDay(waiting, service))
    return Math.max(own, firstOfMonth(coveredMonth))
  return waiting
}

/** Days on which the terms for checks may change: contracts, plans and rulebooks that begin or end. */
export function changesOfTerms(view: SiteView): Day[] {
  const { district } = view
  const spans: DatedSpan[] = [
    ...view.site.data.contract,
    ...[...district.plans.values()].flatMap((plan) => plan.data.spans),
    ...district.district.data.rulebooks,
  ]
  const days = spans.flatMap((span) => [
    dayIn(span.from),
    ...(span.until === undefined ? [] : [dayIn(span.until) + 1]),
  ])
  return [...new Set(days)].sort((a, b) => a - b)
}

export function deviceName(device: DeviceHistory): string {
  return deviceTable()[device.kind].name
}
