import type { TrapPlace } from './hotspots-collect.js'
import type { NotScanned } from './hotspots-judge.js'

/** Areas in walking order, each with how many devices in it: `Dock (3), Main kitchen (1)`. */
export function whereWords(members: readonly TrapPlace[]): string {
  return areasOf(members)
    .map(({ name, devices }) => `${name} (${devices})`)
    .join(', ')
}

/** The first areas of a place, for a sentence: `Dock and Main kitchen`, `Dock, Main kitchen and 2 more areas`. */
export function whereInShort(members: readonly TrapPlace[]): string {
  const names = areasOf(members).map(({ name }) => name)
  if (names.length <= 2) return names.join(' and ')
  const more = names.length - 2
  return `${names[0]}, ${names[1]} and ${more} more ${more === 1 ? 'area' : 'areas'}`
}

function areasOf(members: readonly TrapPlace[]): { readonly name: string; readonly devices: number }[] {
  const inOrder = [...members].sort((a, b) => a.areaRank - b.areaRank)
  return [...new Set(inOrder.map(({ area }) => area))].map((area) => {
    const there = inOrder.filter((place) => place.area === area)
    return { name: there[0]?.areaName ?? area, devices: there.length }
  })
}

export const reasonWords: Record<NotScanned, string> = {
  'none-caught': 'nothing was caught',
  'too-few-devices': 'fewer than five devices',
  'no-positions': 'no position of a device is recorded',
  'too-few-positions': 'fewer than five devices have a position on record',
  'too-few-caught': 'fewer than three devices caught anything',
  'no-effort': 'no usable trap-night',
  'one-device': 'one device only',
  'one-place': 'all devices are recorded at one position',
  'rates-equal': 'every device caught its share',
  'not-a-count': 'a count is not a number',
  'not-a-place': 'a position is beyond what can be computed',
  'out-of-range': 'the numbers are beyond what can be computed',
}
