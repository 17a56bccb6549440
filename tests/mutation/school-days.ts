import { addMonths, firstOfMonth, isoOf } from '../../src/measure/calendar.js'
import type { Draft } from './draft.js'
import { dataOf, listAt, mapAt, textAt } from './draft.js'

/** First day of the month before that of the last day. */
export function lastFullMonth({ lastDay }: Draft): number {
  return addMonths(firstOfMonth(lastDay), -1)
}

/** Days after one, up to the last, that are in a stated closure or outside every school year. */
export function closedDaysSince(draft: Draft, since: number): number {
  const years = listAt(dataOf(draft, 'district.yaml'), 'calendar')
  const spans = years.map((year) => [textAt(year, 'from') ?? '', textAt(year, 'until') ?? ''] as const)
  const closures = years.flatMap((year) =>
    Object.values(mapAt(year, 'closed')).map((closure) => {
      const [first = '', last = first] = String(closure).split(' to ')
      return [first, last] as const
    }),
  )
  let closed = 0
  for (let day = since + 1; day <= draft.lastDay; day++) {
    const isWithin = ([first, last]: readonly [string, string]) => first <= isoOf(day) && isoOf(day) <= last
    if (!spans.some(isWithin) || closures.some(isWithin)) closed++
  }
  return closed
}

export function openDaysSince(draft: Draft, since: number): number {
  return draft.lastDay - since - closedDaysSince(draft, since)
}
