import type { SiteView } from '../ledger/site-view.js'
import { besideRecord } from '../records/paths.js'
import { isTooFar } from './map-outline.js'
import { pictureSize } from './map-picture-size.js'
import type { MapDrawing } from './map-site.js'

/** What is laid into a map, at most: a page that is mailed or printed is not to be larger than a few of these. */
export const largestDrawing = { bytes: 2 * 1024 * 1024, pixels: 12_000, allPixels: 50_000_000 } as const

/** A drawing pulled by more than this share to reach both its corners does not fit them. */
const stretchAllowed = 0.02

/**
 * The school's own drawing, to lie under the shapes. Only a PNG or a JPEG of moderate size: an SVG or a PDF may carry
 * scripts, or fetch something, in whatever page the map is put. It is read through the ledger's source, which refuses
 * whatever lies outside.
 */
export function drawingOf({ site, district }: SiteView): MapDrawing {
  const { diagram } = site.data
  if (diagram === undefined) return { is: 'none' }
  const { file, corners } = diagram
  const leftOut = (why: string): MapDrawing => ({ is: 'left out', file, why })
  if (/\.svgz?$/i.test(file))
    return leftOut('an SVG may carry scripts and so is not laid into a page; give a PNG or JPEG of it')
  const read = district.source.read(besideRecord(site.file, file), largestDrawing.bytes)
  if ('refused' in read)
    return leftOut(read.refused === 'missing' ? 'it is not in the ledger' : `it ${read.detail}`)
  const size = pictureSize(read.bytes)
  if (size === null)
    return leftOut('only a PNG or a JPEG is laid under a map, and this is neither, or not whole')
  const { type, width, height } = size
  if (
    width > largestDrawing.pixels ||
    height > largestDrawing.pixels ||
    width * height > largestDrawing.allPixels
  )
    return leftOut(
      `${width} by ${height} pixels are too many; at most ${largestDrawing.pixels} a side, and ${largestDrawing.allPixels / 1e6} million in all`,
    )
  if (corners === undefined)
    return leftOut(
      'where it lies is not said: state `corners: [[left, top], [right, lower]]` under `diagram`',
    )
  const [from, to] = corners.map(([x, y]) => ({ x, y }))
  if (!from || !to || isTooFar(from) || isTooFar(to) || !(to.x > from.x && to.y > from.y))
    return leftOut('its `corners` are not its top left and then its lower right one')
  const pulled = (to.x - from.x) / width / ((to.y - from.y) / height)
  return {
    is: 'drawn',
    file,
    type,
    width,
    height,
    base64: Buffer.from(read.bytes).toString('base64'),
    from,
    to,
    stretched: Math.abs(Math.log(pulled)) > stretchAllowed,
  }
}
