import type { Source } from '../files/source.js'
import { dayOf, minutesOf } from '../measure/calendar.js'
import type { RecordKind, RecordOf } from '../records/kinds.js'
import type { RecordPath } from '../records/paths.js'
import type { Day, Place } from '../types.js'
import type { ConditionHistory, ConditionMention } from './condition-history.js'
import { replayConditions } from './condition-history.js'
import type { DeviceAnomaly, DeviceHistory } from './device-history.js'
import type { DistrictView } from './district-view.js'
import type { Loaded, LoadedEvent, ReadFault } from './loaded.js'
import { readOne } from './read-records.js'
import { replayDevices } from './replay-devices.js'
import type { Treatment } from './treatments.js'
import { treatmentsOf } from './treatments.js'

/** Everything the ledger says of one site up to the as-of day, linked. What rules and reports read. */
export interface SiteView {
  readonly id: string
  readonly asOf: Day
  readonly district: DistrictView
  readonly site: Loaded<'site'>
  /** First day anything can be due here. */
  readonly begins: Day
  /** Last day anything can be due here, for a closed site. */
  readonly ends: Day | undefined
  readonly areas: ReadonlyMap<string, Area>
  /** Events after the as-of day: known by name, so that an earlier record may speak of them, and not read. */
  readonly later: readonly RecordPath[]
  /** Every record of the site, for what is asked of all of them alike. */
  readonly records: readonly (Loaded<RecordKind> | LoadedEvent<RecordKind>)[]
  /** By day, then by the time they began. */
  readonly visits: readonly LoadedEvent<'visit'>[]
  readonly routineVisits: readonly LoadedEvent<'visit'>[]
  readonly applications: readonly LoadedEvent<'application'>[]
  readonly complaints: readonly LoadedEvent<'complaint'>[]
  readonly repairs: readonly LoadedEvent<'repair'>[]
  readonly notices: readonly LoadedEvent<'notice'>[]
  readonly incidents: readonly LoadedEvent<'incident'>[]
  readonly storage: readonly LoadedEvent<'storage'>[]
  readonly specimens: readonly LoadedEvent<'specimen'>[]
  readonly devices: readonly DeviceHistory[]
  readonly deviceAnomalies: readonly DeviceAnomaly[]
  readonly conditions: readonly ConditionHistory[]
  readonly conditionMentions: readonly ConditionMention[]
  readonly sightings: readonly Sighting[]
  /** Every time a product was put to use, from applications that were done and from bait put into devices. */
  readonly treatments: readonly Treatment[]
}

export interface Area {
  readonly id: string
  readonly facts: RecordOf<'site'>['areas'][string]
  readonly from: Day
  readonly until: Day | undefined
}

export interface Sighting {
  /** `<visit>/<name>` */
  readonly id: string
  readonly name: string
  readonly day: Day
  readonly visit: LoadedEvent<'visit'>
  readonly at: Place
  readonly facts: NonNullable<RecordOf<'visit'>['found']>[string]
}

/** A site's records, or the reason its picture cannot be drawn: some of its records could not be used. */
export interface ReadSite {
  readonly id: string
  readonly records: number
  readonly later: number
  readonly view: SiteView | null
  /** Files that could not be used. */
  readonly unusable: readonly string[]
}

/**
 * Reads and links one site. Records after the as-of day are left out, and counted. `strays` are files of the site that
 * lie where no record is read: what they tell is missing from the picture too.
 */
export function readSite(
  source: Source,
  district: DistrictView,
  id: string,
  paths: readonly RecordPath[],
  faults: ReadFault[],
  strays: readonly string[],
): ReadSite {
  const wanted = paths.filter((path) => path.day === undefined || path.day <= district.asOf)
  source.prefetch(wanted.map((path) => path.file))
  const byKind = new Map<RecordKind, Loaded<RecordKind>[]>()
  const unusable: string[] = [...strays]
  for (const path of wanted) {
    const record = readOne(source, path, faults)
    if (!record) unusable.push(path.file)
    else {
      const list = byKind.get(path.kind)
      if (list) list.push(record as Loaded<RecordKind>)
      else byKind.set(path.kind, [record as Loaded<RecordKind>])
    }
  }
  const site = byKind.get('site')?.[0] as Loaded<'site'> | undefined
  const later = paths.filter((path) => path.day !== undefined && path.day > district.asOf)
  const view = site && unusable.length === 0 ? link(id, district, site, byKind, later) : null
  return { id, records: wanted.length, later: later.length, view, unusable }
}

function link(
  id: string,
  district: DistrictView,
  site: Loaded<'site'>,
  byKind: ReadonlyMap<RecordKind, Loaded<RecordKind>[]>,
  later: readonly RecordPath[],
): SiteView {
  const events = <K extends RecordKind>(kind: K) =>
    inOrder((byKind.get(kind) ?? []) as unknown as LoadedEvent<K>[])
  const visits = events('visit')
  const repairs = events('repair')
  const applications = events('application')
  const { devices, anomalies } = replayDevices(visits)
  const { conditions, mentions } = replayConditions(visits, repairs)
  const from =
    site.data.from === undefined
      ? district.recordsBegin
      : Math.max(district.recordsBegin, dayOf(site.data.from) ?? 0)
  const areas = areasOf(site.data, from)
  return {
    id,
    asOf: district.asOf,
    district,
    site,
    begins: from,
    ends: site.data.until === undefined ? undefined : (dayOf(site.data.until) ?? undefined),
    areas,
    later,
    records: [...byKind.values()].flat(),
    visits,
    routineVisits: visits.filter((visit) => visit.data.purpose === 'routine'),
    applications,
    complaints: events('complaint'),
    repairs,
    notices: events('notice'),
    incidents: events('incident'),
    storage: events('storage'),
    specimens: events('specimen'),
    devices,
    deviceAnomalies: anomalies,
    conditions,
    conditionMentions: mentions,
    sightings: sightingsOf(visits),
    treatments: treatmentsOf(district, areas, applications, devices),
  }
}

/** By day, then by the minute they began where that is known, then by name: the same whatever order files came in. */
function inOrder<K extends RecordKind>(events: LoadedEvent<K>[]): LoadedEvent<K>[] {
  const start = (event: LoadedEvent<K>) => {
    const time = (event.data as { time?: string }).time
    return time === undefined ? 24 * 60 : (minutesOf(time.slice(0, 5)) ?? 24 * 60)
  }
  return events.sort((a, b) => a.day - b.day || start(a) - start(b) || (a.id < b.id ? -1 : 1))
}

function areasOf(site: RecordOf<'site'>, begins: Day): Map<string, Area> {
  const areas = new Map<string, Area>()
  for (const [id, facts] of Object.entries(site.areas)) {
    const from = facts.from === undefined ? begins : Math.max(begins, dayOf(facts.from) ?? 0)
    areas.set(id, {
      id,
      facts,
      from,
      until: facts.until === undefined ? undefined : (dayOf(facts.until) ?? undefined),
    })
  }
  return areas
}

function sightingsOf(visits: readonly LoadedEvent<'visit'>[]): Sighting[] {
  const sightings: Sighting[] = []
  for (const visit of visits) {
    for (const [name, facts] of Object.entries(visit.data.found ?? {})) {
      sightings.push({
        id: `${visit.id}/${name}`,
        name,
        day: visit.day,
        visit,
        at: { file: visit.file, path: ['found', name] },
        facts,
      })
    }
  }
  return sightings
}
