import { isCount, isExposure } from './poisson-rate.js'
import { multinomialInto, shuffle } from './random-draws.js'
import {
  largestRatio,
  membersOf,
  type ScanCatches,
  type ScanOrder,
  type ScanWindow,
  type Spot,
  scanOrder,
  scanWindows,
} from './scan-windows.js'
import { seededRandom } from './seeded-random.js'

/** One device: where it stands, what it caught in all, and its effort (trap-nights, one unit for all). */
export interface ScannedDevice extends Spot {
  count: number
  effort: number
}

/**
 * What chance is taken to be. `shuffled`: the catches as they are, each with its effort, dealt out anew over the
 * places; it holds however catches clump. `even`: every animal by itself goes to a device in proportion to its
 * effort; catches that clump look like clusters to it.
 */
export type ScanChance = 'shuffled' | 'even'

export interface ScanSettings {
  chance: ScanChance
  /** Random replicates at most; the smallest p is 1 / (replicates + 1). */
  replicates: number
  /** So many replicates that do at least as well as the map are enough: then no more are made. */
  enough: number
  seed: number
  /** Clusters beyond the first are told only when p is at most this. */
  significance: number
}

export const scanSettings: Readonly<ScanSettings> = {
  chance: 'shuffled',
  replicates: 999,
  enough: Infinity,
  seed: 1,
  significance: 0.05,
}

export type NoScanReason =
  | 'not-a-count'
  | 'not-a-place'
  | 'no-effort'
  | 'one-device'
  | 'one-place'
  | 'none-caught'
  | 'rates-equal'
  | 'out-of-range'

export interface Cluster {
  /** Indices of the devices as given, ascending. */
  members: readonly number[]
  /** Index of the device at the centre of the circle. */
  centre: number
  /** From the centre to the farthest device in it, in the unit of the places. */
  radius: number
  count: number
  effort: number
  expected: number
  logLikelihoodRatio: number
  /** Rate inside over rate outside; null when nothing was caught outside. */
  relativeRisk: number | null
  p: number
}

export type SpatialScan =
  | { found: false; reason: NoScanReason; windows: number }
  | {
      found: true
      /** The strongest first, whatever its p; then others that share no device with a stronger one. */
      clusters: readonly [Cluster, ...Cluster[]]
      /** Other sets of devices that stand out exactly as much as the strongest. */
      ties: readonly (readonly number[])[]
      /** Distinct circles looked at. */
      windows: number
      devices: number
      /** As many as were made. */
      replicates: number
    }

/** Squares of larger numbers may be beyond what a double holds. */
const FARTHEST = 1e150
/** Two ratios that differ by less than this share differ by rounding. */
const SAME_RATIO = 1e-9

interface Replicates {
  /** The largest ratio of each, in ascending order. */
  ratios: Float64Array
  /** Stopped early, with a replicate that did at least as well as the map. */
  stopped: boolean
}

/** Makes replicates until `enough` of them have a ratio of at least `least`, or there are as many as were asked for. */
function makeReplicates(
  order: ScanOrder,
  catches: ScanCatches,
  settings: ScanSettings,
  least: number,
): Replicates {
  const random = seededRandom(settings.seed)
  const total = catches.counts.reduce((sum, one) => sum + one, 0)
  const drawn = { counts: new Float64Array(order.devices), efforts: new Float64Array(catches.efforts) }
  const dealt = Int32Array.from({ length: order.devices }, (_, i) => i)
  const ratios = new Float64Array(settings.replicates)
  let asGood = 0
  for (let replicate = 0; replicate < settings.replicates; replicate += 1) {
    if (settings.chance === 'even') {
      multinomialInto(random, total, catches.efforts, drawn.counts)
    } else {
      shuffle(random, dealt)
      dealt.forEach((from, to) => {
        drawn.counts[to] = catches.counts[from] ?? 0
        drawn.efforts[to] = catches.efforts[from] ?? 0
      })
    }
    const ratio = largestRatio(order, drawn)
    ratios[replicate] = ratio
    if (ratio >= least) asGood += 1
    if (asGood >= settings.enough) return { ratios: ratios.slice(0, replicate + 1).sort(), stopped: true }
  }
  return { ratios: ratios.sort(), stopped: false }
}

/** How many of ascending numbers are at least `least`. */
function atLeast(ascending: Float64Array, least: number): number {
  let from = 0
  let to = ascending.length
  while (from < to) {
    const middle = (from + to) >> 1
    if ((ascending[middle] ?? 0) >= least) to = middle
    else from = middle + 1
  }
  return ascending.length - from
}

/** Strongest first; of equals the one with fewer devices, then the one whose centre comes first. */
function ranked(windows: readonly ScanWindow[]): ScanWindow[] {
  return windows
    .filter((one) => one.logLikelihoodRatio > 0)
    .sort((a, b) => b.logLikelihoodRatio - a.logLikelihoodRatio || a.size - b.size || a.centre - b.centre)
}

