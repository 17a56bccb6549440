import type { CatchSeries } from '../ledger/catch-series.js'
import { catchSeriesOf } from '../ledger/catch-series.js'
import type { DeviceHistory } from '../ledger/device-history.js'
import { areasVisited } from '../ledger/inspections.js'
import type { Area, SiteView } from '../ledger/site-view.js'
import type { AreaKind } from '../records/area-kinds.js'
import type { Day } from '../types.js'
import type { AreaCatch, ChecksByArea } from './coverage-catch.js'
import { areaCatchOf, checksByArea } from './coverage-catch.js'
import type { CheckInterval } from './coverage-devices.js'
import { checkIntervalOf, counts, isFit, isMeantFor, standsIn, stoodIn } from './coverage-devices.js'
import type { SeenPest, SeenPests } from './coverage-seen.js'
import { seenPestsOf } from './coverage-seen.js'
import type { Period } from './period.js'
import { actsOnOne, governs, namesKind, plansInForce } from './plans-in-force.js'
import type { PlanSpan } from './threshold-test.js'

/** What a plan asks of one area: the number that calls for action, if it counts the catch of a trap. */
export interface PlanHere {
  readonly file: string
  readonly onOne: boolean
  /** It names this kind of area, not merely everywhere. */
  readonly namesKind: boolean
  /** The rate at which it says act, in animals per trap-night, and as the plan has it. */
  readonly perTrap?: { readonly rate: number; readonly words: string; readonly fewestNights: number }
}

/** How one area is watched for one pest that a plan governs there, or that was seen or complained of there. */
export interface Watch {
  readonly site: string
  /** Empty for a complaint that names no area: then the whole site is meant. */
  readonly area: string
  readonly kind: AreaKind | undefined
  readonly pest: string
  readonly plan: PlanHere | undefined
  /** Devices for the pest that stand out now, those of them that can catch, and how many traps among them count. */
  readonly devices: number
  readonly fit: number
  readonly traps: number
  /** How often they are read, where the plan counts the catch of traps; where none stand, how often those of the site are. */
  readonly interval: CheckInterval | null
  readonly catch: AreaCatch
  readonly seen: readonly SeenPest[]
  /** Whether a device for the pest stood there on the day of the last complaint or sighting, or since. */
  readonly stoodSince: boolean
}

export interface AreaWatch {
  readonly site: string
  readonly area: string
  readonly kind: AreaKind
  readonly devices: number
  /** Days of the period on which it could not be entered, if no one was in it on any. */
  readonly refused: readonly Day[]
  readonly visited: boolean
  /** The last day on which anyone was in it, also before the period. */
  readonly lastVisited: Day | undefined
  /** Routine visits of the period that could have. */
  readonly routineVisits: readonly string[]
  readonly siteFile: string
}

export interface SiteWatch {
  readonly watches: readonly Watch[]
  readonly areas: readonly AreaWatch[]
  readonly series: readonly CatchSeries[]
  readonly seen: SeenPests
  readonly pestsOfDevices: readonly string[]
  /** Areas, or the whole site, that closed before the as-of day. */
  readonly closed: number
}

/** What is looked up again and again while one site is walked through. */
interface Walk {
  readonly view: SiteView
  readonly period: Period
  readonly plans: ReadonlyMap<string, PlanSpan>
  readonly checks: ChecksByArea
}

/** How the areas of a site are watched on the as-of day, with what was caught and seen in the period. */
export function siteWatchOf(view: SiteView, period: Period): SiteWatch {
  const walk = {
    view,
    period,
    plans: plansInForce(view.district, view.asOf),
    checks: checksByArea(view, period),
  }
  const inPeriod = [...view.areas.values()].filter(
    (area) => area.from <= period.to && (area.until === undefined || area.until >= period.from),
  )
  const closedSite = view.ends !== undefined && view.ends < view.asOf
  const open = closedSite ? [] : inPeriod.filter(({ until }) => until === undefined || until >= view.asOf)
  const seen = seenPestsOf(view, period)
  const nowhere = closedSite ? [] : seen.seen.filter(({ area }) => area === undefined)
  return {
    watches: [...open, undefined].flatMap((area) =>
      watchesOf(walk, area, area === undefined ? nowhere : seen.seen.filter((one) => one.area === area.id)),
    ),
    areas: open.map((area) => areaWatchOf(view, area, period)),
    series: catchSeriesOf(view, period.from, period.to),
    seen,
    pestsOfDevices: [...new Set(view.devices.flatMap((device) => device.for))],
    closed: inPeriod.length - open.length,
  }
}

