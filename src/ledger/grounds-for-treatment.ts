import { pestTable } from '../records/tables.js'
import type { Day } from '../types.js'
import type { Count } from './counts.js'
import { countIn } from './counts.js'
import type { Check, DeviceHistory } from './device-history.js'
import { areasVisited } from './inspections.js'
import { isKindOf } from './labels.js'
import type { LoadedEvent } from './loaded.js'
import type { Sighting, SiteView } from './site-view.js'
import { dayIn } from './spans.js'
import { standOn } from './standing.js'
import type { Treatment } from './treatments.js'
import { isPesticide } from './treatments.js'

/** First and last day of a time that counts. */
export interface Days {
  readonly first: Day
  readonly last: Day
}

/** One time the ledger shows a pest at a site: a sighting, a reading or a specimen. Complaints are words, and left out. */
export interface Appearance {
  readonly pest: string
  readonly area: string | undefined
  /** Someone said which pest it is, and was not unsure. */
  readonly isNamed: boolean
  /** It was there then: more than an old trace or an abandoned nest. */
  readonly isThere: boolean
}

/**
 * Whether any appearance in these days fits. Looked for from one application at a time: most of what traps hold is
 * never treated, and most days are near no application.
 */
function someAppearance(
  view: SiteView,
  { first, last }: Days,
  fits: (appearance: Appearance) => boolean,
): boolean {
  const isIn = (day: Day) => first <= day && day <= last
  const isSighted = view.sightings.some(
    ({ facts, day }) =>
      isIn(day) &&
      facts.pest !== undefined &&
      fits({
        pest: facts.pest,
        area: facts.area,
        isNamed: facts.identified !== 'tentative',
        isThere: facts.age !== 'old' && facts['nest-state'] !== 'abandoned',
      }),
  )
  return isSighted || isRead(view, { first, last }, fits) || isDetermined(view, isIn, fits)
}

function isRead(view: SiteView, { first, last }: Days, fits: (appearance: Appearance) => boolean): boolean {
  for (const device of view.devices) {
    for (let at = firstFrom(device.checks, first); at < device.checks.length; at++) {
      const check = device.checks[at]
      if (!check || check.moment.day > last) break
      if (isShown(device, check, fits)) return true
    }
  }
  return false
}

/** Position of the first check on or after a day; checks stand in the order of their days. */
function firstFrom(checks: readonly Check[], day: Day): number {
  let [low, high] = [0, checks.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((checks[middle]?.moment.day ?? day) < day) low = middle + 1
    else high = middle
  }
  return low
}

function isDetermined(
  view: SiteView,
  isIn: (day: Day) => boolean,
  fits: (appearance: Appearance) => boolean,
): boolean {
  return view.specimens.some((specimen) => {
    const { determined } = specimen.data
    return (
      determined?.as !== undefined &&
      isIn(dayIn(determined.on)) &&
      fits({ pest: determined.as, area: whereTaken(view, specimen), isNamed: true, isThere: true })
    )
  })
}

/** What a reading shows: pests counted, be it only their eggs, and for other signs the pest the device is for. */
function isShown(
  device: DeviceHistory,
  { reading, noAccess, counts, area }: Check,
  fits: (appearance: Appearance) => boolean,
): boolean {
  if (!reading || noAccess) return false
  const shows = (pest: string | undefined, isNamed: boolean) =>
    pest !== undefined && fits({ pest, area, isNamed, isThere: true })
  for (const [pest, animals] of counts)
    if ((animals > 0 || hasEggs(countIn(reading, pest))) && shows(pest, true)) return true
  const [first] = device.for
  if (reading.active === 'yes' && shows(first, true)) return true
  const isSign = reading.tracks === 'some' || reading.tracks === 'many' || reading.block === 'moved'
  return isSign && shows(first, false)
}

function hasEggs(count: Count | undefined): boolean {
  return typeof count === 'object' && (count.eggs ?? 0) + (count['egg-cases'] ?? 0) > 0
}

function whereTaken(view: SiteView, { data, day }: LoadedEvent<'specimen'>): string | undefined {
  if (data.area !== undefined) return data.area
  const device = view.devices.findLast(({ id, set }) => id === data.device && set.day <= day)
  if (device) return standOn(device, day)?.area
  const isMeant = ({ id, name, day: seen }: Sighting) =>
    id === data.sighting || (name === data.sighting && seen <= day)
  return view.sightings.findLast(isMeant)?.facts.area
}

/** Whether someone said that this pest, or a kind of it, was at the site in these days. */
export function isNamedAtSite(view: SiteView, pest: string, days: Days): boolean {
  return someAppearance(view, days, (shown) => shown.isNamed && isKindOf(shown.pest, pest))
}

