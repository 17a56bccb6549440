import type { Refused } from './numbers.js'

/** A time of day as a record has it, 09:10, from that or from one with AM or PM after it. */
export function readTime(text: string): { readonly time: string } | Refused {
  const match = /^([0-9]{1,2}):([0-9]{2})(?::[0-9]{2})?(?: ?([AaPp])\.?[Mm]\.?)?$/.exec(text)
  const hour = Number(match?.[1])
  const half = match?.[3]?.toLowerCase()
  const isHour = half === undefined ? hour < 24 : hour >= 1 && hour <= 12
  if (!match || !isHour || Number(match[2]) > 59)
    return { refused: `\`${text}\` is not a time of day, such as 09:10 or 9:10 AM.` }
  const ofDay = half === undefined ? hour : (hour % 12) + (half === 'p' ? 12 : 0)
  return { time: `${String(ofDay).padStart(2, '0')}:${match[2]}` }
}
