import type { AreaKind } from '../../records/area-kinds.js'
import type { Day } from '../../types.js'
import { dateOf, dayOf } from './days.js'
import { figures } from './figures.js'
import type { PestModel } from './pest-model.js'
import { pestModel, pestModels } from './pests.js'
import type { Course } from './trial.js'
import { courseFactor } from './trial.js'

/** A stretch of an infestation that follows one law. `level` is the multiple of the base rate on its first day. */
export type Segment =
  | { readonly from: Day; readonly level: number; readonly grows: number; readonly capacity: number }
  | { readonly from: Day; readonly level: number; readonly falls: number }

export interface Infestation {
  readonly pest: string
  readonly area: string
  readonly from: Day
  /** First day on which it is gone. */
  until?: Day
  readonly segments: Segment[]
}

/** A lasting change of the log-rate: a fault in the building came (above zero) or was mended (below zero). */
export interface Shift {
  readonly from: Day
  readonly log: number
  readonly why: string
}

/** The latent rate of one pest in one area: everything needed to compute it on any day. */
export interface Series {
  readonly area: string
  readonly areaIndex: number
  readonly pest: string
  readonly pestIndex: number
  readonly kind: AreaKind
  /** Log of the base rate with the deviations of this site and this area. */
  readonly logBase: number
  readonly infestations: Infestation[]
  readonly shifts: Shift[]
  /** Only where the truth of the ledger is planted. */
  readonly course?: Course
}

const seasonTables = pestModels.map((model) =>
  Float64Array.from({ length: 367 }, (_, day) =>
    Math.exp(model.season.swing * Math.cos((2 * Math.PI * (day - model.season.peak)) / 365.25)),
  ),
)

/** Day of the year, 1 to 366. */
export function dayOfYear(day: Day): number {
  return day - dayOf(dateOf(day).year, 1, 1) + 1
}

export function seasonFactor(pest: number, yearDay: number): number {
  return seasonTables[pest]?.[yearDay] ?? 1
}

/** What season, and what was planted, make of the rate of a day. */
export function dayFactor(series: Series, day: Day, yearDay?: number): number {
  const { course, pestIndex } = series
  const season = () => seasonFactor(pestIndex, yearDay ?? dayOfYear(day))
  if (!course) return season()
  return courseFactor(course, day) * (course.seasons ? season() : 1)
}

/** Level of an infestation on a day within its span. */
export function levelOf(infestation: Infestation, day: Day): number {
  if (day < infestation.from || (infestation.until !== undefined && day >= infestation.until)) return 0
  let segment = infestation.segments[0]
  for (const later of infestation.segments) if (later.from <= day) segment = later
  if (!segment) return 0
  const age = day - segment.from
  if ('falls' in segment) return segment.level * Math.exp(-segment.falls * age)
  return segment.capacity / (1 + (segment.capacity / segment.level - 1) * Math.exp(-segment.grows * age))
}

export function runningInfestation(series: Series): Infestation | undefined {
  const last = series.infestations.at(-1)
  return last && last.until === undefined ? last : undefined
}

/**
 * Expected animals per trap-night on a device of efficiency 1:
 * exp(base + shifts + season(day)) × (1 + level of the infestation of that day), or what a trial planted instead.
 */
export function rateOf(series: Series, day: Day): number {
  let log = series.logBase
  for (const shift of series.shifts) if (shift.from <= day) log += shift.log
  let level = 0
  for (const infestation of series.infestations) level += levelOf(infestation, day)
  return Math.exp(log) * dayFactor(series, day) * (1 + level)
}

/** Begins an infestation a little above the base rate, growing logistically. */
export function begin(series: Series, day: Day, model: PestModel): Infestation {
  const infestation: Infestation = {
    pest: series.pest,
    area: series.area,
    from: day,
    segments: [{ from: day, level: figures.beginsAt, grows: model.growth, capacity: model.capacity }],
  }
  series.infestations.push(infestation)
  return infestation
}

export function turnToFall(infestation: Infestation, day: Day, falls: number): void {
  infestation.segments.push({ from: day, level: levelOf(infestation, day), falls })
}

export function turnToGrowth(infestation: Infestation, day: Day): void {
  const model = pestModel(pestModels.findIndex((candidate) => candidate.id === infestation.pest))
  const level = Math.min(levelOf(infestation, day), model.capacity * 0.95)
  infestation.segments.push({ from: day, level, grows: model.growth, capacity: model.capacity })
}
