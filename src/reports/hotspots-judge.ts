import { benjaminiHochberg } from '../measure/false-discovery.js'
import type { DeviceComparison } from '../measure/outlying-devices.js'
import { outlyingDevices } from '../measure/outlying-devices.js'
import { seededRandom } from '../measure/seeded-random.js'
import type { Cluster, NoScanReason, SpatialScan } from '../measure/spatial-scan.js'
import { spatialScan } from '../measure/spatial-scan.js'
import type { CatchMap, TrapPlace } from './hotspots-collect.js'

export const hotspotSettings = {
  /** Largest adjusted p of a place, or a device, that stands out. */
  significance: 0.05,
  /** Fewest devices with a position and effort in a scan. */
  fewestDevices: 5,
  /** Fewest of them that caught anything. */
  fewestThatCaught: 3,
  /** Shuffles at most, unless so many scans are made that more are needed. */
  shuffles: 19_999,
  /** Shuffles at most for each scan made, so that one sure place among them all can still be told. */
  shufflesForEachScan: 50,
  /** A scan ends when so many shuffles stand out as much: its p is then known to about a tenth of itself. */
  enough: 100,
} as const

/** Why a group of devices was not scanned. */
export type NotScanned =
  | NoScanReason
  | 'no-positions'
  | 'too-few-positions'
  | 'too-few-devices'
  | 'too-few-caught'

export interface JudgedCluster {
  readonly cluster: Cluster
  readonly members: readonly TrapPlace[]
  readonly adjustedP: number
  readonly standsOut: boolean
}

export interface JudgedScan {
  readonly map: CatchMap
  /** The places that were scanned, or would have been. */
  readonly scanned: readonly TrapPlace[]
  readonly why: NotScanned | null
  /** The strongest first; none where there was no scan. Others than the strongest only where they stand out too. */
  readonly clusters: readonly JudgedCluster[]
  readonly circles: number
  readonly shuffles: number
}

export interface JudgedDevice {
  readonly map: CatchMap
  readonly place: TrapPlace
  readonly others: { readonly count: number; readonly trapNights: number; readonly devices: number }
  readonly comparison: Extract<DeviceComparison, { compared: true }>
}

/**
 * Scans every group of devices in which a place could be told. Whether it could is judged by how many devices caught
 * anything, which shuffling them over the places does not change, so that choosing by it leaves every p as it is.
 * The false discovery rate is held over the strongest place of every scan; a further place of the same scan is held to
 * what it would have had to reach as the strongest.
 */
export function judgeScans(maps: readonly CatchMap[]): JudgedScan[] {
  const prepared = maps.map((map) => {
    const scanned = map.places.filter(({ spot, trapNights }) => spot !== null && trapNights > 0)
    return { map, scanned, why: whyNotScanned(map, scanned) }
  })
  const made = prepared.filter(({ why }) => why === null).length
  const replicates = Math.max(hotspotSettings.shuffles, hotspotSettings.shufflesForEachScan * made - 1)
  const scans = prepared.map(({ map, scanned, why }) =>
    why === null ? scanOf(map, scanned, replicates) : null,
  )
  const pValues = scans.map((scan) => (scan?.found ? scan.clusters[0].p : null))
  return prepared.map(({ map, scanned, why }, at) => {
    const scan = scans[at]
    if (!scan?.found)
      return {
        map,
        scanned,
        why: scan?.reason ?? why,
        clusters: [],
        circles: scan?.windows ?? 0,
        shuffles: 0,
      }
    const judged = scan.clusters.map((cluster) => {
      const adjustedP = benjaminiHochberg(pValues.with(at, cluster.p))[at] ?? 1
      return {
        cluster,
        members: cluster.members.flatMap((member) => scanned[member] ?? []),
        adjustedP,
        standsOut: adjustedP <= hotspotSettings.significance,
      }
    })
    return {
      map,
      scanned,
      why: null,
      clusters: judged.filter(({ standsOut }, rank) => rank === 0 || standsOut),
      circles: scan.windows,
      shuffles: scan.replicates,
    }
  })
}

function whyNotScanned(map: CatchMap, scanned: readonly TrapPlace[]): NotScanned | null {
  const withEffort = map.places.filter(({ trapNights }) => trapNights > 0)
  if (withEffort.length === 0) return 'no-effort'
  if (withEffort.every(({ count }) => count === 0)) return 'none-caught'
  if (withEffort.length < hotspotSettings.fewestDevices) return 'too-few-devices'
  if (scanned.length === 0) return 'no-positions'
  if (scanned.length < hotspotSettings.fewestDevices) return 'too-few-positions'
  if (scanned.filter(({ count }) => count > 0).length < hotspotSettings.fewestThatCaught)
    return 'too-few-caught'
  return null
}

function scanOf(map: CatchMap, scanned: readonly TrapPlace[], replicates: number): SpatialScan {
  const devices = scanned.map(({ spot, count, trapNights }) => ({
    x: spot?.x ?? 0,
    y: spot?.y ?? 0,
    count,
    effort: trapNights,
  }))
  return spatialScan(devices, { replicates, enough: hotspotSettings.enough, seed: seedOf(map) })
}

/** A seed of its own for each scan, from what it is a scan of: nothing else in the ledger changes its shuffles. */
function seedOf({ site, floor, pest, kind }: CatchMap): number {
  const label = `${site} ${floor} ${pest} ${kind}`
  return Math.floor(seededRandom(0).fork(label).next() * 2 ** 32)
}

export interface JudgedDevices {
  /** How many were held against the others of their group. */
  readonly compared: number
  readonly outlying: readonly JudgedDevice[]
}

/** Devices that stand out by themselves, wherever they stand; p is adjusted over every device of every group. */
export function judgeDevices(maps: readonly CatchMap[]): JudgedDevices {
  const all = maps.flatMap((map, group) => map.places.map((place) => ({ map, place, group })))
  const comparisons = outlyingDevices(
    all.map(({ place, group }) => ({ group: String(group), count: place.count, effort: place.trapNights })),
    { significance: hotspotSettings.significance, fewestDevices: hotspotSettings.fewestDevices },
  )
  const outlying = all.flatMap(({ map, place }, at): JudgedDevice[] => {
    const comparison = comparisons[at]
    if (!comparison?.compared || !comparison.outlying) return []
    return [{ map, place, others: othersOf(map, place), comparison }]
  })
  return { compared: comparisons.filter(({ compared }) => compared).length, outlying }
}

function othersOf({ places }: CatchMap, place: TrapPlace): JudgedDevice['others'] {
  const others = places.filter((other) => other !== place && other.trapNights > 0)
  return {
    count: others.reduce((sum, { count }) => sum + count, 0),
    trapNights: others.reduce((sum, { trapNights }) => sum + trapNights, 0),
    devices: others.length,
  }
}
