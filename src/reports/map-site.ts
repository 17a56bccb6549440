import type { AreaKind } from '../records/area-kinds.js'
import type { DeviceKind } from '../records/device-kinds.js'
import type { ConditionThere } from './hotspots-conditions.js'

/** Across and down, in the unit of the site's positions. */
export interface Spot {
  readonly x: number
  readonly y: number
}

/**
 * The property diagram of one site as data: what `doorsweep map` draws, and tells in tables. Devices, areas and conditions
 * are those of the as-of day; catches are those of the period. Numbers (`no`) are the ones that stand on the picture.
 */
export interface SiteMap {
  readonly site: string
  readonly siteName: string
  /** ISO dates. */
  readonly asOf: string
  readonly period: { readonly from: string; readonly to: string }
  /** Whose catch is shown; none where no pest was asked for. */
  readonly pest: { readonly id: string; readonly name: string } | undefined
  /** Unit of positions; undefined where the site names no diagram. */
  readonly unit: 'ft' | 'm' | undefined
  readonly drawing: MapDrawing
  /** In walking order. */
  readonly areas: readonly MapArea[]
  /** By area in walking order, then by id; places where a device stood in the period and no longer does come after. */
  readonly devices: readonly MapDevice[]
  readonly conditions: readonly MapCondition[]
  readonly places: readonly MapPlace[]
  readonly gaps: readonly MapGap[]
  readonly needs: readonly MapNeed[]
  /** Names of the areas that were not asked for. */
  readonly leftOut: readonly string[]
}

/** The school's own drawing, to lie under the shapes; or why it does not. */
export type MapDrawing =
  | { readonly is: 'none' }
  | { readonly is: 'left out'; readonly file: string; readonly why: string }
  | {
      readonly is: 'drawn'
      readonly file: string
      readonly type: 'image/png' | 'image/jpeg'
      /** In pixels. */
      readonly width: number
      readonly height: number
      readonly base64: string
      /** Where its corners lie, in the unit of positions. */
      readonly from: Spot
      readonly to: Spot
      /** Whether it is pulled out of shape to reach both corners. */
      readonly stretched: boolean
    }

/** Whether an outline can be drawn to scale, and if not, why. */
export type OutlineState = 'drawn' | 'crosses itself' | 'none' | 'no size' | 'too far' | 'too many corners'

export interface MapArea {
  /** Its number in walking order, from 1. */
  readonly no: number
  readonly id: string
  readonly name: string
  readonly kind: AreaKind
  /** `1`, `0`, …, or `outdoors`. */
  readonly floor: string
  readonly outlineState: OutlineState
  /** Corners in order; empty where it cannot be drawn. */
  readonly outline: readonly Spot[]
  readonly records: readonly string[]
}

/** What is known of the catch at a device. A zero was measured; `not measured` was not. */
export type MapCatch =
  | { readonly is: 'not asked' }
  | { readonly is: 'not for it'; readonly caught: number }
  | { readonly is: 'counts nothing' }
  | { readonly is: 'not measured'; readonly why: string }
  | {
      readonly is: 'measured'
      readonly count: number
      readonly trapNights: number
      /** Per trap-week, with its 95 % interval. */
      readonly rate: number
      readonly low: number
      readonly high: number
    }

/** Where the position of a device lies. */
export type DevicePlace =
  | 'in its area'
  | 'in another area'
  | 'outside every outline'
  | 'its area has no outline'
  | 'no position'
  | 'too far'

export interface MapDevice {
  readonly no: number
  readonly id: string
  /** What is printed on it, where that is not its id. */
  readonly markedAs: string | undefined
  readonly kind: DeviceKind
  readonly kindName: string
  readonly area: string
  readonly areaName: string
  readonly floor: string
  readonly spot: Spot | null
  /** Whether it can be drawn to scale, at its position. */
  readonly place: DevicePlace
  /** The other area its position lies in. */
  readonly liesIn: string | undefined
  /** Whether it stands there on the as-of day, or only did in the period. */
  readonly stands: boolean
  readonly traps: number
  /** Whether it can catch: not found lost, spoilt, full or sprung, and not renewed since. */
  readonly fit: boolean
  readonly catch: MapCatch
  /** Whether it surely caught far more than the others of its kind on its floor. */
  readonly outlying: boolean
  /** ISO date of the last look at it, whatever it showed. */
  readonly lastRead: string | undefined
  readonly records: readonly string[]
}

/** A condition that is open on the as-of day. */
export interface MapCondition {
  readonly no: number
  /** Undefined where no area is told, or it is none of those drawn. */
  readonly area: string | undefined
  readonly areaName: string
  readonly id: string
  readonly what: string
  readonly gives: ConditionThere['gives']
  readonly owner: ConditionThere['owner']
  readonly since: string
  /** ISO date; undefined where no day is stated. */
  readonly due: string | undefined
  readonly records: readonly string[]
}

/** Devices side by side that surely caught more than the others of their kind: a circle. */
export interface MapPlace {
  readonly no: number
  readonly floor: string
  readonly pest: string
  readonly kindName: string
  readonly centre: Spot
  readonly radius: number
  readonly members: readonly string[]
  readonly count: number
  readonly expected: number
  readonly adjustedP: number
  readonly records: readonly string[]
}

/** Two neighbours of a run that stand further apart than asked. */
export interface MapGap {
  readonly no: number
  readonly run: string
  readonly against: string
  readonly from: string
  readonly to: string
  readonly apart: number
  readonly unit: string
  readonly limit: string
  readonly more: number
  readonly active: boolean
  readonly records: readonly string[]
}

/** Areas that lack monitors, or that no one looked at. */
export interface MapNeed {
  readonly no: number
  readonly lacks: 'monitors' | 'a look'
  readonly says: string
  /** Empty where the area itself is not told. */
  readonly areas: readonly string[]
  readonly pest: string | undefined
  /** Devices to set or renew, at the least; null where that cannot be told. */
  readonly toAdd: number | null
  readonly why: string
  readonly records: readonly string[]
}
