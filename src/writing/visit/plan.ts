import type { Source } from '../../files/source.js'
import { compareText } from '../../ledger/compare-text.js'
import { animalsIn, countIn, pestsIn } from '../../ledger/counts.js'
import type { DeviceHistory } from '../../ledger/device-history.js'
import type { ReadOptions } from '../../ledger/read-ledger.js'
import type { SiteView } from '../../ledger/site-view.js'
import { inForce } from '../../ledger/spans.js'
import { isOut } from '../../ledger/standing.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import type { Clipboard, ClipboardArea } from '../../reports/clipboard.js'
import { clipboardOf } from '../../reports/clipboard.js'
import { notExaminedOf } from '../../reports/not-examined.js'
import { readOnlySite } from '../../reports/only-site.js'
import { checksDue } from '../../rules/inspection/checks-due.js'
import { routineVisitGaps } from '../../rules/inspection/routine-visit-gaps.js'
import type { Day } from '../../types.js'
import { awayOf } from './plan-away.js'

/** What a visit is about to ask, as data: with it and the answers the same questions come again on any later day. */
export interface VisitPlan {
  readonly site: string
  readonly siteName: string
  /** ISO date of the visit. */
  readonly day: string
  /** Whether it is made today, so that the clock tells when it begins and ends. */
  readonly isToday: boolean
  readonly by?: string
  readonly enteredBy?: string
  readonly onPaper?: string
  readonly word?: string
  readonly people: readonly string[]
  /** Who made the last visit. */
  readonly lastVisitor?: string
  readonly siteManager?: string
  readonly complaintLog: string
  readonly isRoutineDue: boolean
  readonly complaints: readonly PlannedComplaint[]
  /** In walking order. */
  readonly areas: readonly PlannedArea[]
  readonly products: readonly string[]
  /** What one has to mind on this visit, once. */
  readonly cautions: readonly string[]
  /** Names of conditions and sightings that the site ever had. */
  readonly namesInUse: readonly string[]
  /** What follows the day in the names of the visits already recorded on it. */
  readonly recordedOnDay: readonly string[]
  /** Names that a device of the site ever had; a visit kept by an earlier program does not say, nor the next three. */
  readonly deviceNames?: readonly string[]
  /** Devices picked up while pupils are here, to be put out again. */
  readonly away?: readonly DeviceAway[]
  readonly plantsAway?: readonly PlantAwayNow[]
  /** Whether to ask who types it: the day of the visit is past, and the command did not say. */
  readonly asksWhoTypes?: boolean
}

export interface DeviceAway {
  readonly id: string
  readonly markedAs?: string
  readonly area: string
  /** ISO date on which it was picked up. */
  readonly since: string
}

/** A plant that was taken away and not put back. */
export interface PlantAwayNow {
  readonly name: string
  readonly area?: string
  readonly since: string
  readonly why?: string
  /** It was treated, and nobody saw it dry since. */
  readonly isWet: boolean
}

export interface PlannedComplaint {
  readonly id: string
  readonly area?: string
  readonly says: string
}

export interface PlannedArea {
  readonly id: string
  readonly name: string
  /** False for a place that is no area of the site on this day, where something still stands or waits. */
  readonly isArea: boolean
  readonly keys?: string
  readonly letInBy?: string
  /** Where to look in an area of its kind. */
  readonly lookAt: readonly string[]
  readonly devices: readonly PlannedDevice[]
  readonly conditions: readonly PlannedCondition[]
}

export interface PlannedDevice {
  readonly id: string
  readonly kind: DeviceKind
  readonly markedAs?: string
  readonly for: readonly string[]
  /** The last look, in words. */
  readonly last: string
  /** What was left on it at the last look, as it was counted: it is still there unless someone took it off. */
  readonly on: Readonly<Record<string, number | Readonly<Record<string, number>>>>
  /** How it was found at the last look and not renewed: then nothing can be taken for granted of it. */
  readonly lost?: string
  /** Whether a look is asked for by the next monthly visit, or nothing says how often. */
  readonly isDue: boolean
}

export interface PlannedCondition {
  readonly name: string
  readonly says: string
  readonly since: string
  readonly owner?: string
  readonly due?: string
  readonly repairedOn?: string
}

/** What the caller knows of the visit before anything is asked. */
export type GivenOfVisit = Pick<
  VisitPlan,
  'isToday' | 'by' | 'enteredBy' | 'onPaper' | 'word' | 'asksWhoTypes'
>

/** The plan, or why there can be none: a site that cannot be read would be asked about in part. */
export function planOf(
  source: Source,
  site: string,
  options: ReadOptions,
  given: GivenOfVisit,
): { readonly plan: VisitPlan } | { readonly unread: readonly string[] } {
  const { read, view } = readOnlySite(source, site, options)
  return view ? { plan: planFrom(view, given) } : { unread: notExaminedOf(read) }
}

