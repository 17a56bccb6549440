import type { ChangeInterval } from './before-after.js'

export type ChangeWord = 'fell' | 'rose' | 'about the same' | 'cannot tell'

/** Why the word is what it is; what kept a change from being worked out is passed on as its own reason. */
export type ChangeReason<Why extends string> =
  | 'interval-below-no-change'
  | 'interval-above-no-change'
  | 'interval-tight-around-no-change'
  | 'interval-includes-no-change'
  | 'not-significant-among-all'
  | Why

export interface ChangeSettings {
  /** Largest adjusted p that counts as a change. */
  significance: number
  /** "About the same" means a factor surely between 1/sameWithin and sameWithin. Above 1. */
  sameWithin: number
}

export const changeSettings: Readonly<ChangeSettings> = { significance: 0.05, sameWithin: 1.25 }

/**
 * What may be said of a change, and why.
 *
 * Fell or rose when the 95 % interval of the factor lies wholly below or above 1 and p, adjusted over all that
 * is tested together (Benjamini & Hochberg 1995; the plain p when it stands alone), is at most 0.05. About the
 * same when the interval lies wholly within 1/1.25 to 1.25: sameness is shown, not presumed (Schuirmann DJ 1987,
 * J. Pharmacokin. Biopharm. 15:657–680). Cannot tell otherwise: a large p alone never means that nothing
 * changed.
 */
export function changeVerdict<Why extends string>(
  change: { estimable: false; reason: Why } | ({ estimable: true } & ChangeInterval),
  adjustedP?: number | null,
  settings: Readonly<ChangeSettings> = changeSettings,
): { word: ChangeWord; reason: ChangeReason<Why> } {
  if (!change.estimable) return { word: 'cannot tell', reason: change.reason }
  const { lower, upper } = change
  const p = adjustedP === undefined ? change.p : adjustedP
  const significant = p !== null && p <= settings.significance
  const below = upper !== null && upper < 1
  const above = lower > 1
  if (below && significant) return { word: 'fell', reason: 'interval-below-no-change' }
  if (above && significant) return { word: 'rose', reason: 'interval-above-no-change' }
  if (lower >= 1 / settings.sameWithin && upper !== null && upper <= settings.sameWithin) {
    return { word: 'about the same', reason: 'interval-tight-around-no-change' }
  }
  return {
    word: 'cannot tell',
    reason: below || above ? 'not-significant-among-all' : 'interval-includes-no-change',
  }
}
