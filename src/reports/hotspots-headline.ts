import { deviceTable } from '../records/tables.js'
import type { CatchMap, TrapPlace } from './hotspots-collect.js'
import type { ConditionThere } from './hotspots-conditions.js'
import { compareConditions } from './hotspots-conditions.js'
import type { JudgedDevice, JudgedScan } from './hotspots-judge.js'
import type { PlaceFound } from './hotspots-tables.js'
import { sumOf } from './hotspots-tables.js'
import { whereInShort } from './hotspots-words.js'
import { pestName } from './pest-name.js'

interface Judged {
  readonly scans: readonly JudgedScan[]
  readonly found: readonly PlaceFound[]
  readonly outlying: readonly JudgedDevice[]
  readonly conditions: readonly ConditionThere[]
}

/** One sentence: what stands out most surely, or why nothing can be told. */
export function headlineOf({ scans, found, outlying, conditions }: Judged): string {
  const [place] = found
  if (place) return placeHeadline(place, found.length, conditions)
  const [device] = outlying
  if (device) return deviceHeadline(device, outlying.length, conditions)
  const places = scans.flatMap(({ map }) => map.places)
  if (places.length === 0)
    return 'No trap that counts animals was read in this period, so nothing can be said.'
  if (places.every(({ count }) => count === 0))
    return 'Nothing was caught in this period by the traps that were read, so no place stands out.'
  return scans.some(({ clusters }) => clusters.length > 0)
    ? 'No device or group of devices surely catches more than its neighbours.'
    : 'Too few devices caught anything side by side to tell one place from another.'
}

function placeHeadline(
  { scan, judged }: PlaceFound,
  places: number,
  conditions: readonly ConditionThere[],
): string {
  const { map, scanned } = scan
  const { members, cluster } = judged
  const first = places === 1 ? 'One place stands out' : `${places} places stand out, the surest first`
  const areas = new Set(members.map(({ area }) => area))
  return `${first}: at ${map.siteName}, ${members.length} of the ${scanned.length} ${devicesOf(map)} for ${pestName(map.pest)}${onFloor(map)}, in ${whereInShort(members)}, caught ${shareWords(cluster.count, sumOf(scanned, 'count'))}${openThere(map, areas, conditions)}.`
}

function deviceHeadline(
  { map, place, comparison }: JudgedDevice,
  devices: number,
  conditions: readonly ConditionThere[],
): string {
  const first = devices === 1 ? 'one single device does' : `${devices} single devices do, the surest first`
  return `No group of devices surely stands out, but ${first}: at ${map.siteName}, ${nameOf(place)} caught ${place.count} (${pestName(map.pest)}), where the rate of the others would give ${comparison.expected.toFixed(1)}${openThere(map, new Set([place.area]), conditions)}.`
}

/** `sticky traps`, `glue boards`: what kinds that count animals are called, without what they are for. */
const devicesOf = ({ kind }: CatchMap) => `${deviceTable()[kind].name.split(/ (?:for|in|of) /)[0]}s`

/** Nothing for the ground floor, which is where most is. */
function onFloor({ floor }: CatchMap): string {
  if (floor === 'outdoors') return ' outdoors'
  return floor === '1' ? '' : ` on floor ${floor}`
}

const nameOf = ({ device, areaName }: TrapPlace) => `${device} in ${areaName}`

const shareWords = (part: number, all: number) => (part === all ? `all ${all}` : `${part} of the ${all}`)

/** The open condition to look at first. */
function openThere(
  { site }: CatchMap,
  areas: ReadonlySet<string>,
  conditions: readonly ConditionThere[],
): string {
  const [first] = conditions
    .filter((one) => one.site === site && areas.has(one.area) && one.putRight === null)
    .sort(compareConditions)
  return first ? `; open there: ${first.says}` : ''
}