export function planFrom(view: SiteView, given: GivenOfVisit): VisitPlan {
  const clipboard = clipboardOf(view)
  const siteManager = inForce(view.site.data['site-manager'], view.asOf)?.who
  const lastVisitor = view.visits.at(-1)?.data.by
  return {
    ...given,
    site: view.id,
    siteName: clipboard.name,
    day: clipboard.asOf,
    people: [...view.district.people.keys()].sort(compareText),
    ...(lastVisitor === undefined ? {} : { lastVisitor }),
    ...(siteManager === undefined ? {} : { siteManager }),
    complaintLog: clipboard.complaintLog,
    isRoutineDue: routineVisitGaps(view).some(
      ({ from, until, terms }) =>
        until === undefined && from - 1 - terms.graceDays <= view.asOf + untilNextVisit,
    ),
    complaints: clipboard.complaints.map(({ id, area, says, of }) => ({
      id,
      ...(area === undefined ? {} : { area }),
      says: of === undefined ? says : `${of}: ${says}`,
    })),
    areas: areasOf(view, clipboard),
    cautions: clipboard.cautions.map(({ about, says }) => `${about}: ${says}`),
    products: [...view.district.products.keys()].sort(compareText),
    namesInUse: [
      ...new Set([...view.conditions.map(({ name }) => name), ...view.sightings.map(({ name }) => name)]),
    ].sort(compareText),
    recordedOnDay: view.visits.filter(({ day }) => day === view.asOf).map(({ who }) => who),
    deviceNames: [...new Set(view.devices.map(({ id }) => id))].sort(compareText),
    ...awayOf(view),
  }
}

/** Days in which a look has to fall due to be asked for now: until a monthly visit would come again. */
const untilNextVisit = 31

function areasOf(view: SiteView, clipboard: Clipboard): PlannedArea[] {
  const notDue = devicesNotDue(view)
  const histories = new Map(
    view.devices.filter(({ takenUp }) => takenUp === undefined).map((device) => [device.id, device]),
  )
  return clipboard.areas.map((area) => ({
    id: area.id,
    name: area.name,
    isArea: area.kind !== undefined,
    ...(area.keys === undefined ? {} : { keys: area.keys }),
    ...(area.letInBy === undefined ? {} : { letInBy: area.letInBy }),
    lookAt: area.lookAt,
    devices: devicesOf(area, histories, notDue, view.asOf),
    conditions: area.conditions.map(({ name, says, since, owner, due, repairedOn }) => ({
      name,
      says,
      since,
      ...(owner === undefined ? {} : { owner }),
      ...(due === undefined ? {} : { due }),
      ...(repairedOn === undefined ? {} : { repairedOn }),
    })),
  }))
}

function devicesOf(
  area: ClipboardArea,
  histories: ReadonlyMap<string, DeviceHistory>,
  notDue: ReadonlySet<string>,
  day: Day,
): PlannedDevice[] {
  return area.devices.flatMap(({ devices }) =>
    devices.flatMap(({ id, markedAs, last }) => {
      const device = histories.get(id)
      if (!device || !isOut(device, day)) return []
      return [
        {
          id,
          kind: device.kind,
          ...(markedAs === undefined ? {} : { markedAs }),
          for: device.for,
          last,
          ...leftOn(device),
          isDue: !notDue.has(id),
        },
      ]
    }),
  )
}

function leftOn({ checks }: DeviceHistory): Pick<PlannedDevice, 'on' | 'lost'> {
  const last = checks.findLast(({ noAccess }) => !noAccess)
  if (!last || last.renewed || !last.reading) return { on: {} }
  if (last.reading.unusable !== undefined) return { on: {}, lost: last.reading.unusable }
  const { reading } = last
  return {
    on: Object.fromEntries(
      pestsIn(reading).flatMap((pest) => {
        const count = countIn(reading, pest)
        return count === undefined || animalsIn(count) === 0
          ? []
          : [[pest, count as number | Record<string, number>]]
      }),
    ),
  }
}

/** Devices whose next look is asked for only after the next monthly visit. */
function devicesNotDue(view: SiteView): ReadonlySet<string> {
  const notDue = new Set<string>()
  for (const { device, gap, terms, lastDay } of checksDue(view)) {
    if (gap.end !== undefined) continue
    if (lastDay - (terms.service?.graceDays ?? 0) > view.asOf + untilNextVisit) notDue.add(device.id)
    else notDue.delete(device.id)
  }
  return notDue
}
