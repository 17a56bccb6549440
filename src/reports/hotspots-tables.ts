import { compareText } from '../ledger/compare-text.js'
import { deviceTable } from '../records/tables.js'
import type { Cell, Column, Table } from '../types.js'
import type { CatchMap, TrapPlace } from './hotspots-collect.js'
import { compareMaps } from './hotspots-collect.js'
import type { JudgedCluster, JudgedScan } from './hotspots-judge.js'
import { hotspotSettings } from './hotspots-judge.js'
import { reasonWords, whereWords } from './hotspots-words.js'
import { pestName } from './pest-name.js'

export const work = { for: 'work' } as const
export const people = { for: 'people' } as const
export const animals = { unit: 'animals', decimals: 0 } as const
export const nights = { unit: 'trap-nights', decimals: 0 } as const

const clusterNumbers: readonly Column[] = [
  { id: 'devices-there', title: 'devices there', unit: 'devices', decimals: 0 },
  { id: 'devices', title: 'devices in all', unit: 'devices', decimals: 0 },
  { id: 'caught-there', title: 'caught there', ...animals },
  { id: 'caught', title: 'caught in all', ...animals },
  { id: 'expected-there', title: 'expected there if rates were equal', unit: 'animals', decimals: 2 },
  { id: 'trap-nights-there', title: 'effort there', ...nights },
  { id: 'trap-nights', title: 'effort in all', ...nights },
  { id: 'times', title: 'rate there', unit: 'times elsewhere', decimals: 1 },
  { id: 'members', title: 'which devices' },
  { id: 'centre', title: 'circle about' },
  { id: 'radius', title: 'radius', decimals: 1 },
  { id: 'radius-unit', title: 'unit of the radius' },
  { id: 'p', title: 'p', decimals: 5 },
  { id: 'p-adjusted', title: 'adjusted p', decimals: 4 },
  { id: 'shuffles', title: 'shuffles', unit: 'shuffles', decimals: 0 },
  { id: 'circles', title: 'circles looked at', unit: 'circles', decimals: 0 },
  { id: 'method', title: 'method' },
]

const scanMethod =
  'circular scan (Kulldorff 1997), p by shuffling catches over places, ended early where that is enough (Besag & Clifford 1991), adjusted (Benjamini & Hochberg 1995); no interval, since the circle was chosen for standing out'

/** The scan that a row is about: of what, and where. */
export function scanCells({ site, floor, pest, kind }: CatchMap): Record<string, Cell> {
  return { site, floor, pest: pestName(pest), kind: deviceTable()[kind].name }
}

function clusterCells({ map, scanned, circles, shuffles }: JudgedScan, judged: JudgedCluster) {
  const { cluster, members, adjustedP } = judged
  const [caught, trapNights] = [sumOf(scanned, 'count'), sumOf(scanned, 'trapNights')]
  return {
    where: whereWords(members),
    'by-shown': `${members.length} of ${scanned.length}`,
    'caught-shown': `${cluster.count} of ${caught}`,
    'effort-shown': `${cluster.effort} of ${trapNights}`,
    'times-shown': cluster.relativeRisk === null ? 'all of it' : cluster.relativeRisk.toFixed(1),
    'devices-there': members.length,
    devices: scanned.length,
    'caught-there': cluster.count,
    caught,
    'expected-there': cluster.expected,
    'trap-nights-there': cluster.effort,
    'trap-nights': trapNights,
    times: cluster.relativeRisk,
    members: members.map(({ device }) => device).join(' '),
    centre: scanned[cluster.centre]?.device ?? null,
    radius: cluster.radius,
    'radius-unit': map.unit ?? 'that of the positions',
    p: cluster.p,
    'p-adjusted': adjustedP,
    shuffles,
    circles,
    method: scanMethod,
  }
}

/** A place that stands out, with the scan it belongs to. */
export interface PlaceFound {
  readonly scan: JudgedScan
  readonly judged: JudgedCluster
}

