import type { MapDevice, SiteMap } from './map-site.js'
import { outlineWords } from './map-tables.js'
import { measuredWords } from './measured.js'

export function mapTitle({ siteName, pest }: SiteMap): string {
  return pest === undefined ? `Map of ${siteName}` : `Map of ${siteName}: ${pest.name}`
}

/** What the picture shows, in one sentence. */
export function mapHeadline(map: SiteMap): string {
  const standing = map.devices.filter(({ stands }) => stands)
  const things = [
    `${counted(standing.length, 'device')} ${standing.length === 1 ? 'stands' : 'stand'} in ${counted(map.areas.length, 'area')}`,
    ...(map.pest === undefined ? [] : [caughtWords(map.devices, map.pest.name)]),
    map.conditions.length === 0
      ? 'no condition is open'
      : `${counted(map.conditions.length, 'condition')} ${map.conditions.length === 1 ? 'is' : 'are'} open`,
    ...(map.places.length > 0
      ? [`${counted(map.places.length, 'place')} ${map.places.length === 1 ? 'stands' : 'stand'} out`]
      : []),
    ...(map.needs.length > 0
      ? [`monitors or a look are missing in ${counted(map.needs.length, 'place')}`]
      : []),
    ...(map.gaps.length > 0
      ? [
          `${counted(map.gaps.length, 'stretch', 'stretches')} of runs ${map.gaps.length === 1 ? 'stands' : 'stand'} open`,
        ]
      : []),
  ]
  return `${things.join('; ')}.`
}

function caughtWords(devices: readonly MapDevice[], pest: string): string {
  const measured = devices.flatMap((device) =>
    device.catch.is === 'measured' ? [{ device, caught: device.catch }] : [],
  )
  if (measured.length === 0) return `no device measured ${pest} in the period`
  const some = measured.filter(({ caught }) => caught.count > 0)
  if (some.length === 0)
    return `${measured.length === 1 ? 'the one device' : `none of ${measured.length} devices`} that measured it caught ${measured.length === 1 ? 'no' : 'any'} ${pest}`
  const most = some.reduce((best, one) => (one.caught.rate > best.caught.rate ? one : best))
  const { rate, low, high } = most.caught
  const share = measured.length === 1 ? 'the one device' : `${some.length} of ${measured.length} devices`
  return `${share} that measured it caught ${pest}, ${most.device.id} the most: ${measuredWords({ value: rate, low, high }, rate < 0.1 ? 3 : 2)} per trap-week`
}

function counted(number: number, one: string, more = `${one}s`): string {
  return number === 1 ? `one ${one}` : `${number} ${more}`
}

/** What the reader must know to read the picture rightly. */
export function mapCautions(map: SiteMap): string[] {
  return [
    'Only where a device stands can anything be caught: an area without one is not clear, and none caught is no all-clear. Sightings, tracks and bait taken are not on this map.',
    ...(map.pest === undefined
      ? []
      : [
          'Kinds of device differ in what they catch: only equal shapes can be held against each other. The interval of each rate stands in the table; from few trap-nights a rate is hardly known.',
        ]),
    'Places and lacking monitors are judged over the whole ledger, as in `report hotspots` and `report coverage`. A place to look is no proof that a pest comes from there.',
    'A map tells where devices stand and what is open: it is for the district and whoever serves the site, not for publication.',
    ...(map.drawing.is === 'drawn'
      ? [
          'The drawing is laid under the map as it is, with whatever its file carries, such as where a photo was taken.',
        ]
      : []),
    'Whoever looks there minds droppings, bites, stings and wiring. This map authorises no treatment: the label, local code and a licensed applicator decide on that.',
  ]
}

/** What could not be drawn, or not to scale, and what would mend it. */
export function mapUntold(map: SiteMap): string[] {
  const standing = map.devices.filter(({ stands }) => stands)
  const at = (place: MapDevice['place']) => standing.filter((one) => one.place === place).map(({ id }) => id)
  const [unplaced, outside, elsewhere, far] = [
    at('no position'),
    at('outside every outline'),
    at('in another area'),
    at('too far'),
  ]
  const say = (ids: readonly string[], words: string) =>
    ids.length === 0
      ? []
      : [`${ids.length === 1 ? 'One device' : `${ids.length} devices`} ${words}: ${some(ids)}.`]
  const areas = map.areas.filter(({ outlineState }) => outlineState !== 'drawn')
  return [
    ...(map.leftOut.length > 0
      ? [`Areas that were not asked for and are not shown: ${some(map.leftOut)}.`]
      : []),
    ...(map.areas.length > 0 &&
    areas.length === map.areas.length &&
    areas.every(({ outline }) => outline.length === 0)
      ? [
          'No area has an outline that can be drawn, so the areas are boxes in walking order, not to scale: state `outline` for each in site.yaml.',
        ]
      : areas.map(({ name, outlineState }) => `${name}: ${outlineWords[outlineState]}.`)),
    ...say(unplaced, 'without a position (state `at: [across, down]` when it is set or moved)'),
    ...say(outside, 'with a position outside every outline'),
    ...say(elsewhere, 'with a position in another area than its record says'),
    ...say(far, 'with a position too far away to be drawn'),
    ...(map.drawing.is === 'left out'
      ? [`The drawing ${map.drawing.file} is not laid under the map: ${map.drawing.why}.`]
      : []),
    ...(map.drawing.is === 'drawn' && map.drawing.stretched
      ? [
          `The drawing ${map.drawing.file} is pulled out of shape to reach both its corners: see \`corners\` in site.yaml.`,
        ]
      : []),
    ...(map.unit === undefined && map.devices.some(({ spot }) => spot !== null)
      ? ['The unit of positions is not said: state `diagram` with its `unit` in site.yaml.']
      : []),
  ]
}

/** The first of many names, and how many more there are. */
function some(names: readonly string[], most = 12): string {
  const more = names.length - most
  return more > 1 ? `${names.slice(0, most).join(', ')} and ${more} more` : names.join(', ')
}
