import type { CatchObservation } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import { compareText } from '../ledger/compare-text.js'
import type { Look } from '../ledger/evidence.js'
import { looksOf } from '../ledger/evidence.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import type { ThingDone } from '../ledger/things-done.js'
import { couldTouch, thingsDone } from '../ledger/things-done.js'
import type { PartCatch } from '../measure/usual-catch.js'
import type { Day } from '../types.js'
import { areaName } from './area-name.js'
import { testOf } from './threshold-test.js'

/** The days a report of onsets looks at: those that are judged, and those before that say what is usual. */
export interface OnsetDays {
  readonly baselineFrom: Day
  readonly from: Day
  readonly to: Day
}

/** All devices of a site that were read on one day for one pest, each kind in each area a part of its own. */
export interface SiteReading {
  readonly day: Day
  readonly parts: readonly PartCatch[]
  readonly files: readonly string[]
}

/** What the ledger says of one pest at one site, thin enough to be kept for every site. */
export interface SitePest {
  readonly site: string
  readonly siteName: string
  readonly pest: string
  readonly readings: readonly SiteReading[]
  /** Name of each part's area, as people call it. */
  readonly areaOf: ReadonlyMap<string, string>
  /** Treatments and actions against this pest from the first judged day on. */
  readonly done: readonly DoneThing[]
  readonly threshold: ThresholdFacts
}

export interface DoneThing {
  readonly day: Day
  readonly kind: ThingDone['kind']
  readonly says: string
  readonly files: readonly string[]
}

/** What the plan's thresholds say of the looks that showed the pest, from the first judged day on. */
export interface ThresholdFacts {
  readonly crossings: readonly Crossed[]
  /** A look was at or above a threshold, or below it. */
  readonly wasJudged: boolean
  /** A look could not be held against the threshold, such as one by the extent of an area that is not recorded. */
  readonly cannotTell: boolean
}

export interface Crossed {
  /** The day it was crossed, and a day on which it was seen to stand. */
  readonly day: Day
  readonly seenOn: Day
  readonly area: string
  readonly files: readonly string[]
}

/** The facts of one site, by pest. */
export function onsetFactsOf(view: SiteView, days: OnsetDays): SitePest[] {
  const byPest = partsByPest(view, days)
  if (byPest.size === 0) return []
  const things = thingsDone(view).filter(({ day }) => day >= days.from)
  const thresholds = thresholdFactsOf(view, days)
  return [...byPest]
    .sort(([a], [b]) => compareText(a, b))
    .map(([pest, parts]) => ({
      site: view.id,
      siteName: view.site.data.name,
      pest,
      readings: readingsOf(parts),
      areaOf: new Map(parts.map(({ part, area }) => [part, areaName(view, area)])),
      done: things
        .filter((thing) => isAgainst(thing, pest))
        .map(({ day, kind, says, files }) => ({ day, kind, says, files })),
      threshold: thresholds.get(pest) ?? { crossings: [], wasJudged: false, cannotTell: false },
    }))
}

/** What names no pest may have been done for another reason. */
function isAgainst(thing: ThingDone, pest: string): boolean {
  return (
    (thing.kind === 'treatment' || thing.kind === 'action') &&
    thing.pests.length > 0 &&
    couldTouch(thing, pest)
  )
}

interface Part {
  readonly part: string
  readonly area: string
  readonly observations: readonly CatchObservation[]
}

/** Kinds of devices catch very differently, so each kind of an area is compared with itself. */
function partsByPest(view: SiteView, { baselineFrom, to }: OnsetDays): Map<string, Part[]> {
  const byPest = new Map<string, Part[]>()
  const kinds = [...new Set(view.devices.map(({ kind }) => kind))].sort(compareText)
  for (const kind of kinds) {
    const ofKind = { ...view, devices: view.devices.filter((device) => device.kind === kind) }
    for (const { area, pest, observations } of catchSeriesOf(ofKind, baselineFrom, to))
      getOrMake(byPest, pest, () => []).push({ part: `${area} ${kind}`, area, observations })
  }
  return byPest
}

function readingsOf(parts: readonly Part[]): SiteReading[] {
  const byDay = new Map<Day, { parts: PartCatch[]; files: Set<string> }>()
  for (const { part, observations } of parts)
    for (const { day, count, trapNights, files } of observations) {
      const reading = getOrMake(byDay, day, () => ({ parts: [], files: new Set<string>() }))
      reading.parts.push({ part, count, effort: trapNights })
      for (const file of files) reading.files.add(file)
    }
  return [...byDay]
    .sort(([a], [b]) => a - b)
    .map(([day, { parts: read, files }]) => ({ day, parts: read, files: [...files].sort(compareText) }))
}

interface Gathering {
  readonly crossings: Crossed[]
  wasJudged: boolean
  cannotTell: boolean
}

/** By pest; crossings in the order in which they were seen to stand. */
function thresholdFactsOf(view: SiteView, { from, to }: OnsetDays): Map<string, ThresholdFacts> {
  const found = new Map<string, Gathering>()
  const pests = [...view.district.plans.keys()]
  for (const [key, history] of looksOf(view, () => pests)) {
    const [areaId = '', pest = ''] = key.split(' ')
    const spans = view.district.plans.get(pest)?.data.spans
    const area = view.areas.get(areaId)
    if (!spans || !area) continue
    for (const [at, look] of history.entries()) {
      if (look.day < from || look.day > to || !showsSome(look)) continue
      const span = inForce(spans, look.day)
      if (!span) continue
      const test = testOf(span, area)
      const facts = getOrMake(found, pest, () => ({ crossings: [], wasJudged: false, cannotTell: false }))
      facts.wasJudged ||= test.judges(look)
      facts.cannotTell ||= test.cannotTell !== undefined
      const day = test.crossingRun(history.slice(0, at + 1))?.crossedAt.day
      if (day !== undefined)
        facts.crossings.push({ day, seenOn: look.day, area: areaName(view, areaId), files: look.files })
    }
  }
  for (const { crossings } of found.values())
    crossings.sort((a, b) => a.seenOn - b.seenOn || a.day - b.day || compareText(a.area, b.area))
  return found
}

function showsSome({ animals, signs }: Look): boolean {
  return animals > 0 || signs.length > 0
}