/** Of the pests that a plan governs in the area, and of those seen there. Without an area: those seen somewhere in the site. */
function watchesOf(walk: Walk, area: Area | undefined, seenHere: readonly SeenPest[]): Watch[] {
  const governed = [...walk.plans].filter(([, span]) => governs(span, area)).map(([pest]) => pest)
  return [...new Set([...governed, ...seenHere.map(({ pest }) => pest)])].map((pest) =>
    watchOf(
      walk,
      area,
      pest,
      seenHere.filter((one) => one.pest === pest),
    ),
  )
}

function planHereOf(view: SiteView, pest: string, span: PlanSpan, area: Area): PlanHere {
  const threshold = span.thresholds?.[area.facts.kind] ?? span.thresholds?.elsewhere
  const days = threshold?.per === 'trap-night' ? 1 : threshold?.per === 'trap-week' ? 7 : undefined
  return {
    file: view.district.plans.get(pest)?.file ?? `plans/${pest}.yaml`,
    onOne: actsOnOne(span, area),
    namesKind: namesKind(span, area),
    ...(threshold && days !== undefined
      ? {
          perTrap: {
            rate: threshold['act-at'] / days,
            words: `${threshold['act-at']} per ${threshold.per}`,
            fewestNights: days,
          },
        }
      : {}),
  }
}

function watchOf(
  { view, period, plans, checks }: Walk,
  area: Area | undefined,
  pest: string,
  seen: readonly SeenPest[],
): Watch {
  const span = plans.get(pest)
  const plan = span && area && governs(span, area) ? planHereOf(view, pest, span, area) : undefined
  const able = view.devices.filter((device) => isMeantFor(device, pest))
  const standing = able.filter((device) => standsIn(device, area?.id, view.asOf))
  const fit = standing.filter(isFit)
  const lastSeen = seen.reduce((last, { day }) => Math.max(last, day), period.from)
  return {
    site: view.id,
    area: area?.id ?? '',
    kind: area?.facts.kind,
    pest,
    plan,
    devices: standing.length,
    fit: fit.length,
    traps: fit.filter(counts).reduce((sum, device) => sum + device.traps, 0),
    // Only a plan that counts the catch of traps asks how often they are read.
    interval: plan?.perTrap ? checkIntervalOf(view, readHere(view, standing, able), period) : null,
    catch: areaCatchOf(checks, area?.id, pest, seen.length === 0 ? undefined : lastSeen),
    seen,
    stoodSince: able.some((device) => stoodIn(device, area?.id, lastSeen, view.asOf)),
  }
}

/** The devices there; else those for the pest elsewhere in the site; else all that count. */
function readHere(
  view: SiteView,
  standing: readonly DeviceHistory[],
  able: readonly DeviceHistory[],
): readonly DeviceHistory[] {
  if (standing.length > 0) return standing
  return able.length > 0 ? able : view.devices.filter(counts)
}

function areaWatchOf(view: SiteView, area: Area, { from, to }: Period): AreaWatch {
  const visited = areasVisited(view)
  const wasIn = view.visits.filter((visit) => visited.get(visit.file)?.has(area.id))
  const within = view.visits.filter(({ day }) => day >= Math.max(from, area.from) && day <= to)
  return {
    site: view.id,
    area: area.id,
    kind: area.facts.kind,
    devices: view.devices.filter((device) => standsIn(device, area.id, view.asOf)).length,
    visited: wasIn.some(({ day }) => day >= from && day <= to),
    lastVisited: wasIn.at(-1)?.day,
    refused: within.filter((visit) => visit.data['no-entry']?.[area.id] !== undefined).map(({ day }) => day),
    routineVisits: within.filter(({ data }) => data.purpose === 'routine').map(({ file }) => file),
    siteFile: view.site.file,
  }
}
