import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import type { DeviceHistory } from '../ledger/device-history.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import type { Area, SiteView } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import { looksTable } from '../records/look-table.js'
import { deviceTable } from '../records/tables.js'
import { firstAnswers } from '../rules/inspection/complaints-due.js'
import { areaName } from './area-name.js'
import type { ClipboardCondition } from './clipboard-conditions.js'
import { conditionsToLookAt } from './clipboard-conditions.js'
import type { ClipboardDevices } from './clipboard-devices.js'
import { devicesByKind, standingByArea } from './clipboard-devices.js'
import { notExaminedOf } from './not-examined.js'
import { readOnlySite } from './only-site.js'
import type { ReportOptions } from './options.js'
import { namedCautions } from './pest-cautions.js'
import { pestName } from './pest-name.js'

/** What one takes along to a site: the site as a whole, then each area in walking order. */
export interface Clipboard {
  readonly site: string
  readonly name: string
  readonly address: string | undefined
  readonly asOf: string
  readonly siteManager: string | undefined
  readonly complaintLog: string
  /** All that wait, also those of areas that were not asked for. */
  readonly complaints: readonly ClipboardComplaint[]
  readonly areas: readonly ClipboardArea[]
  /** Names of the areas that were not asked for, so that a part never passes for the whole. */
  readonly leftOut: readonly string[]
  readonly cautions: readonly ClipboardCaution[]
  /** What the ledger does not tell of this site on this day, or what of it could not be read. */
  readonly notExamined: readonly string[]
}

export interface ClipboardCaution {
  readonly about: string
  readonly says: string
}

export interface ClipboardComplaint {
  readonly id: string
  readonly area: string | undefined
  /** The area as people call it. */
  readonly place: string | undefined
  /** The pest or animal named, if one was. */
  readonly of: string | undefined
  readonly says: string
}

export interface ClipboardArea {
  /** Empty for what the records place in no area. */
  readonly id: string
  readonly name: string
  /** Undefined for a place that is no area of the site on this day, where something still stands or waits. */
  readonly kind: string | undefined
  readonly floor: number | undefined
  readonly usedByChildren: boolean
  readonly keys: string | undefined
  readonly letInBy: string | undefined
  readonly lookAt: readonly string[]
  readonly complaints: readonly ClipboardComplaint[]
  readonly devices: readonly ClipboardDevices[]
  readonly conditions: readonly ClipboardCondition[]
  readonly cautions: readonly ClipboardCaution[]
}

export interface ClipboardRead {
  /** Undefined where the site cannot be read: half a page would pass for a whole one. */
  readonly clipboard: Clipboard | undefined
  readonly notExamined: readonly string[]
  readonly incomplete: boolean
}

/** Days for which a sighting still asks for care. Our own choice: three monthly visits, no source. */
const recently = 90

export function readClipboard(
  source: Source,
  options: Pick<ReportOptions, 'asOf' | 'asOfIsToday'>,
  site: string,
): ClipboardRead {
  const { read, view } = readOnlySite(source, site, options)
  const notExamined = notExaminedOf(read)
  return {
    clipboard: view && clipboardOf(view, notExamined),
    notExamined,
    incomplete: read.notChecked.length > 0,
  }
}

/** The pages for a clipboard, from the ledger as it stood on a day. */
export function clipboardOf(view: SiteView, notExamined: readonly string[] = []): Clipboard {
  const day = view.asOf
  const manager = inForce(view.site.data['site-manager'], day)?.who
  const waiting: Waiting = {
    devices: standingByArea(view.devices, day),
    complaints: complaintsWaiting(view),
    conditions: conditionsToLookAt(view),
  }
  const listed = [...view.areas.values()].filter(
    ({ from, until }) => from <= day && (until === undefined || day <= until),
  )
  return withCautions({
    site: view.id,
    name: view.site.data.name,
    address: view.site.data.address,
    asOf: isoOf(day),
    siteManager:
      manager === undefined ? undefined : (view.district.people.get(manager)?.data.name ?? manager),
    complaintLog: view.site.data['complaint-log'],
    complaints: waiting.complaints,
    areas: [
      ...listed.map((area) => ({ ...factsOf(area), ...whatWaitsIn(view, area.id, waiting) })),
      ...placesNotListed(listed, waiting).map((id) => ({
        ...factsOfNoArea(id),
        ...whatWaitsIn(view, id, waiting),
      })),
    ],
    leftOut: [],
    notExamined: [...outsideItsDays(view), ...notExamined],
  })
}

/** The same with only some of its areas; complaints stay, since they are of the site as a whole. */
export function onlyAreas(clipboard: Clipboard, areas: readonly string[]): Clipboard {
  const isAsked = ({ id }: ClipboardArea) => areas.includes(id)
  return withCautions({
    ...clipboard,
    areas: clipboard.areas.filter(isAsked),
    leftOut: clipboard.areas.filter((area) => !isAsked(area)).map(({ name }) => name),
  })
}

