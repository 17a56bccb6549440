import { compareQuantities, parseQuantity } from '../measure/quantities.js'
import type { RecordOf } from '../records/kinds.js'
import type { Citation, Day } from '../types.js'
import { getOrMake } from './get-or-make.js'
import { holdsOn, inForce } from './spans.js'

/** A value in force on a day, with everything it rests on. */
export interface ParameterValue {
  readonly value: number | string
  readonly sources: readonly Citation[]
}

/** Gives the value of a parameter in force on a day; undefined where no rulebook in force says anything. */
export type Parameters = (name: string, day: Day, strictest?: 'least' | 'most') => ParameterValue | undefined

/**
 * Values by name from the rulebooks in force on the day. Where several speak, the strictest wins and all are
 * cited: the least value (an interval, a distance) unless the rule says the most is stricter (a lead time).
 */
export function parametersOf(
  district: RecordOf<'district'>,
  rulebooks: ReadonlyMap<string, RecordOf<'rulebook'>>,
): Parameters {
  const caches = { least: new Map<string, Map<Day, ParameterValue | null>>(), most: new Map() }
  return (name, day, strictest = 'least') => {
    const byDay = getOrMake(caches[strictest], name, () => new Map<Day, ParameterValue | null>())
    const known = byDay.get(day)
    if (known !== undefined) return known ?? undefined
    const found = lookUp(district, rulebooks, name, day, strictest)
    byDay.set(day, found ?? null)
    return found
  }
}

function lookUp(
  district: RecordOf<'district'>,
  rulebooks: ReadonlyMap<string, RecordOf<'rulebook'>>,
  name: string,
  day: Day,
  strictest: 'least' | 'most',
): ParameterValue | undefined {
  let best: number | string | undefined
  const sources: Citation[] = []
  for (const entry of district.rulebooks) {
    if (!holdsOn(entry, day)) continue
    const value = inForce(rulebooks.get(entry.rulebook)?.parameters?.[name], day)
    if (!value) continue
    sources.push({ kind: value.kind, text: value.source })
    if (best === undefined) best = value.value
    else if (strictest === 'least' ? compared(value.value, best) < 0 : compared(value.value, best) > 0)
      best = value.value
  }
  return best === undefined ? undefined : { value: best, sources }
}

/** Below 0, 0 or above 0 as the first value is less than, equal to or more than the second, whatever their units. */
function compared(a: number | string, b: number | string): number {
  const [first, second] = [parseQuantity(String(a)), parseQuantity(String(b))]
  return (first && second && compareQuantities(first, second)) ?? ordered(a) - ordered(b)
}

/** Days of a mean month of the Gregorian calendar, 146,097 / 4,800: only to tell which of two terms is longer. */
const meanMonth = 30.436875

function ordered(value: number | string): number {
  const calendar = /^(\d+(?:\.\d+)?) (month|year)s?$/.exec(String(value))
  return calendar ? Number(calendar[1]) * meanMonth * (calendar[2] === 'year' ? 12 : 1) : amountOf(value)
}

/**
 * The number of a value; days for a length of time, so that a week and seven days compare; a duty that holds
 * (yes) is more than one that does not (no).
 */
export function amountOf(value: number | string): number {
  if (typeof value === 'number') return value
  if (value === 'yes') return 1
  if (value === 'no') return 0
  return daysOf(value) ?? Number.parseFloat(value)
}

/** Days in `14 days`, `2 weeks`; null when the text is no length of time in days or weeks. */
export function daysOf(text: string | number): number | null {
  if (typeof text === 'number') return text
  const match = /^(\d+(?:\.\d+)?) (day|days|week|weeks)$/.exec(text)
  if (!match) return null
  return Number(match[1]) * (match[2]?.startsWith('week') ? 7 : 1)
}
