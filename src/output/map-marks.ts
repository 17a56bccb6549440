import type { MapArea, SiteMap } from '../reports/map-site.js'
import { el, faintInk, ink } from './map-elements.js'
import { notMeasuredId } from './map-shapes.js'
import type { Element } from './xml.js'

/** What is marked in an area: `c1` open conditions, `m1` what is not watched. */
export function marksOf(map: SiteMap, area: Pick<MapArea, 'id'>): string[] {
  return [
    ...map.conditions.filter((one) => one.area === area.id).map(({ no }) => `c${no}`),
    ...map.needs.filter(({ areas }) => areas.includes(area.id)).map(({ no }) => `m${no}`),
  ]
}

export const lacksMonitorsId = (prefix: string) => `${prefix}lacks-monitors`
export const lacksLookId = (prefix: string) => `${prefix}lacks-a-look`

/** Hatching for an area that lacks monitors, dots for one at which nobody looked. */
export function patternOf(map: SiteMap, area: string, prefix: string): string[] {
  const lacks = new Set(map.needs.filter(({ areas }) => areas.includes(area)).map((need) => need.lacks))
  return [
    ...(lacks.has('monitors') ? [`url(#${lacksMonitorsId(prefix)})`] : []),
    ...(lacks.has('a look') ? [`url(#${lacksLookId(prefix)})`] : []),
  ]
}

export function patterns(prefix: string): Element[] {
  const pattern = (id: string, size: number, content: readonly Element[]) =>
    el('pattern', { id, width: size, height: size, patternUnits: 'userSpaceOnUse' }, content)
  const stroke = (d: string, color: string, width: number) =>
    el('path', { d, stroke: color, 'stroke-width': width, fill: 'none' })
  return [
    pattern(notMeasuredId(prefix), 4, [
      el('rect', { width: 4, height: 4, fill: '#ffffff' }),
      stroke('M-1 1l2 -2M0 4l4 -4M3 5l2 -2', ink, 0.8),
    ]),
    pattern(lacksMonitorsId(prefix), 12, [stroke('M-3 3l6 -6M0 12l12 -12M9 15l6 -6', '#a8a8a8', 1)]),
    pattern(lacksLookId(prefix), 9, [el('circle', { cx: 4.5, cy: 4.5, r: 1, fill: faintInk })]),
  ]
}