/** Whether this pest, or what may have been it, was seen or caught in one of these areas in these days. */
export function isSeenIn(view: SiteView, pest: string, areas: ReadonlySet<string>, days: Days): boolean {
  return someAppearance(
    view,
    days,
    ({ isThere, area, pest: shown }) =>
      isThere && area !== undefined && areas.has(area) && isSamePest(shown, pest),
  )
}

/** The same pest, or one word for the kind and one for the whole: `cockroach` may have been German cockroaches. */
function isSamePest(one: string, other: string): boolean {
  return isKindOf(one, other) || isKindOf(other, one)
}

/** Something done without a pesticide, and whether it belongs to a treatment of these areas against these pests. */
interface Step {
  readonly day: Day
  readonly belongsTo: (areas: ReadonlySet<string>, pests: readonly string[]) => boolean
}

/** Tactics that put out a pesticide, or drive pests out with one. */
const chemical: ReadonlySet<string | undefined> = new Set(['bait', 'pesticide', 'flushing'])
/** Traps that take the pest away; others are there to watch. */
const trapping: ReadonlySet<string> = new Set(['snap-trap', 'multiple-catch-trap', 'glue-board'])

const steps = new WeakMap<SiteView, readonly Step[]>()

/** Whether anything without a pesticide is shown in these days: in a treated area, or against one of the pests. */
export function isStepShown(view: SiteView, treatment: Treatment, { first, last }: Days): boolean {
  let known = steps.get(view)
  if (!known) {
    known = [...stepsOf(view)]
    steps.set(view, known)
  }
  const areas = treatedAreas(treatment)
  return known.some(({ day, belongsTo }) => first <= day && day <= last && belongsTo(areas, treatment.pests))
}

function* stepsOf(view: SiteView): Iterable<Step> {
  const inArea =
    (area: string | undefined): Step['belongsTo'] =>
    (areas) =>
      area !== undefined && areas.has(area)
  for (const { data, day } of view.visits) {
    for (const { tactic, area, pest, condition } of Object.values(data.actions ?? {})) {
      if (chemical.has(tactic)) continue
      const place = area ?? areaOfCondition(view, condition)
      yield {
        day,
        belongsTo: (areas, pests) =>
          (place !== undefined && areas.has(place)) ||
          (pest !== undefined && pests.some((target) => isSamePest(pest, target))),
      }
    }
    for (const { area, removed } of Object.values(data.plants ?? {}))
      if (removed !== undefined) yield { day, belongsTo: inArea(area) }
  }
  for (const { area, events } of view.conditions)
    for (const { day } of events) yield { day, belongsTo: inArea(area) }
  for (const { data, day } of view.repairs)
    for (const area of [data.area, ...Object.keys(data.openings ?? {})])
      yield { day, belongsTo: inArea(area) }
  // Traps are told once, where they are set and read: no action repeats it.
  for (const device of view.devices) if (trapping.has(device.kind)) yield* trappingBy(device)
  for (const treatment of view.treatments)
    if (treatment.product && !isPesticide(treatment))
      for (const { id } of treatment.areas) yield { day: treatment.day, belongsTo: inArea(id) }
}

function* trappingBy(device: DeviceHistory): Iterable<Step> {
  const at = (day: Day, area: string): Step => ({
    day,
    belongsTo: (areas, pests) =>
      areas.has(area) && pests.some((target) => device.for.some((pest) => isSamePest(pest, target))),
  })
  for (const { from, area } of device.stands) yield at(from.day, area)
  for (const { moment, area, noAccess } of device.checks) if (!noAccess) yield at(moment.day, area)
}

function areaOfCondition(view: SiteView, named: string | undefined): string | undefined {
  if (named === undefined) return undefined
  return view.conditions.findLast(({ id, name }) => id === named || name === named)?.area
}

/** The first day after a day on which a visit was in one of the areas: inspected, saw, read, set or did something there. */
export function firstLookAt(view: SiteView, areas: ReadonlySet<string>, after: Day): Day | undefined {
  const byVisit = areasVisited(view)
  return view.visits.find(({ day, file, data }) => {
    if (day <= after) return false
    const acted = Object.values(data.actions ?? {}).map(({ area }) => area)
    return [...acted, ...(byVisit.get(file) ?? [])].some((area) => area !== undefined && areas.has(area))
  })?.day
}

/** Whether a visit inspected one of the areas in these days. */
export function isInspectedIn(view: SiteView, areas: ReadonlySet<string>, { first, last }: Days): boolean {
  return view.visits.some(
    ({ day, data }) =>
      first <= day && day <= last && (data.inspected?.some((area) => areas.has(area)) ?? false),
  )
}

export function treatedAreas({ areas }: Treatment): ReadonlySet<string> {
  return new Set(areas.map(({ id }) => id))
}

/** Group of a pest; undefined where the table does not have it. */
export function groupOf(pest: string): string | undefined {
  return pestTable().get(pest)?.group
}
