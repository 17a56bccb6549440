import type { DeviceKind } from '../records/device-kinds.js'
import type { RecordOf } from '../records/kinds.js'
import type { Day, KeyPath } from '../types.js'
import type { LoadedEvent } from './loaded.js'

type VisitRecord = RecordOf<'visit'>
export type DeviceSet = NonNullable<VisitRecord['set']>[string]
export type DeviceMoved = NonNullable<VisitRecord['moved']>[string]
export type Reading = Exclude<NonNullable<VisitRecord['readings']>[string], string[] | undefined>

/** When and in which record something was said of a device. */
export interface Moment {
  readonly day: Day
  readonly visit: LoadedEvent<'visit'>
  readonly path: KeyPath
}

/** One life of a device: from being set to being taken up. An id may be used again after that. */
export interface DeviceHistory {
  readonly id: string
  readonly kind: DeviceKind
  /** How many traps stand here as one. */
  readonly traps: number
  readonly for: readonly string[]
  readonly setFacts: DeviceSet
  readonly set: Moment
  readonly stands: readonly Stand[]
  readonly checks: readonly Check[]
  readonly takenUp?: Moment
  /** Spans in which it stood out, [from, until); the last one has no end while it still stands. */
  readonly out: readonly { readonly from: Day; readonly until?: Day }[]
}

/** Where a device stood from a day on, and what was recorded of how it stood there. */
export interface Stand {
  readonly from: Moment
  readonly area: string
  readonly facts: DeviceSet | DeviceMoved
}

/** Why the time before a check tells nothing of the catch. */
export type Unusable =
  | 'missing'
  | 'damaged'
  | 'wet'
  | 'full'
  | 'out of service'
  | 'left sprung'
  | 'moved between areas'
  | 'after flushing'

/** One device looked at once, with the catch that follows from it. */
export interface Check {
  readonly moment: Moment
  readonly area: string
  /** Null where the record only lists the device under `none`. */
  readonly reading: Reading | null
  readonly renewed: boolean
  readonly noAccess: boolean
  /** Nights from the last check, renewal or setting, times the traps that stand here; 0 when unusable. */
  readonly trapNights: number
  readonly unusable?: Unusable
  /** What is on the device now, by pest: named in the reading, or zero because it is for that pest. */
  readonly counts: ReadonlyMap<string, number>
  /** New since the last reading or renewal, by pest; no entry where it cannot be known. */
  readonly caught: ReadonlyMap<string, number>
}

/** Something in the history of devices that cannot be, or that is told twice; rules make problems of it. */
export type DeviceAnomaly =
  | { readonly kind: 'read-before-set'; readonly device: string; readonly at: Moment; readonly set: Moment }
  | {
      readonly kind: 'read-after-taken-up'
      readonly device: string
      readonly at: Moment
      readonly takenUp: Moment
    }
  | { readonly kind: 'set-twice'; readonly device: string; readonly at: Moment; readonly set: Moment }
  | { readonly kind: 'read-twice'; readonly device: string; readonly at: Moment }
  | {
      readonly kind: 'count-fell'
      readonly device: string
      readonly at: Moment
      readonly pest: string
      readonly before: number
      readonly now: number
      readonly last: Moment
    }
  | {
      readonly kind: 'not-standing'
      readonly device: string
      readonly at: Moment
      readonly did: 'moved' | 'picked-up' | 'put-out' | 'taken-up'
    }
