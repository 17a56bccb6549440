import { scaleUtc } from 'd3-scale'
import { dayOf, isoOf } from '../measure/calendar.js'

const millisecondsOfDay = 86_400_000

export interface DayScale {
  /** Where a day lies; undefined outside the period, and for what is no day. */
  readonly at: (isoDay: string) => number | undefined
  readonly ticks: readonly { readonly x: number; readonly says: string }[]
}

/**
 * Days from left to right; a period of one day lies in the middle. Ticks are on firsts of months or years, or on evenly
 * spaced days of a short period. Reckoned in UTC days, so that no zone of a machine shifts any. Undefined where the
 * period is none.
 */
export function dayScale(from: string, to: string, left: number, right: number): DayScale | undefined {
  const [first, last] = [dayOf(from), dayOf(to)]
  if (first === null || last === null || last < first) return undefined
  const time = (day: number) => day * millisecondsOfDay
  const room = first === last ? 1 : 0
  const scale = scaleUtc([time(first - room), time(last + room)], [left, right])
  const ticks = scale
    .ticks(Math.min(4, last - first + 1))
    .map((date) => date.getTime() / millisecondsOfDay)
    .filter((day) => Number.isInteger(day) && day >= first && day <= last)
  const days = ticks.length > 0 ? ticks : [first]
  const says = tickWords(days)
  return {
    at: (isoDay) => {
      const day = dayOf(isoDay)
      return day === null || day < first || day > last ? undefined : scale(time(day))
    },
    ticks: days.map((day, at) => ({ x: scale(time(day)), says: says[at] ?? '' })),
  }
}

/** As short as all of them allow: the year, the month, or the day. */
function tickWords(days: readonly number[]): string[] {
  const texts = days.map(isoOf)
  if (texts.length > 1 && texts.every((text) => text.endsWith('-01-01')))
    return texts.map((text) => text.slice(0, 4))
  if (texts.length > 1 && texts.every((text) => text.endsWith('-01')))
    return texts.map((text) => text.slice(0, 7))
  return texts
}
