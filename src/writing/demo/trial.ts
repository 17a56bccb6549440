import type { AreaKind } from '../../records/area-kinds.js'
import type { Day } from '../../types.js'
import type { Corner } from './world.js'

/**
 * A ledger whose truth is planted, to try the statistics on: no infestation begins, nothing changes a rate but what is
 * stated here, and each hardship can be switched on by itself. Nobody complains, and no mouse trap is set.
 */
export interface Trial {
  /** What is planted, by pest; the others keep their base rates, with the deviations of site and area. */
  readonly pests: Readonly<Record<string, Planted>>
  /** Catches clump with each pest's own k; otherwise they are Poisson. */
  readonly clumped: boolean
  /** Rates swing with each pest's season. */
  readonly seasons: boolean
  /** Boards are renewed as usual; otherwise only once they are lost or full, and moved as they are. */
  readonly renewed: boolean
  /** Chance a routine visit that a sticky trap is moved; one in two goes to another area. */
  readonly moved: number
  /** Chance a check that a device is lost, and what each animal on it adds in the exponent. */
  readonly lostAlways: number
  readonly lostPerAnimal: number
}

/** What is true of one pest. Logs are natural. */
export interface Planted {
  /** Animals per trap-night of a device of efficiency 1, alike in every room. */
  readonly rate: number
  /** Steady change of the log-rate every 30 days, from the first day on. */
  readonly perMonth?: number
  /** From so many days after the first on, the rate is so many times as high. */
  readonly step?: { readonly after: number; readonly times: number }
  /** What an open fault adds to the log-rate of its area; a repair that helps takes it away again. */
  readonly fault?: number
  /**
   * What the one treatment in an area (gel or ant bait) adds to the log-rate there, for good, from the day after; 0 for
   * one that does nothing. Where left out, the pest is never treated.
   */
  readonly treated?: number
  /** Devices within so many feet of a spot catch so many times as much. */
  readonly source?: Source
}

export interface Source {
  readonly at: Corner
  readonly within: number
  readonly times: number
}

/** What of a trial changes the rate of one series, beside the shifts that events bring. */
export interface Course {
  readonly since: Day
  readonly seasons: boolean
  readonly perMonth: number
  readonly step: { readonly after: number; readonly times: number } | undefined
}

export function courseOf(trial: Trial, pest: string, since: Day): Course {
  const planted = trial.pests[pest]
  return { since, seasons: trial.seasons, perMonth: planted?.perMonth ?? 0, step: planted?.step }
}

/** The factor a course puts on the rate of a day. */
export function courseFactor(course: Course, day: Day): number {
  if (course.perMonth === 0 && course.step === undefined) return 1
  const age = day - course.since
  const steady = Math.exp((course.perMonth * age) / 30)
  return course.step && age >= course.step.after ? steady * course.step.times : steady
}

/** How many times as much a device at a place catches because a source is near; 1 where none is. */
export function nearSource(source: Source | undefined, at: Corner): number {
  if (!source) return 1
  const far = Math.hypot(at[0] - source.at[0], at[1] - source.at[1])
  return far <= source.within ? source.times : 1
}

const outside: readonly AreaKind[] = ['outdoors', 'waste', 'playground']

export function isIndoors(kind: AreaKind): boolean {
  return !outside.includes(kind)
}

/** The rate of a planted pest in an area of a kind; undefined outdoors, where it has none. */
export function plantedBase(planted: Planted, kind: AreaKind): number | undefined {
  return isIndoors(kind) ? planted.rate : undefined
}
