import type { MapDevice, SiteMap } from '../reports/map-site.js'

/** One hue from light to dark: told apart in grey, and by those who see few colours. */
const fills = ['#d6e6f4', '#93bfe2', '#4583bd', '#153a6b'] as const

export interface Shade {
  /** Rates above this and up to `upTo`, in animals per trap-week. */
  readonly above: number
  readonly upTo: number
  readonly fill: string
}

/**
 * Four shades for the rates on a map, each up to twice the one before, so that a few high ones do not make all others look
 * alike. None where nothing was caught.
 */
export function shadesOf({ devices }: Pick<SiteMap, 'devices'>): readonly Shade[] {
  const highest = Math.max(0, ...devices.map(rateOf))
  if (highest === 0) return []
  const top = roundUp(highest)
  return fills.map((fill, at) => ({
    above: at === 0 ? 0 : top / 2 ** (fills.length - at),
    upTo: top / 2 ** (fills.length - 1 - at),
    fill,
  }))
}

export function fillOf(rate: number, shades: readonly Shade[]): string {
  return (shades.find(({ upTo }) => rate <= upTo) ?? shades.at(-1))?.fill ?? '#ffffff'
}

function rateOf({ catch: caught }: MapDevice): number {
  return caught.is === 'measured' ? caught.rate : 0
}

/** 1, 2, 4 or 8 times a power of ten, at or above a number. */
function roundUp(number: number): number {
  const power = 10 ** Math.floor(Math.log10(number))
  const times = [1, 2, 4, 8, 10].find((one) => number <= one * power * (1 + 1e-9)) ?? 10
  return times * power
}

/** A rate beside a device: short, and never a zero for what was caught. */
export function rateWords(rate: number): string {
  if (rate === 0) return '0'
  if (rate < 0.01) return '<0.01'
  return String(Number(rate.toPrecision(2)))
}
