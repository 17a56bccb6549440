import type { Source } from '../files/source.js'
import type { RecordPath } from '../records/paths.js'
import { siteOfPath } from '../records/paths.js'
import type { Day, NotChecked } from '../types.js'
import type { DistrictView } from './district-view.js'
import { districtView } from './district-view.js'
import type { LoadedEvent, ReadFault } from './loaded.js'
import { inventoryOf, readOne } from './read-records.js'
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
  const inventory = inventoryOf(source)
  const faults: ReadFault[] = [...inventory.faults]
  const notChecked: NotChecked[] = []
  const district = districtView(source, inventory, options.asOf, faults)
  let records = inventory.district.length
  let later = 0
  if (!district) {
    notChecked.push({ what: 'the whole ledger', why: 'district.yaml is missing or cannot be used' })
    return { district, faults, notChecked, records, sites: inventory.sites.size, later }
  }
  const unread = inventory.faults.map((fault) => fault.file).filter((file) => siteOfPath(file) === undefined)
  for (const file of unread) notChecked.push({ what: file, why: 'it could not be read as a record' })
  for (const broken of [...district.broken].sort())
    notChecked.push({ what: broken, why: 'the record cannot be used' })
  for (const [id, paths] of [...inventory.sites].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (options.asOfIsToday) faults.push(...futureFaults(source, paths, options.asOf))
    const strays = inventory.faults.map((fault) => fault.file).filter((file) => siteOfPath(file) === id)
    const read = readSite(source, district, id, paths, faults, strays)
    records += read.records
    later += read.later
    if (read.view) eachSite(read.view)
    else notChecked.push({ what: `sites/${id}`, why: reasonOf(read.unusable) })
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
