import { deviceKinds } from '../records/device-kinds.js'
import type { MapDevice, SiteMap } from '../reports/map-site.js'
import type { Drawn } from './map-device.js'
import type { Box } from './map-elements.js'
import { el, ink, linesWithin, px, tabAt, textAt } from './map-elements.js'
import type { Entry, Shown } from './map-legend-entry.js'
import { figure, titled } from './map-legend-entry.js'
import { listEntries } from './map-legend-lists.js'
import { lacksLookId, lacksMonitorsId } from './map-marks.js'
import { crossAt, lookOf, ringAt, shapeAt, strikeAt } from './map-shapes.js'
import type { Element } from './xml.js'

export interface Legend {
  readonly elements: readonly Element[]
  readonly height: number
}

const size = 11
const lineHeight = 14
const between = 4
const gap = 24
const indent = 30
/** Everything that a shape, a shade, a line or a mark means, then what the marks stand for, in columns. */
export function legendOf(
  map: SiteMap,
  shown: Shown,
  notes: readonly string[],
  at: Pick<Box, 'x' | 'y' | 'width'>,
  drawn: Drawn,
): Legend {
  const columns = Math.max(1, Math.floor((at.width + gap) / 320))
  const width = (at.width - (columns - 1) * gap) / columns
  const entries = [
    ...kindEntries(map, drawn),
    ...catchEntries(map, drawn),
    ...markEntries(map, shown, drawn),
    ...listEntries(map, shown),
    ...titled(
      'Notes',
      notes.map((text) => ({ text })),
    ),
  ].map((entry) => {
    const lines = linesWithin(
      entry.text,
      entry.isTitle ? size + 1 : size,
      width - (entry.sample ? indent : 0),
    )
    return { entry, lines, height: lines.length * lineHeight + between + (entry.isTitle ? 8 : 0) }
  })
  const total = entries.reduce((sum, { height }) => sum + height, 0)
  const elements: Element[] = []
  let [column, y, highest] = [0, 0, 0]
  for (const [n, { entry, lines, height }] of entries.entries()) {
    // A title stays with what follows it.
    const needed = height + (entry.isTitle ? (entries[n + 1]?.height ?? 0) : 0)
    if (y > 0 && y + needed > total / columns + 30 && column < columns - 1) {
      column += 1
      y = 0
    }
    elements.push(...drawEntry(entry, lines, at.x + column * (width + gap), at.y + y))
    y += height
    highest = Math.max(highest, y)
  }
  return { elements, height: highest }
}

function drawEntry(entry: Entry, lines: readonly string[], x: number, y: number): Element[] {
  const top = y + (entry.isTitle ? 8 : 0)
  const left = x + (entry.sample ? indent : 0)
  return [
    ...(entry.sample?.(x + 11, top + 7) ?? []),
    ...lines.map((line, at) =>
      textAt(
        left,
        top + 11 + at * lineHeight,
        entry.isTitle ? size + 1 : size,
        line,
        entry.isTitle ? { 'font-weight': 'bold' } : {},
      ),
    ),
  ]
}

function kindEntries(map: SiteMap, { prefix }: Drawn): Entry[] {
  const look = lookOf({ catch: { is: 'not asked' } }, [], prefix)
  return titled(
    'Devices, each with its id or what is printed on it',
    deviceKinds.flatMap((kind) => {
      const one = map.devices.find((device) => device.kind === kind)
      return one
        ? [{ sample: (x: number, y: number) => [shapeAt(kind, x, y, 7, look)], text: one.kindName }]
        : []
    }),
  )
}

function catchEntries(map: SiteMap, { shades, prefix }: Drawn): Entry[] {
  const { pest, devices } = map
  if (pest === undefined)
    return devices.length === 0 ? [] : [{ text: 'No catch is shown: name a pest with --pest.' }]
  const sample = (caught: MapDevice['catch']) => (x: number, y: number) => [
    shapeAt('sticky-trap', x, y, 7, lookOf({ catch: caught }, shades, prefix)),
  ]
  const measured = (rate: number) =>
    ({ is: 'measured', count: rate > 0 ? 1 : 0, trapNights: 7, rate, low: 0, high: 0 }) as const
  const has = (is: MapDevice['catch']['is']) => devices.some((device) => device.catch.is === is)
  const isOneZero = devices.some(({ catch: caught }) => caught.is === 'measured' && caught.count === 0)
  const entries: Entry[] = [
    ...shades.map(({ above, upTo }) => ({
      sample: sample(measured(upTo)),
      text: `above ${figure(above)} to ${figure(upTo)} per trap-week`,
    })),
    ...(isOneZero ? [{ sample: sample(measured(0)), text: '0: looked at, none caught' }] : []),
    ...(has('not measured')
      ? [{ sample: sample({ is: 'not measured', why: '' }), text: '?: not measured, which is no zero' }]
      : []),
    ...(has('not for it') || has('counts nothing')
      ? [
          {
            sample: sample({ is: 'counts nothing' }),
            text: 'thin and pale: tells nothing of this pest (not for it, or counts no animals); a number in brackets is what it caught all the same',
          },
        ]
      : []),
    ...(devices.some(({ stands }) => !stands)
      ? [
          {
            sample: (x: number, y: number) => [...sample(measured(0))(x, y), strikeAt(x, y, 7)],
            text: 'struck through: stood here in the period, and no longer does',
          },
        ]
      : []),
    ...(devices.some(({ outlying }) => outlying)
      ? [
          {
            sample: (x: number, y: number) => [...sample(measured(0))(x, y), ringAt(x, y, 6)],
            text: 'ringed: surely caught far more than the others of its kind on its floor',
          },
        ]
      : []),
  ]
  return devices.length === 0 ? [] : titled(`Catch of ${pest.name}, by shade and number`, entries)
}

