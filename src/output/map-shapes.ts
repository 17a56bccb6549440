import type { DeviceKind } from '../records/device-kinds.js'
import type { MapDevice } from '../reports/map-site.js'
import { el, faintInk, ink, px } from './map-elements.js'
import type { Shade } from './map-shades.js'
import { fillOf } from './map-shades.js'
import type { Element } from './xml.js'

type Corner = readonly [number, number]

const regular = (corners: number, turned = 0): Corner[] =>
  Array.from({ length: corners }, (_, at) => {
    const angle = ((at / corners) * 2 + turned) * Math.PI
    return [Math.sin(angle), -Math.cos(angle)]
  })

/** Spikes and notches in turn. */
const star: readonly Corner[] = regular(16).map(([x, y], at) =>
  at % 2 === 0 ? [x * 1.15, y * 1.15] : [x * 0.6, y * 0.6],
)

/** Corners of the shape of each kind about its middle, in radii. A tracking patch is round. */
const corners: Readonly<Record<Exclude<DeviceKind, 'tracking-patch'>, readonly Corner[]>> = {
  'sticky-trap': [
    [-0.85, -0.85],
    [0.85, -0.85],
    [0.85, 0.85],
    [-0.85, 0.85],
  ],
  'glue-board': [
    [-1.2, -0.6],
    [1.2, -0.6],
    [1.2, 0.6],
    [-1.2, 0.6],
  ],
  'snap-trap': [
    [0, -1.05],
    [1.05, 0.85],
    [-1.05, 0.85],
  ],
  'multiple-catch-trap': regular(6, 1 / 6),
  'bait-station': [
    [0, -1.1],
    [0.95, -0.2],
    [0.95, 0.95],
    [-0.95, 0.95],
    [-0.95, -0.2],
  ],
  'light-trap': star,
  'pheromone-trap': [
    [0, -1.15],
    [1.15, 0],
    [0, 1.15],
    [-1.15, 0],
  ],
  'sticky-card': [
    [-0.6, -1.15],
    [0.6, -1.15],
    [0.6, 1.15],
    [-0.6, 1.15],
  ],
  'blocked-entrance': [
    [-0.4, -1.1],
    [0.4, -1.1],
    [0.4, -0.4],
    [1.1, -0.4],
    [1.1, 0.4],
    [0.4, 0.4],
    [0.4, 1.1],
    [-0.4, 1.1],
    [-0.4, 0.4],
    [-1.1, 0.4],
    [-1.1, -0.4],
    [-0.4, -0.4],
  ],
  'termite-station': [
    [0, 1.05],
    [1.05, -0.85],
    [-1.05, -0.85],
  ],
}

interface Look {
  readonly fill: string
  readonly stroke: string
  readonly 'stroke-width': number
  readonly 'stroke-dasharray'?: string
}

/** Id of the hatching of what was not measured. */
export const notMeasuredId = (prefix: string) => `${prefix}not-measured`

/** How a catch looks: a zero is white in a firm line, what was not measured is hatched in a broken one. */
export function lookOf(device: Pick<MapDevice, 'catch'>, shades: readonly Shade[], prefix: string): Look {
  const caught = device.catch
  switch (caught.is) {
    case 'measured':
      return {
        fill: caught.count === 0 ? '#ffffff' : fillOf(caught.rate, shades),
        stroke: ink,
        'stroke-width': 1.4,
      }
    case 'not measured':
      return {
        fill: `url(#${notMeasuredId(prefix)})`,
        stroke: ink,
        'stroke-width': 1.2,
        'stroke-dasharray': '2.5 2',
      }
    case 'not asked':
      return { fill: '#e6e6e6', stroke: ink, 'stroke-width': 1.2 }
    case 'not for it':
    case 'counts nothing':
      return { fill: '#ffffff', stroke: '#8a8a8a', 'stroke-width': 0.8 }
  }
}

/** The shape of a kind of device about a spot. */
export function shapeAt(kind: DeviceKind, x: number, y: number, radius: number, look: Look): Element {
  if (kind === 'tracking-patch') return el('circle', { cx: px(x), cy: px(y), r: px(radius), ...look })
  const points = corners[kind].map(([across, down]) => `${px(x + across * radius)},${px(y + down * radius)}`)
  return el('polygon', { points: points.join(' '), ...look })
}

/** Struck through: it stood here in the period and no longer does. */
export function strikeAt(x: number, y: number, radius: number): Element {
  const reach = radius + 3
  return el('line', {
    x1: px(x - reach),
    y1: px(y + reach),
    x2: px(x + reach),
    y2: px(y - reach),
    stroke: ink,
    'stroke-width': 1.4,
  })
}

/** Crossed out: it stands there by the records, and was found unable to catch. */
export function crossAt(x: number, y: number, radius: number): readonly Element[] {
  const reach = radius + 2
  return [1, -1].map((way) =>
    el('line', {
      x1: px(x - reach),
      y1: px(y - reach * way),
      x2: px(x + reach),
      y2: px(y + reach * way),
      stroke: ink,
      'stroke-width': 1.6,
    }),
  )
}

/** A ring about a device that surely caught far more than the others of its kind. */
export function ringAt(x: number, y: number, radius: number): Element {
  return el('circle', {
    cx: px(x),
    cy: px(y),
    r: px(radius + 4.5),
    fill: 'none',
    stroke: ink,
    'stroke-width': 2,
  })
}

/** From where a device stands to where there is room for its shape. */
export function leaderTo(from: { x: number; y: number }, to: { x: number; y: number }): readonly Element[] {
  return [
    el('line', {
      x1: px(from.x),
      y1: px(from.y),
      x2: px(to.x),
      y2: px(to.y),
      stroke: faintInk,
      'stroke-width': 0.8,
    }),
    el('circle', { cx: px(from.x), cy: px(from.y), r: 1.6, fill: ink }),
  ]
}
