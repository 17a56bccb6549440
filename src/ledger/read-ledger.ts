import type { Entry, Source } from '../files/source.js'
import type { RecordPath } from '../records/paths.js'
import { siteOfPath } from '../records/paths.js'
import type { Day, NotChecked } from '../types.js'
import type { DistrictView } from './district-view.js'
import { districtView } from './district-view.js'
import { getOrMake } from './get-or-make.js'
import type { LoadedEvent, ReadFault } from './loaded.js'
import type { Inventory } from './read-records.js'
import { inventoryOfEntries, readOne, recordPathsOf } from './read-records.js'
import type { SiteView } from './site-view.js'
import { readSite } from './site-view.js'

export interface ReadOptions {
  readonly asOf: Day
  /** Events after the as-of day are a fault of their own only when that day is today. */
  readonly asOfIsToday: boolean
}

/** What came of reading a ledger, beside the sites, which are handed over one by one. */
export interface ReadLedger {
  /** Null when there is no usable district.yaml: then nothing can be judged. */
  readonly district: DistrictView | null
  readonly faults: readonly ReadFault[]
  readonly notChecked: readonly NotChecked[]
  readonly records: number
  readonly sites: number
  /** Records dated after the as-of day, which were left out. */
  readonly later: number
}

/** The files of a ledger and the records of the district, before any site is read. */
export interface ReadDistrict {
  readonly inventory: Inventory
  readonly district: DistrictView | null
  readonly faults: readonly ReadFault[]
  readonly notChecked: readonly NotChecked[]
}

export function readDistrict(
  source: Source,
  { asOf }: ReadOptions,
  entries: readonly Entry[] = source.list(),
): ReadDistrict {
  const inventory = inventoryOfEntries(entries)
  const faults: ReadFault[] = [...inventory.faults]
  const district = districtView(source, inventory, asOf, faults)
  const notChecked: NotChecked[] = [...(source.notChecked ?? [])]
  if (!district) {
    notChecked.push({ what: 'the whole ledger', why: 'district.yaml is missing or cannot be used' })
    return { inventory, district, faults, notChecked }
  }
  const unread = inventory.faults.map((fault) => fault.file).filter((file) => siteOfPath(file) === undefined)
  for (const file of unread) notChecked.push({ what: file, why: 'it could not be read as a record' })
  for (const broken of [...district.broken].sort())
    notChecked.push({ what: broken, why: 'the record cannot be used' })
  return { inventory, district, faults, notChecked }
}

/** The files of a site's records, and the files in its folder that lie where no record is read. */
export interface SiteFiles {
  readonly id: string
  readonly files: readonly string[]
  readonly strays: readonly string[]
}

/** The sites of a ledger in order of their ids. */
export function siteFilesOf(inventory: Inventory): SiteFiles[] {
  const strays = new Map<string, string[]>()
  for (const { file } of inventory.faults) {
    const site = siteOfPath(file)
    if (site !== undefined) getOrMake(strays, site, () => []).push(file)
  }
  return [...inventory.sites]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([id, files]) => ({ id, files, strays: strays.get(id) ?? [] }))
}

/** What came of reading one site. */
export interface SiteReading {
  /** Null when a record of it cannot be used: what is missing could not be told from what was not read. */
  readonly view: SiteView | null
  readonly faults: readonly ReadFault[]
  readonly notChecked: readonly NotChecked[]
  readonly records: number
  readonly later: number
}

export function readOneSite(
  source: Source,
  district: DistrictView,
  { id, files, strays }: SiteFiles,
  options: ReadOptions,
): SiteReading {
  const paths = recordPathsOf(files)
  const faults: ReadFault[] = options.asOfIsToday ? futureFaults(source, paths, options.asOf) : []
  const { view, unusable, records, later } = readSite(source, district, id, paths, faults, strays)
  const notChecked = view ? [] : [{ what: `sites/${id}`, why: reasonOf(unusable) }]
  return { view, faults, notChecked, records, later }
}

/**
 * Reads a ledger site by site: each is linked, handed to `eachSite` and let go, so that memory does not grow with
 * the ledger. A site with a record that cannot be used is not handed over, since what is missing there could not
 * be told from what was not read; it is listed as not checked. The order of the files does not matter.
 */
export function readLedger(
  source: Source,
  options: ReadOptions,
  eachSite: (view: SiteView) => void,
): ReadLedger {
  const { inventory, district, ...read } = readDistrict(source, options)
  const faults = [...read.faults]
  const notChecked = [...read.notChecked]
  let records = inventory.district.length
  let later = 0
  if (!district) return { district, faults, notChecked, records, sites: inventory.sites.size, later }
  for (const site of siteFilesOf(inventory)) {
    const reading = readOneSite(source, district, site, options)
    faults.push(...reading.faults)
    notChecked.push(...reading.notChecked)
    records += reading.records
    later += reading.later
    if (reading.view) eachSite(reading.view)
  }
  return { district, faults, notChecked, records, sites: inventory.sites.size, later }
}

function reasonOf(unusable: readonly string[]): string {
  if (unusable.length === 0) return 'it has no site.yaml'
  const more = unusable.length > 1 ? ` and ${unusable.length - 1} more` : ''
  return `${unusable[0]}${more} cannot be used, so what is missing cannot be told from what was not read`
}

/** Events dated after today. An application may be planned for a day to come. */
function futureFaults(source: Source, paths: readonly RecordPath[], today: Day): ReadFault[] {
  return paths
    .filter((path) => path.day !== undefined && path.day > today && !isPlanned(source, path))
    .map((path) => ({ file: path.file, kind: 'future', today }))
}

function isPlanned(source: Source, path: RecordPath): boolean {
  if (path.kind !== 'application') return false
  const record = readOne(source, path, []) as LoadedEvent<'application'> | null
  return record !== null && record.data.status === 'planned'
}
