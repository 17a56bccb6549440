import type { AreaKind } from '../../records/area-kinds.js'

/**
 * What the model of the invented district holds true of each pest. All figures are invented for a plausible ledger:
 * they are no reference for real animals.
 */
export interface PestModel {
  readonly id: string
  /** Size parameter of the negative binomial of every catch: the smaller, the more it clumps. */
  readonly k: number
  /** Animals per trap-night of a device of efficiency 1 where nothing has settled, by kind of area. */
  readonly base: Partial<Record<AreaKind, number>>
  /** Day of the year of the peak, and half the swing of the log-rate. */
  readonly season: { readonly peak: number; readonly swing: number }
  /** Infestations per site and year, over all its areas of those kinds. */
  readonly onsets: number
  /** Logistic growth a day, and how many times the base rate a full infestation reaches. */
  readonly growth: number
  readonly capacity: number
  /** Mean days after which it dies back by itself; left out where it never does. */
  readonly lasts?: number
  /** Chance of a sighting on an inspection is 1 − exp(−sighted × rate). */
  readonly sighted: number
  /** Complaints a school day per unit of rate. */
  readonly complained: number
  /** Share of nymphs, where counts are written by life stage. */
  readonly nymphs?: number
}
