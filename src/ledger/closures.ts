import type { Day } from '../types.js'
import type { DistrictView } from './district-view.js'
import type { Closure } from './school-calendar.js'

const known = new WeakMap<DistrictView, readonly Closure[]>()
/** How far beyond the as-of day closures are looked for: a whole recess ahead of whatever comes due next. */
const daysAhead = 400

/**
 * Closures of the district in order of day, from the day its records begin to 400 days after the as-of day.
 * Closures that touch or overlap are one, under the name of the first.
 */
export function closuresOf(district: DistrictView): readonly Closure[] {
  const before = known.get(district)
  if (before) return before
  const closures: Closure[] = []
  for (let day = district.recordsBegin; day <= district.asOf + daysAhead; day++) {
    const closure = district.calendar.closureOn(day)
    if (!closure) continue
    const last = closures.at(-1)
    if (last && last.last + 1 >= day) closures[closures.length - 1] = { ...last, last: closure.last }
    else closures.push({ ...closure, first: Math.max(closure.first, district.recordsBegin) })
    day = closure.last
  }
  known.set(district, closures)
  return closures
}

/** The day on which so many days have gone by since a day, days of closures not counted. */
export function openDayAfter(district: DistrictView, since: Day, days: number): Day {
  let day = since + days
  for (const { first, last } of closuresOf(district)) {
    if (last <= since) continue
    if (first > day) break
    day += last - Math.max(first, since + 1) + 1
  }
  return day
}
