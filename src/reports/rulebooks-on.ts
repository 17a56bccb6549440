import { isoOf } from '../measure/calendar.js'
import type { Day } from '../types.js'

/** The rulebooks that the district lists for a day, by name. */
export function rulebooksOn(
  listed: readonly { rulebook: string; from: string; until?: string | undefined }[],
  day: Day,
): string {
  const on = isoOf(day)
  const names = listed
    .filter(({ from, until }) => from <= on && (until === undefined || on <= until))
    .map(({ rulebook }) => rulebook)
  return names.length === 0 ? 'none is in force on that day' : names.join(', ')
}
