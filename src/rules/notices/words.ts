import type { Treatment } from '../../ledger/treatments.js'
import type { Group, Reach } from './asked-notices.js'

/** Sentences of this family. */

/** `parents and staff`, in that order; `parents who asked` where no duty wants all of them told. */
export function groupWords(asked: readonly { readonly group: Group; readonly reach: Reach }[]): string {
  const words = (['parents', 'staff'] as const).flatMap((group) => {
    const reaches = asked.filter((one) => one.group === group).map(({ reach }) => reach)
    if (reaches.length === 0) return []
    return [reaches.includes('all') ? group : `${group} who asked`]
  })
  return words.join(' and ')
}

/** What a finding is about: `this application`, or `this bait, nor for 12 more uses of it in the same school year`. */
export function forWhat(how: Treatment['how'], more: number): string {
  const first = how === 'application' ? 'this application' : 'this bait'
  if (more === 0) return first
  return `${first}, nor for ${more === 1 ? 'one more use' : `${more} more uses`} of it in the same school year`
}

/** `72 hours before, that is by 2026-03-09 15:40` */
export function dueWords(term: string, latest: string): string {
  return latest === '' ? term : `${term}, that is by ${latest}`
}

export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

/** Each word once, in the order of the first list they stand in. */
export function allOf<T>(lists: readonly (readonly T[])[]): T[] {
  return [...new Set(lists.flat())]
}