/** The usual cautions once: those for any visit, then those that its areas ask for. */
function withCautions(clipboard: Omit<Clipboard, 'cautions'>): Clipboard {
  const ofAreas = new Map(
    clipboard.areas.flatMap(({ cautions }) => cautions.map((caution) => [caution.about, caution])),
  )
  return { ...clipboard, cautions: [gloves, ...ofAreas.values(), pesticides] }
}

// Common practice, no source.
const gloves: ClipboardCaution = {
  about: 'hands',
  says: 'Wear gloves for traps, droppings and anything that bites. What children can reach is put right before you leave.',
}
const pesticides: ClipboardCaution = {
  about: 'pesticides',
  says: 'Anything with a pesticide waits for its own check, notice and licence; the label is the law. This page permits nothing.',
}

interface Waiting {
  readonly devices: ReadonlyMap<string, readonly DeviceHistory[]>
  readonly complaints: readonly ClipboardComplaint[]
  readonly conditions: readonly ClipboardCondition[]
}

function unanswered(view: SiteView): LoadedEvent<'complaint'>[] {
  const answers = firstAnswers(view)
  return view.complaints.filter(({ id, data }) => data.withdrawn === undefined && !answers.has(id))
}

function complaintsWaiting(view: SiteView): ClipboardComplaint[] {
  return unanswered(view).map(({ id, data }) => ({
    id,
    area: data.area,
    place: data.area === undefined ? undefined : areaName(view, data.area),
    of: data.pest === undefined ? data.other : pestName(data.pest),
    says: data.says,
  }))
}

function factsOf({ id, facts }: Area) {
  return {
    id,
    name: facts.name ?? id,
    kind: facts.kind,
    floor: facts.floor,
    usedByChildren: facts.children === 'yes',
    keys: facts.keys,
    letInBy: facts['let-in-by'],
    lookAt: looksTable()[facts.kind],
  }
}

function factsOfNoArea(id: string) {
  return {
    id,
    name: id === '' ? 'No area recorded' : id,
    kind: undefined,
    floor: undefined,
    usedByChildren: false,
    keys: undefined,
    letInBy: undefined,
    lookAt: [],
  }
}

/** Places where something stands or waits that are no areas of the site on this day; nothing is dropped for that. */
function placesNotListed(listed: readonly Area[], { devices, complaints, conditions }: Waiting): string[] {
  const known = new Set(listed.map(({ id }) => id))
  const places = [
    ...devices.keys(),
    ...complaints.map(({ area }) => area ?? ''),
    ...conditions.map(({ area }) => area ?? ''),
  ]
  const others = [...new Set(places)].filter((place) => place !== '' && !known.has(place)).sort(compareText)
  return places.includes('') ? [...others, ''] : others
}

function whatWaitsIn(view: SiteView, area: string, waiting: Waiting) {
  const devices = waiting.devices.get(area) ?? []
  return {
    complaints: waiting.complaints.filter((complaint) => (complaint.area ?? '') === area),
    devices: devicesByKind(devices, view.asOf),
    conditions: waiting.conditions.filter((condition) => (condition.area ?? '') === area),
    cautions: namedCautions(pestsTo(view, area, devices)),
  }
}

/** Pests that this area asks care of: those its rodent devices are for, and those last caught, seen or reported there. */
function pestsTo(view: SiteView, area: string, devices: readonly DeviceHistory[]): string[] {
  const forRodents = devices
    .filter(({ kind }) => deviceTable()[kind].rodent === 'yes')
    .flatMap((device) => device.for)
  const caught = devices.flatMap(({ checks }) =>
    [...(checks.findLast(({ noAccess }) => !noAccess)?.counts ?? [])]
      .filter(([, count]) => count > 0)
      .map(([pest]) => pest),
  )
  const seen = view.sightings
    .filter((sighting) => sighting.facts.area === area && sighting.day > view.asOf - recently)
    .flatMap(({ facts }) => facts.pest ?? [])
  const reported = unanswered(view)
    .filter(({ data }) => (data.area ?? '') === area)
    .flatMap(({ data }) => data.pest ?? [])
  return [...forRodents, ...caught, ...seen, ...reported]
}

/** A site that does not yet, or no longer, answer for anything still has a page; it says so. */
function outsideItsDays({ asOf, begins, ends }: SiteView): string[] {
  if (asOf < begins) return [`The records of this site begin on ${isoOf(begins)}, after this day.`]
  if (ends !== undefined && ends < asOf) return [`This site was closed after ${isoOf(ends)}.`]
  return []
}
