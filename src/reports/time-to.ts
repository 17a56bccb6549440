import type { FollowedTime, SurvivalCurve } from '../measure/kaplan-meier.js'
import { kaplanMeier } from '../measure/kaplan-meier.js'
import { wilson } from '../measure/proportion.js'
import type { Cell, Column } from '../types.js'
import { measuredCells, measuredColumns, measuredWords } from './measured.js'

/** How such a number was found, for a `method` column. */
export const timeMethod =
  'Kaplan & Meier (1958), what is still open counted for as long as it was followed; limits of Brookmeyer & Crowley (1982) on the log(-log) scale'
export const shareMethod = 'interval of a share by Wilson (1927)'

/** Days until half are through, with limits, and why something of it cannot be told. */
export function timeToColumns(id: string, title: string): Column[] {
  return [
    { id: `${id}-shown`, title: `${title} (95 %)`, for: 'people' },
    ...measuredColumns({ id, title, unit: 'days', decimals: 0 }).slice(1),
    { id: `${id}-why`, title: `${title}: because`, for: 'work' },
  ]
}

export function timeToCells(id: string, followed: readonly FollowedTime[]): Record<string, Cell> {
  const curve = kaplanMeier(followed)
  return {
    ...measuredCells(
      { id, decimals: 0 },
      curve && { value: curve.median, low: curve.medianLower, high: curve.medianUpper },
    ),
    [`${id}-shown`]: curve && daysShown(curve),
    [`${id}-why`]: whyOf(curve),
  }
}

/** `10 days (7 to 14)`, `5 days (no limits)`, `7 days or more`; null where nothing can be told. */
function daysShown(curve: SurvivalCurve): string | null {
  const { median, medianLower: low, medianUpper: high } = curve
  const words = (days: number) => `${days.toFixed(0)} ${days.toFixed(0) === '1' ? 'day' : 'days'}`
  if (median === null) return low === null ? null : `${words(low)} or more`
  if (hasNoLimits(curve)) return `${words(median)} (no limits)`
  const interval = measuredWords({ value: null, low, high }, 0)
  return interval === null ? words(median) : `${words(median)} (${interval})`
}

function hasNoLimits({ median, medianLower, medianUpper }: SurvivalCurve): boolean {
  return median !== null && medianLower === null && medianUpper === null
}

function whyOf(curve: SurvivalCurve | null): string {
  if (curve === null) return 'a time is not a number of days from 0 up'
  if (curve.followed === 0) return 'there is none to follow'
  if (curve.mended === 0) return 'all are still open, so nothing can be told'
  if (curve.median === null) return 'more than half are still open, so half of the time cannot be told yet'
  if (hasNoLimits(curve)) return 'the last ones came all at once, so no limits can be told'
  if (curve.medianUpper === null) return 'too few to tell an upper limit'
  return 'half were through by then'
}

/** `half are put right within 12 days (9 to 17)`; undefined where nothing was followed. */
export function halfWithin(followed: readonly FollowedTime[], done: string): string | undefined {
  const curve = kaplanMeier(followed)
  if (curve === null || curve.followed === 0) return undefined
  const { median, medianLower: low, medianUpper: high } = curve
  if (median === null) return `fewer than half were ${done} so far`
  const days = (number: number) => number.toFixed(0)
  const limits = measuredWords({ value: null, low, high }, 0)
  const interval = limits === null ? '' : ` (${limits})`
  if (days(median) === '0') return `half were ${done} on the very day${interval}`
  return `half were ${done} within ${days(median)} ${days(median) === '1' ? 'day' : 'days'}${interval}`
}

/** `none`, `all` or the number itself, before `of them`. */
export function howMany(number: number, of: number): string {
  return number === 0 ? 'none' : number === of ? 'all' : String(number)
}

/** A share in per cent with its interval, and for whoever asks how many of how many. */
export function shareColumns(id: string, title: string, whom: 'people too' | 'work only'): Column[] {
  return [
    ...(whom === 'people too'
      ? [{ id: `${id}-shown`, title: `${title} (95 %)`, for: 'people' } as const]
      : []),
    ...measuredColumns({ id, title, unit: '%', decimals: 0 }).slice(1),
    { id: `${id}-count`, title: `${title}: how many`, decimals: 0, for: 'work' },
    { id: `${id}-of`, title: `${title}: of how many`, decimals: 0, for: 'work' },
  ]
}

export function shareCells(id: string, count: number, of: number): Record<string, Cell> {
  const share = wilson(count, of)
  const percent = (part: number) => (part * 100).toFixed(0)
  return {
    ...measuredCells(
      { id, decimals: 0 },
      share && {
        value: share.proportion === null ? null : share.proportion * 100,
        low: share.lower * 100,
        high: share.upper * 100,
      },
    ),
    [`${id}-shown`]: share && `${percent(count / of)} % (${percent(share.lower)} to ${percent(share.upper)})`,
    [`${id}-count`]: count,
    [`${id}-of`]: of,
  }
}
