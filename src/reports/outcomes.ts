import type { DistrictView } from '../ledger/district-view.js'
import { isoOf } from '../measure/calendar.js'
import type { Day } from '../types.js'

/** What the records say of something that is asked for. Whether it was done is another matter. */
export type Outcome = 'shown' | 'not shown' | 'not applicable' | 'cannot be checked'

const worstFirst: readonly Outcome[] = ['not shown', 'cannot be checked', 'shown', 'not applicable']

/** One outcome for several: what is not shown in one part is not shown of the whole. */
export function worstOf(outcomes: Iterable<Outcome>): Outcome {
  const found = new Set(outcomes)
  return worstFirst.find((outcome) => found.has(outcome)) ?? 'not applicable'
}

/** What is not shown first, then what cannot be checked. */
export function byOutcome(a: Outcome, b: Outcome): number {
  return worstFirst.indexOf(a) - worstFirst.indexOf(b)
}

/** Days in their order, each once. */
export function eachDay(days: Iterable<Day>): Day[] {
  return [...new Set(days)].sort((a, b) => a - b)
}

/** `2026-03-12 and 2026-03-14`; of more than four days the first three, and how many follow. */
export function daysInWords(days: Iterable<Day>): string {
  return listInWords(eachDay(days).map(isoOf), 'days')
}

/** Up to four of a list; of a longer one the first three, and how many more there are. */
export function listInWords(all: readonly string[], what: string): string {
  if (all.length > 4) return `${all.slice(0, 3).join(', ')} and ${all.length - 3} more ${what}`
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} and ${all[all.length - 1] ?? ''}`
}

/** Every day, for machines and for whoever asks to see the work. */
export function daysInFull(days: Iterable<Day>): string | null {
  return eachDay(days).map(isoOf).join(' ') || null
}

/** `1 use`, `3 uses`. */
export function counted(count: number, one: string, several = `${one}s`): string {
  return `${count} ${count === 1 ? one : several}`
}

const fileOf = {
  person: (id: string) => `people/${id}.yaml`,
  firm: (id: string) => `firms/${id}.yaml`,
  product: (id: string) => `products/${id}/product.yaml`,
} as const

/** Why a record that is named tells nothing: it is not there, or cannot be used. */
export function absentInWords({ broken }: DistrictView, kind: keyof typeof fileOf, id: string): string {
  return `${fileOf[kind](id)} ${broken.has(`${kind} ${id}`) ? 'cannot be used' : 'is absent'}`
}
