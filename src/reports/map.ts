import type { Source } from '../files/source.js'

import { readLedger } from '../ledger/read-ledger.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import { liesOutdoors } from '../records/area-kinds.js'
import { deviceTable } from '../records/tables.js'
import type { Report } from '../types.js'
import { areaName } from './area-name.js'
import { clumpingByPest, readingsOf } from './clumping.js'
import type { Watched } from './coverage-gathered.js'
import { emptyWatched, watch } from './coverage-gathered.js'
import { type CatchMap, catchMapsOf } from './hotspots-collect.js'
import { conditionsThere } from './hotspots-conditions.js'
import { judgeDevices, judgeScans } from './hotspots-judge.js'
import { filesOf, placesFound } from './hotspots-tables.js'
import { placeKey } from './map-catch.js'
import { mapDevices } from './map-devices.js'
import { drawingOf } from './map-drawing.js'
import { gapsOf, needsAt } from './map-needs.js'
import { outlineOf } from './map-outline.js'
import type { MapArea, MapCondition, MapPlace, SiteMap } from './map-site.js'
import { mapTables } from './map-tables.js'
import { mapCautions, mapHeadline, mapTitle, mapUntold } from './map-words.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { pestName } from './pest-name.js'

export interface ReadMap {
  /** Undefined where the site could not be read. */
  readonly map: SiteMap | undefined
  readonly report: Report
  /** The report before anything of the map is in it: what could not be read, for a map of a part. */
  readonly bare: Report
}

/**
 * The property diagram of one site: its areas, the devices that stand there with what they caught of a pest in a period,
 * what is open, what stands out and what is not watched. The whole ledger is read, since places, devices and needs are
 * judged over all of it: a map says what `report hotspots` and `report coverage` say.
 */
export function readMap(source: Source, options: ReportOptions, site: string): ReadMap {
  const period = periodOf(options)
  const catches: CatchMap[] = []
  const watched: Watched = emptyWatched()
  let view: SiteView | undefined
  const read = readLedger(source, options, (one) => {
    catches.push(...catchMapsOf(one, period).maps)
    watch(watched, one, period)
    if (one.id === site) view = one
  })
  const map = view ? mapOf(view, { source, options, catches, watched }) : undefined
  const bare: Report = {
    report: 'map',
    title: `Map of ${site}`,
    headline: 'This site could not be read, so there is no map of it.',
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: mapTables(undefined),
    cautions: cutCautions(options),
    notExamined: notExaminedOf(read),
    incomplete: read.notChecked.length > 0,
  }
  return { map, report: map ? reportOfMap(map, bare) : bare, bare }
}

/** The report of a map, or of part of one. */
export function reportOfMap(map: SiteMap, bare: Report): Report {
  return {
    ...bare,
    title: mapTitle(map),
    headline: mapHeadline(map),
    tables: mapTables(map),
    cautions: [...mapCautions(map), ...bare.cautions],
    notExamined: [...bare.notExamined, ...mapUntold(map)],
  }
}

interface Gathered {
  readonly source: Source
  readonly options: ReportOptions
  readonly catches: readonly CatchMap[]
  readonly watched: Watched
}

function mapOf(view: SiteView, { source, options, catches, watched }: Gathered): SiteMap {
  const period = periodOf(options)
  const { pest } = options
  const areas = mapAreas(view)
  const outlying = judgeDevices(catches).outlying.filter(
    ({ map }) => map.site === view.id && map.pest === pest,
  )
  return {
    site: view.id,
    siteName: view.site.data.name,
    asOf: isoOf(view.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    pest: pest === undefined ? undefined : { id: pest, name: pestName(pest) },
    unit: view.site.data.diagram?.unit,
    drawing: drawingOf(view),
    areas,
    devices: mapDevices({
      view,
      areas,
      period,
      pest,
      ofPest: pest === undefined ? null : (clumpingOf(watched).get(pest) ?? null),
      outlying: new Set(outlying.map(({ place }) => placeKey(place.device, place.area, place.spot))),
    }),
    conditions: mapConditions(view, areas),
    places: mapPlaces(catches, view.id, pest),
    gaps: gapsOf(source, view.id, options),
    needs: needsAt(watched, view.id, period, pest),
    leftOut: [],
  }
}

const clumpingOf = ({ series }: Watched) =>
  clumpingByPest(series.map(({ pest, observations }) => ({ pest, groups: [readingsOf(observations)] })))

/** The areas that are part of the site on the as-of day. */
function mapAreas(view: SiteView): MapArea[] {
  const open = [...view.areas.values()].filter(
    ({ from, until }) => from <= view.asOf && (until === undefined || until >= view.asOf),
  )
  return open.map(({ id, facts }, at) => ({
    no: at + 1,
    id,
    name: areaName(view, id),
    kind: facts.kind,
    floor: liesOutdoors(facts.kind) === true ? 'outdoors' : String(facts.floor ?? 1),
    ...outlineOf(facts.outline),
    records: [view.site.file],
  }))
}

function mapConditions(view: SiteView, areas: readonly MapArea[]): MapCondition[] {
  const known = new Map(areas.map(({ id, no }) => [id, no]))
  const dues = new Map(view.conditions.map(({ id, due }) => [id, due]))
  const open = conditionsOf(view).filter(({ putRight }) => putRight === null)
  const rank = (area: string | undefined) => known.get(area ?? '') ?? Infinity
  return open
    .sort((a, b) => compareNumbers(rank(a.area), rank(b.area)) || a.since - b.since || (a.id < b.id ? -1 : 1))
    .map((one, at) => {
      const due = dues.get(one.id)
      return {
        no: at + 1,
        area: one.area !== undefined && known.has(one.area) ? one.area : undefined,
        areaName: one.area === undefined ? 'not stated' : areaName(view, one.area),
        id: one.id,
        what: one.says,
        gives: one.gives,
        owner: one.owner,
        since: isoOf(one.since),
        due: due === undefined ? undefined : isoOf(due),
        records: one.files,
      }
    })
}

/** Also those of which no area is told, which the others leave out. */
function conditionsOf(view: SiteView) {
  const told = conditionsThere(view, { from: view.asOf, to: view.asOf })
  const nowhere = view.conditions.filter(({ area, open }) => area === undefined && open)
  return [
    ...told.map((one) => ({ ...one, area: one.area as string | undefined })),
    ...nowhere.map(({ id, says, gives, owner, events }) => ({
      area: undefined,
      id,
      says,
      gives,
      owner,
      since: events[0]?.day ?? view.asOf,
      putRight: null,
      files: [...new Set(events.map(({ at }) => at.file))],
    })),
  ]
}

const compareNumbers = (a: number, b: number) => (a === b ? 0 : a - b)

function mapPlaces(catches: readonly CatchMap[], site: string, pest: string | undefined): MapPlace[] {
  const scans = judgeScans(catches).filter(
    ({ map }) => map.site === site && (pest === undefined || map.pest === pest),
  )
  return placesFound(scans).flatMap(({ scan, judged }, at) => {
    const centre = scan.scanned[judged.cluster.centre]?.spot
    if (!centre) return []
    return [
      {
        no: at + 1,
        floor: scan.map.floor,
        pest: pestName(scan.map.pest),
        kindName: deviceTable()[scan.map.kind].name,
        centre,
        radius: judged.cluster.radius,
        members: judged.members.map(({ device }) => device),
        count: judged.cluster.count,
        expected: judged.cluster.expected,
        adjustedP: judged.adjustedP,
        records: filesOf(scan.scanned),
      },
    ]
  })
}