function whyNot(devices: readonly ScannedDevice[], usable: readonly ScannedDevice[]): NoScanReason | null {
  if (!devices.every(({ count }) => isCount(count))) return 'not-a-count'
  if (!usable.every(({ x, y }) => Math.abs(x) <= FARTHEST && Math.abs(y) <= FARTHEST)) return 'not-a-place'
  const [first] = usable
  if (first === undefined) return 'no-effort'
  if (usable.length === 1) return 'one-device'
  if (usable.every(({ x, y }) => x === first.x && y === first.y)) return 'one-place'
  return null
}

/**
 * Whether devices that caught much stand together: Kulldorff M (1997) A spatial scan statistic, Commun. Statist.
 * Theory Meth. 26:1481–1496. Circles about every device, out to every other, with at most half of all effort;
 * devices at equal distance enter together. The circle whose excess is least likely is the cluster; p is the
 * share of seeded random replicates (and the map itself) whose best circle is at least as unlikely (Dwass M 1957,
 * Ann. Math. Statist. 28:181–187). Further clusters share no device with a stronger one, and are judged by the
 * same replicates, which makes their p too large rather than too small.
 *
 * With `enough` = h the replicates end with the h-th that does at least as well, and p is h over their number
 * (Besag J, Clifford P 1991, Sequential Monte Carlo p-values, Biometrika 78:301–304, from memory): as valid, and
 * where nothing is to be found a few dozen replicates show it, so that many can be afforded where something is.
 * A larger number of replicates never changes the p of a scan that ended so.
 *
 * The replicates are by default the catches shuffled over the places, because catches clump by device; see
 * `ScanChance`, and README.md for how often each is wrong. So a single device that caught everything is no
 * cluster here: `outlyingDevices` is for that.
 *
 * Devices without effort are left out; indices are those of the list given. Places and effort in any one unit
 * each. Nothing found, with the reason, when a count is no whole number from zero up, a place is no number, no or
 * one device has effort, all stand at one place, nothing was caught, no circle holds more than its share, or
 * there are no replicates, none are enough, or numbers are out of range.
 */
export function spatialScan(
  devices: readonly ScannedDevice[],
  options: Partial<ScanSettings> = {},
): SpatialScan {
  const settings = { ...scanSettings, ...options }
  const indices = devices.flatMap(({ effort }, i) => (isExposure(effort) ? [i] : []))
  const usable = indices.map((i) => devices[i] as ScannedDevice)
  const reason = whyNot(devices, usable)
  if (reason !== null) return { found: false, reason, windows: 0 }
  const order = scanOrder(usable)
  const catches = {
    counts: Float64Array.from(usable, ({ count }) => count),
    efforts: Float64Array.from(usable, ({ effort }) => effort),
  }
  const windows = scanWindows(order, catches)
  const total = catches.counts.reduce((sum, one) => sum + one, 0)
  const effort = catches.efforts.reduce((sum, one) => sum + one, 0)
  const no = (why: NoScanReason): SpatialScan => ({ found: false, reason: why, windows: windows.length })
  if (total === 0) return no('none-caught')
  if (!isCount(settings.replicates) || settings.replicates === 0) return no('out-of-range')
  if (!(settings.enough >= 1)) return no('out-of-range')
  if (!Number.isFinite(total / effort) || !(total / effort > 0)) return no('out-of-range')
  const inOrder = ranked(windows)
  const [best] = inOrder
  if (best === undefined) return no('rates-equal')
  const asHighAs = ({ logLikelihoodRatio }: ScanWindow) => logLikelihoodRatio * (1 - SAME_RATIO)
  const { ratios, stopped } = makeReplicates(order, catches, settings, asHighAs(best))
  // Where it stopped, the last replicate is one that did as well, and stands for the map itself.
  const itself = stopped ? 0 : 1
  const pOf = (window: ScanWindow) => (itself + atLeast(ratios, asHighAs(window))) / (itself + ratios.length)
  const clusterOf = (window: ScanWindow): Cluster => {
    const outside = (total - window.count) / (total - window.expected)
    return {
      members: membersOf(order, window).map((i) => indices[i] ?? i),
      centre: indices[window.centre] ?? window.centre,
      radius: Math.sqrt(window.squaredRadius),
      count: window.count,
      effort: window.effort,
      expected: window.expected,
      logLikelihoodRatio: window.logLikelihoodRatio,
      relativeRisk: outside === 0 ? null : window.count / window.expected / outside,
      p: pOf(window),
    }
  }
  const clusters: [Cluster, ...Cluster[]] = [clusterOf(best)]
  const taken = new Set(membersOf(order, best))
  for (const window of inOrder) {
    if (pOf(window) > settings.significance) break
    const members = membersOf(order, window)
    if (members.some((i) => taken.has(i))) continue
    clusters.push(clusterOf(window))
    for (const i of members) taken.add(i)
  }
  const ties = inOrder.filter(
    (one) => one !== best && one.logLikelihoodRatio >= best.logLikelihoodRatio * (1 - SAME_RATIO),
  )
  return {
    found: true,
    clusters,
    ties: ties.map((window) => membersOf(order, window).map((i) => indices[i] ?? i)),
    windows: windows.length,
    devices: usable.length,
    replicates: ratios.length,
  }
}
