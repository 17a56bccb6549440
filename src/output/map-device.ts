import type { MapDevice } from '../reports/map-site.js'
import { catchWords } from '../reports/map-tables.js'
import type { TextPart } from './map-elements.js'
import { el } from './map-elements.js'
import type { Shade } from './map-shades.js'
import { rateWords } from './map-shades.js'
import { crossAt, lookOf, ringAt, shapeAt, strikeAt } from './map-shapes.js'
import type { Element } from './xml.js'

export interface Drawn {
  readonly shades: readonly Shade[]
  readonly prefix: string
}

/** The shape of a device, with what it is and caught for whoever points at it. */
export function deviceAt(
  device: MapDevice,
  { x, y }: { readonly x: number; readonly y: number },
  radius: number,
  { shades, prefix }: Drawn,
): Element {
  return el('g', {}, [
    el('title', {}, deviceSays(device)),
    shapeAt(device.kind, x, y, radius, lookOf(device, shades, prefix)),
    ...(device.stands ? [] : [strikeAt(x, y, radius)]),
    ...(device.stands && !device.fit ? crossAt(x, y, radius) : []),
    ...(device.outlying ? [ringAt(x, y, radius)] : []),
  ])
}

function deviceSays(device: MapDevice): string {
  const name = device.markedAs === undefined ? device.id : `${device.id} (${device.markedAs})`
  const caught = device.catch
  const words =
    caught.is === 'not asked'
      ? ''
      : caught.is === 'measured'
        ? `: ${caught.count} in ${caught.trapNights} trap-nights`
        : `: ${catchWords(caught)}`
  const state = device.stands && !device.fit ? '; lost or spoilt, not renewed' : ''
  return `n${device.no} ${name}, ${device.kindName}, ${device.areaName}${words}${state}`
}

/** What stands beside a device: what is printed on it, and its rate. */
export function labelOf(device: MapDevice): readonly TextPart[] {
  const rate = rateLabel(device)
  return [{ text: device.markedAs ?? device.id }, ...(rate === undefined ? [] : [{ text: rate, bold: true }])]
}

/** Its number in the table, where there is no room for more. */
export function shortLabelOf(device: MapDevice): readonly TextPart[] {
  return [{ text: `n${device.no}` }]
}

function rateLabel({ catch: caught }: MapDevice): string | undefined {
  switch (caught.is) {
    case 'measured':
      return rateWords(caught.rate)
    case 'not measured':
      return '?'
    case 'not for it':
      return caught.caught > 0 ? `(${caught.caught})` : undefined
    default:
      return undefined
  }
}
