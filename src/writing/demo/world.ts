import type { Random } from '../../measure/seeded-random.js'
import type { AreaKind } from '../../records/area-kinds.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import type { Day } from '../../types.js'
import type { Diary } from './diary.js'
import type { NotifiedApplication } from './notified.js'
import type { Series } from './rates.js'
import type { SchoolCalendar } from './school-calendar.js'
import type { Person, Staff } from './staff.js'
import type { Trial } from './trial.js'
import type { Trouble } from './trouble.js'
import type { DemoTruth, SiteTruth } from './truth.js'

export interface DemoOptions {
  readonly sites: number
  readonly years: number
  readonly seed: number
  /** Last day of the ledger. */
  readonly until: Day
  /** Without any gap. Otherwise things go wrong at the rates in trouble.ts. */
  readonly clean: boolean
  /** Truth that is planted, to try the statistics on, in place of what lives there otherwise. */
  readonly trial?: Trial
}

export interface DemoFile {
  readonly path: string
  readonly text: string
}

/** One commit of the invented history. Minutes are counted from midnight, local time. */
export interface DemoCommit {
  readonly day: Day
  readonly minute: number
  readonly author: { readonly name: string; readonly email: string }
  readonly message: string
  readonly files: readonly DemoFile[]
}

/** What everything in the simulation shares. */
export interface World {
  readonly options: DemoOptions
  readonly from: Day
  readonly until: Day
  readonly calendar: SchoolCalendar
  readonly staff: Staff
  readonly diary: Diary
  readonly trouble: Trouble
  readonly truth: DemoTruth
  readonly random: Random
  /** Puts a commit into its day; what would come after the last day comes on it. */
  readonly commit: (
    author: Person,
    day: Day,
    minute: number,
    message: string,
    files: readonly DemoFile[],
  ) => void
}

export type Corner = readonly [across: number, down: number]

export interface Area {
  readonly id: string
  readonly index: number
  readonly name: string
  readonly kind: AreaKind
  readonly children: boolean
  /** Left, top, right and bottom on the property diagram, in feet. */
  readonly box: readonly [left: number, top: number, right: number, bottom: number]
}

/** What a device catches: the series it draws from and how well. */
export interface Draw {
  readonly pest: number
  /** Nearness to a planted source included. */
  efficiency: number
  /** Sum of the area's daily rates when it was last read or put out. */
  drawnUpTo: number
}

export interface Device {
  readonly id: string
  readonly kind: DeviceKind
  area: Area
  at: Corner
  readonly for: readonly string[] | undefined
  readonly traps: number
  readonly draws: Draw[]
  /** What is on it, by pest: animals, and of these the nymphs. */
  readonly onIt: Map<number, { all: number; nymphs: number }>
  other: { name: string; count: number } | undefined
  lastRead: Day
  readonly set: Day
  /** Checks since it was new. */
  checks: number
  pickedUp: boolean
  /** Left lost or damaged by a visit that did not renew it. */
  broken: boolean
  lamp: Day | undefined
  /** Watches a complaint; taken up after some checks with nothing. */
  readonly watches: boolean
  quietChecks: number
}

export interface Condition {
  readonly name: string
  readonly template: number
  readonly area: Area
  readonly arose: Day
  state: 'unseen' | 'open' | 'mended' | 'done'
  due: Day | undefined
  /** Put right without a repair record; the next routine visit finds it so. */
  quietly: boolean
  repairOn: Day | undefined
  mended: Day | undefined
  foundOn: Day | undefined
}

export interface Complaint {
  readonly id: string
  readonly day: Day
  readonly area: Area
  readonly pest: number
  /** Day on which a technician sets out, and the last day that is in time. */
  readonly visitOn: Day
}

export type Task =
  | {
      readonly kind: 'gel' | 'ant-bait' | 'check'
      due: Day
      readonly area: Area
      readonly pest: number
      readonly attempt: number
    }
  | { readonly kind: 'start-round'; due: Day; readonly area: Area; readonly pest: number }
  | { readonly kind: 'plant-back'; due: Day; readonly area: Area; readonly plant: string }

/** A round of snap traps along one wall, checked every day. */
export interface Round {
  readonly run: string
  readonly area: Area
  readonly pest: number
  readonly devices: readonly Device[]
  readonly from: Day
  readonly action: string
  quietNights: number
  nights: number
  out: boolean
}

/** A run of site.yaml, rewritten as rounds begin and end. */
export interface Run {
  readonly along: string
  readonly devices: readonly string[]
  readonly active: { from: Day; until?: Day }[]
}

export interface Site {
  readonly id: string
  readonly name: string
  readonly number: number
  readonly random: Random
  readonly nature: Random
  readonly trial: Trial | undefined
  readonly technician: Person
  readonly custodian: Person
  readonly managers: { readonly from: Day; until?: Day; readonly who: Person }[]
  readonly address: string
  readonly areas: readonly Area[]
  readonly inRecess: boolean
  readonly contractFrom: Day
  readonly diagram: { readonly text: string; readonly sha256: string }
  readonly series: readonly SeriesNow[]
  /** Sum of daily rates since the start, by area and pest. */
  readonly sums: Float64Array
  readonly devices: Map<string, Device>
  readonly runs: Map<string, Run>
  readonly conditions: Condition[]
  /** Faults whose repair changed nothing: what they add to the rates of their area fades on a later day. */
  readonly fading: { readonly day: Day; readonly area: Area; readonly why: string }[]
  readonly complaints: Complaint[]
  readonly pastComplaints: { readonly day: Day; readonly area: string }[]
  readonly tasks: Task[]
  readonly names: Map<string, number>
  round: Round | undefined
  notified: NotifiedApplication | undefined
  /** Visits running with a catch, by area and pest. */
  readonly strikes: Map<string, number>
  readonly truth: SiteTruth
  setUp: Day | undefined
  /** Minute after midnight at which the set-up visit begins. */
  setUpFrom: number
  nextRoutine:
    | { readonly day: Day; readonly who: Person; readonly from: number; readonly minutes: number }
    | undefined
  /** Technicians who wrote a visit today: one file for each person and day. */
  /** Year and month of the last look through the store. */
  lastStorage: string | undefined
  lastVisit: { day: Day; who: string } | undefined
}

/** A series with what the daily walk needs at hand. */
export interface SeriesNow {
  readonly series: Series
  baseNow: number
  /** Rate of today. */
  rate: number
  onsetPerDay: number
  diesOn: Day
  /** Day on which a treatment that works only for a while stops working. */
  regrowsOn: Day
}

/** A name within a site that was never given before: sink-drip, then sink-drip-2. */
export function unusedName(site: Site, base: string): string {
  const used = (site.names.get(base) ?? 0) + 1
  site.names.set(base, used)
  return used === 1 ? base : `${base}-${used}`
}

export function managerOf(site: Site, day: Day): Person {
  let manager = site.managers[0]?.who ?? site.custodian
  for (const span of site.managers) if (span.from <= day) manager = span.who
  return manager
}
