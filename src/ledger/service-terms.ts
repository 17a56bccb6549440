import { addMonths, firstOfMonth, lastOfMonth, monthOf, weekdayOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import type { Day } from '../types.js'
import type { DistrictView } from './district-view.js'
import { daysOf } from './parameters.js'
import type { SiteView } from './site-view.js'
import { dayIn, inForce } from './spans.js'

export type Contract = RecordOf<'site'>['contract'][number]

/** What the contract of a site asks on a day. */
export interface ServiceTerms {
  readonly contract: Contract
  /** Which entry of `contract` in site.yaml. */
  readonly index: number
  readonly graceDays: number
  readonly inRecess: boolean
}

/** A stretch of days under one entry of the contract; `until` is the first day after it. */
export interface ServicePiece {
  readonly from: Day
  readonly until: Day | undefined
  readonly terms: ServiceTerms
}

export function serviceTermsOn(view: SiteView, day: Day): ServiceTerms | undefined {
  const contracts = view.site.data.contract
  const contract = inForce(contracts, day)
  if (!contract) return undefined
  return {
    contract,
    index: contracts.indexOf(contract),
    graceDays: daysOf(contract.grace ?? 0) ?? 0,
    inRecess: contract['in-recess'] === 'yes',
  }
}

/** The contract of a site cut into stretches in order, from the first to the last day anything can be due. */
export function servicePieces(view: SiteView): ServicePiece[] {
  const end = view.ends === undefined ? undefined : view.ends + 1
  const cuts = new Set<Day>([view.begins])
  for (const contract of view.site.data.contract) {
    cuts.add(dayIn(contract.from))
    if (contract.until !== undefined) cuts.add(dayIn(contract.until) + 1)
  }
  const days = [...cuts]
    .filter((day) => day >= view.begins && (end === undefined || day < end))
    .sort((a, b) => a - b)
  return days.flatMap((from, at) => {
    const terms = serviceTermsOn(view, from)
    return terms ? [{ from, until: days[at + 1] ?? end, terms }] : []
  })
}

/** Days between routine visits; undefined where the contract asks for one in each calendar month. */
export function routineDays(contract: Contract): number | undefined {
  const every = contract['routine-visits']
  if (every === 'monthly') return undefined
  return every === 'weekly' ? 7 : Number(/[0-9]+/.exec(every)?.[0])
}

/**
 * Last day on which the routine visit after one on `since` is in time, for a contract that counts days: a due
 * day within a closure moves to the next school day, unless visits are due in recess too.
 */
export function routineLastDay(district: DistrictView, terms: ServiceTerms, since: Day, days: number): Day {
  return outsideClosures(district, terms, routineDueDay(district, terms, since, days) + terms.graceDays)
}

/** The day on which that visit is due, without the days of grace. */
export function routineDueDay(district: DistrictView, terms: ServiceTerms, since: Day, days: number): Day {
  return outsideClosures(district, terms, since + days)
}

function outsideClosures({ calendar }: DistrictView, terms: ServiceTerms, day: Day): Day {
  return !terms.inRecess && calendar.closureOn(day) ? calendar.nextSchoolDay(day) : day
}

/** Fewest school days with which a month, or what is left of one, counts as in session. */
export function leastSchoolDays(district: DistrictView, day: Day): number {
  const value = district.parameters('visit.month-in-session', day)?.value
  return typeof value === 'number' ? value : 1
}

/** First day of the first month in session after the month of a day; undefined when none is in sight. */
export function nextMonthInSession(
  district: DistrictView,
  day: Day,
  terms: ServiceTerms | undefined,
): Day | undefined {
  let month = firstOfMonth(day)
  for (let looked = 0; looked < 24; looked++) {
    month = addMonths(month, 1)
    if (terms?.inRecess) return month
    if (district.calendar.schoolDaysIn(monthOf(month)) >= leastSchoolDays(district, month)) return month
  }
  return undefined
}

/** Last day on which something asked for once in a calendar month is in time for that month. */
export function monthlyLastDay(month: Day, terms: ServiceTerms | undefined): Day {
  return lastOfMonth(month) + (terms?.graceDays ?? 0)
}

/** Monday to Friday, without closures unless they count too. */
export function weekdaysBetween(district: DistrictView, first: Day, last: Day, inClosures: boolean): number {
  let count = 0
  for (let day = first; day <= last; day++) {
    if (inClosures ? weekdayOf(day) <= 5 : district.calendar.isSchoolDay(day)) count++
  }
  return count
}