function markEntries(map: SiteMap, shown: Shown, { prefix }: Drawn): Entry[] {
  const swatch = (fill: string, dash?: string) => (x: number, y: number) => [
    el('rect', {
      x: px(x - 10),
      y: px(y - 6),
      width: 20,
      height: 13,
      fill,
      stroke: ink,
      'stroke-width': 0.8,
      'stroke-dasharray': dash,
    }),
  ]
  const tab = (mark: string) => (x: number, y: number) => [tabAt(x - 10, y - 7, mark)]
  const line = (dash: string, width: number) => (x: number, y: number) => [
    el('line', {
      x1: px(x - 10),
      y1: px(y),
      x2: px(x + 12),
      y2: px(y),
      stroke: ink,
      'stroke-width': width,
      'stroke-dasharray': dash,
      'stroke-linecap': dash.startsWith('1 ') ? 'round' : undefined,
    }),
  ]
  const lacks = new Set(map.needs.map((need) => need.lacks))
  const outdoors = map.areas.some(({ floor, outline }) => floor === 'outdoors' && outline.length > 0)
  return titled('Areas and marks', [
    ...(map.areas.length > 0
      ? [
          {
            sample: (x: number, y: number) => [textAt(x - 4, y + 4, 12, '1', { 'font-weight': 'bold' })],
            text: 'areas are numbered in walking order',
          },
        ]
      : []),
    ...(outdoors ? [{ sample: swatch('#ffffff', '2 3'), text: 'dotted edge: in the open' }] : []),
    ...(map.areas.some(({ outlineState }) => outlineState === 'crosses itself')
      ? [{ sample: swatch('#f6f4ef', '8 3 2 3'), text: 'broken edge: an outline whose sides cross' }]
      : []),
    ...(shown.boxed
      ? [{ sample: swatch('#fbfaf7', '5 3'), text: 'box with a dashed edge: not to scale' }]
      : []),
    ...(map.devices.some(({ stands, fit }) => stands && !fit)
      ? [
          {
            sample: (x: number, y: number) => crossAt(x, y, 7),
            text: 'crossed out: found lost, spoilt, full or sprung at the last look, and not renewed since',
          },
        ]
      : []),
    ...(map.conditions.length > 0 ? [{ sample: tab('c1'), text: 'an open condition in this area' }] : []),
    ...(map.needs.length > 0 ? [{ sample: tab('m1'), text: 'this area is not watched' }] : []),
    ...(lacks.has('monitors')
      ? [{ sample: swatch(`url(#${lacksMonitorsId(prefix)})`), text: 'hatched: monitors are missing' }]
      : []),
    ...(lacks.has('a look')
      ? [{ sample: swatch(`url(#${lacksLookId(prefix)})`), text: 'dots: nobody looked in the period' }]
      : []),
    ...(map.places.length > 0
      ? [
          {
            sample: line('9 4', 2.2),
            text: 'p1, a dashed circle: devices side by side that surely caught more than the others of their kind',
          },
        ]
      : []),
    ...(map.gaps.length > 0
      ? [
          {
            sample: line('1 5', 2.4),
            text: 'g1 +2, a line of dots: two neighbours of a run stand too far apart; so many more would do',
          },
        ]
      : []),
    ...(shown.displaced > 0
      ? [
          {
            sample: (x: number, y: number) => [
              el('circle', { cx: px(x - 8), cy: px(y), r: 1.6, fill: ink }),
              ...line('', 0.8)(x + 2, y),
            ],
            text: 'a dot with a line: the device stands at the dot',
          },
        ]
      : []),
  ])
}
