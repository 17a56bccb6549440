import { pestTable } from '../records/tables.js'
import type { Day } from '../types.js'
import { animalsIn, countIn, pestsIn } from './counts.js'
import type { Check, DeviceHistory } from './device-history.js'
import { getOrMake } from './get-or-make.js'
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
  readonly day: Day
  readonly area: string | undefined
  /** Someone said which pest it is, and was not unsure. */
  readonly isNamed: boolean
  /** It was there then: more than an old trace or an abandoned nest. */
  readonly isThere: boolean
}

const appearances = new WeakMap<SiteView, ReadonlyMap<string, readonly Appearance[]>>()

/** Every appearance of every pest at a site, by pest and then by day. */
export function appearancesOf(view: SiteView): ReadonlyMap<string, readonly Appearance[]> {
  const known = appearances.get(view)
  if (known) return known
  const byPest = new Map<string, Appearance[]>()
  const add = (pest: string | undefined, appearance: Appearance) => {
    if (pest !== undefined && pest !== 'unidentified') getOrMake(byPest, pest, () => []).push(appearance)
  }
  for (const { facts, day } of view.sightings) {
    const isThere = facts.age !== 'old' && facts['nest-state'] !== 'abandoned'
    add(facts.pest, { day, area: facts.area, isNamed: facts.identified !== 'tentative', isThere })
  }
  for (const device of view.devices)
    for (const check of device.checks)
      for (const { pest, isNamed } of shownBy(device, check))
        add(pest, { day: check.moment.day, area: check.area, isNamed, isThere: true })
  for (const specimen of view.specimens) {
    const { determined } = specimen.data
    if (determined)
      add(determined.as, {
        day: dayIn(determined.on),
        area: whereTaken(view, specimen),
        isNamed: true,
        isThere: true,
      })
  }
  for (const list of byPest.values()) list.sort((a, b) => a.day - b.day)
  appearances.set(view, byPest)
  return byPest
}

/** What a reading shows: pests counted, be it only their eggs, and for other signs the pest the device is for. */
function* shownBy(
  device: DeviceHistory,
  { reading, noAccess }: Check,
): Iterable<{ readonly pest: string | undefined; readonly isNamed: boolean }> {
  if (!reading || noAccess) return
  for (const pest of pestsIn(reading)) {
    const count = countIn(reading, pest)
    if (count === undefined) continue
    const eggs = typeof count === 'number' ? 0 : (count.eggs ?? 0) + (count['egg-cases'] ?? 0)
    if (animalsIn(count) + eggs > 0) yield { pest, isNamed: true }
  }
  const [first] = device.for
  if (reading.active === 'yes') yield { pest: first, isNamed: true }
  if (reading.tracks === 'some' || reading.tracks === 'many' || reading.block === 'moved')
    yield { pest: first, isNamed: false }
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
export function isNamedAtSite(view: SiteView, pest: string, { first, last }: Days): boolean {
  for (const [shown, times] of appearancesOf(view))
    if (isKindOf(shown, pest) && times.some((time) => time.isNamed && first <= time.day && time.day <= last))
      return true
  return false
}

/** Whether this pest, or what may have been it, was seen or caught in one of these areas in these days. */
export function isSeenIn(
  view: SiteView,
  pest: string,
  areas: ReadonlySet<string>,
  { first, last }: Days,
): boolean {
  const counts = ({ day, area, isThere }: Appearance) =>
    isThere && first <= day && day <= last && area !== undefined && areas.has(area)
  for (const [shown, times] of appearancesOf(view))
    if (isSamePest(shown, pest) && times.some(counts)) return true
  return false
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

const visited = new WeakMap<SiteView, ReadonlyMap<string, ReadonlySet<string>>>()

/** The first day after a day on which a visit was in one of the areas: inspected, saw, read, set or did something there. */
export function firstLookAt(view: SiteView, areas: ReadonlySet<string>, after: Day): Day | undefined {
  const byVisit = visited.get(view) ?? areasVisited(view)
  visited.set(view, byVisit)
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
