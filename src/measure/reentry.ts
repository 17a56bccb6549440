import { convert, parseQuantity } from './quantities.js'

/**
 * What the re-entry time on a label does to the time a rule states: it takes its place, also where it is shorter,
 * or it holds where it is longer.
 */
export type LabelRole = 'instead' | 'if longer'

/**
 * How long people stay out, in minutes, by one rule and one label. Undefined where neither gives a number: `until
 * dry` is none and never becomes one, since how long drying takes depends on the day and the room.
 *
 * The two ways in which laws combine them: the number of the label where it has one and else the rule's (N.J.S.A.
 * 13:1F-29a: seven hours), and the greater of both (7 Pa. Code 128.106: seven hours; 225 ILCS 10/5.6: two hours).
 */
export function combinedWait(
  rule: number | undefined,
  label: number | undefined,
  role: LabelRole,
): number | undefined {
  return role === 'instead' ? (label ?? rule) : longer(rule, label)
}

/** The longer of two times of which either may be missing. */
export function longer(a: number | undefined, b: number | undefined): number | undefined {
  if (a === undefined || b === undefined) return a ?? b
  return Math.max(a, b)
}

/** Minutes in `30 min` or `7 h`; undefined for a text that is no length of time, such as `until dry`. */
export function minutesIn(text: string): number | undefined {
  const quantity = parseQuantity(text)
  return quantity === null ? undefined : convert(quantity, 'min')?.value
}

/** A length of time as people write it: 390 is `6 h 30 min`. */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes)
  const hours = Math.floor(whole / 60)
  const rest = whole - hours * 60
  if (hours === 0) return `${rest} min`
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`
}