/** Surest first. */
export function placesFound(scans: readonly JudgedScan[]): PlaceFound[] {
  return scans
    .flatMap((scan) => scan.clusters.map((judged) => ({ scan, judged })))
    .filter(({ judged }) => judged.standsOut)
    .sort(
      (a, b) =>
        a.judged.adjustedP - b.judged.adjustedP ||
        b.judged.cluster.logLikelihoodRatio - a.judged.cluster.logLikelihoodRatio ||
        compareMaps(a.scan.map, b.scan.map) ||
        compareText(whereWords(a.judged.members), whereWords(b.judged.members)),
    )
}

export function placesTable(found: readonly PlaceFound[]): Table {
  return {
    id: 'places',
    title: 'Places that stand out: devices side by side that caught more than the others of their kind',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'floor', title: 'floor' },
      { id: 'pest', title: 'pest' },
      { id: 'kind', title: 'kind of device', ...work },
      { id: 'where', title: 'around (devices)' },
      { id: 'by-shown', title: 'devices', ...people },
      { id: 'caught-shown', title: 'caught', ...people },
      { id: 'effort-shown', title: 'trap-nights', ...people },
      { id: 'times-shown', title: 'rate (times elsewhere)', ...people },
      ...clusterNumbers.map((column) => ({ ...column, ...work })),
    ],
    rows: found.map(({ scan, judged }) => ({
      cells: { ...scanCells(scan.map), ...clusterCells(scan, judged) },
      records: filesOf(scan.scanned),
    })),
    shownToPeople: 20,
    empty: 'None does surely; --show-work shows the strongest of each group of devices.',
  }
}

/** Every scan, also those that could not be made and those that show nothing sure, with its strongest place. */
export function scansTable(scans: readonly JudgedScan[]): Table {
  return {
    id: 'scans',
    title: 'Every group of devices, and its strongest place',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'floor', title: 'floor' },
      { id: 'pest', title: 'pest' },
      { id: 'kind', title: 'kind of device' },
      { id: 'verdict', title: 'verdict' },
      { id: 'why', title: 'because' },
      { id: 'where', title: 'strongest around (devices)' },
      ...clusterNumbers,
    ],
    rows: scans.map((scan) => {
      const [strongest] = scan.clusters
      return {
        cells: {
          ...scanCells(scan.map),
          verdict: strongest?.standsOut ? 'stands out' : 'cannot tell',
          why: whyOf(scan),
          ...(strongest ? clusterCells(scan, strongest) : notScannedCells(scan.map)),
        },
        records: filesOf(scan.map.places),
      }
    }),
    empty: 'No device was read in this period.',
    for: 'work',
  }
}

function whyOf({ why, clusters: [strongest] }: JudgedScan): string {
  if (why !== null) return reasonWords[why]
  if (strongest === undefined) return reasonWords['rates-equal']
  if (strongest.standsOut) return 'devices that caught much stand together'
  return strongest.cluster.p <= hotspotSettings.significance
    ? 'not sure enough among so many scans'
    : 'shuffled catches stand together as much'
}

function notScannedCells({ places }: CatchMap): Record<string, Cell> {
  return {
    devices: places.length,
    caught: sumOf(places, 'count'),
    'trap-nights': sumOf(places, 'trapNights'),
  }
}

/** Devices that caught something and whose position no record says: the scan had to do without them. */
export function unplacedTable(maps: readonly CatchMap[]): Table {
  return {
    id: 'no-position',
    title: 'Devices with a catch and without a position',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'device', title: 'device' },
      { id: 'pest', title: 'pest' },
      { id: 'caught', title: 'caught', ...animals },
      { id: 'trap-nights', title: 'effort', ...nights },
    ],
    rows: maps.flatMap((map) =>
      map.places
        .filter(({ spot, count }) => spot === null && count > 0)
        .map((place) => ({
          cells: {
            site: map.site,
            area: place.areaName,
            device: place.device,
            pest: pestName(map.pest),
            caught: place.count,
            'trap-nights': place.trapNights,
          },
          records: place.files,
        })),
    ),
    empty: 'Every device with a catch has a position.',
    for: 'work',
  }
}

export function sumOf(places: readonly TrapPlace[], what: 'count' | 'trapNights'): number {
  return places.reduce((sum, place) => sum + place[what], 0)
}

export function filesOf(places: readonly TrapPlace[]): string[] {
  return [...new Set(places.flatMap(({ files }) => files))].sort(compareText)
}
