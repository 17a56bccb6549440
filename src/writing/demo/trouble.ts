import type { Random } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import type { Spoilt } from './truth.js'

/**
 * What goes wrong in a ledger that is not clean, and how often. Each rate is the chance at the occasion named beside
 * it.
 */
export const troubleRates = {
  /** per routine visit */
  'visit missed': 0.03,
  'complaint log not read': 0.05,
  'site manager not named': 0.05,
  'visit without time': 0.02,
  'silent edit of a committed visit': 0.004,
  /** per area of a routine visit */
  'area not entered': 0.008,
  'area left out': 0.006,
  /** per device and reading */
  'device left out': 0.012,
  'device not reached': 0.006,
  'count lower than before': 0.003,
  /** per lost or damaged device */
  'lost device not renewed': 0.3,
  /** per device set */
  'placement not noted': 0.04,
  'within reach of children': 0.02,
  'not secured': 0.03,
  /** per reading in which bait was added */
  'bait without product': 0.03,
  /** per condition */
  'condition without owner': 0.08,
  'condition without date': 0.06,
  'condition never mended': 0.06,
  'condition mended late': 0.15,
  'condition not looked at again': 0.1,
  /** per complaint */
  'complaint answered late': 0.12,
  'complaint never answered': 0.04,
  /** per sighting of an insect */
  'identification left tentative': 0.06,
  /** per finding at or above the threshold */
  'no action at threshold': 0.08,
  /** per last school day before a break while traps are set */
  'traps left set over a break': 0.25,
  /** per day of a trapping round */
  'daily check missed': 0.06,
  /** per application */
  'no follow-up after treatment': 0.1,
  'no reason given': 0.08,
  'notice not sent': 0.2,
  /** per product */
  'label file missing': 0.15,
  'safety data sheet changed': 0.15,
  /** per renewal */
  'licence renewed late': 0.15,
  /** per storage check */
  'store not locked': 0.08,
  'unlabelled container': 0.06,
  /** per year */
  'yearly review not held': 0.2,
} as const

export type TroubleKind = keyof typeof troubleRates

export interface Trouble {
  /** Whether this goes wrong here and now; always no in a clean ledger. What goes wrong is kept for the truth. */
  readonly happens: (kind: TroubleKind, site: string, day: Day, detail?: string) => boolean
}

export function troubleMaker(random: Random, clean: boolean, spoilt: Spoilt[]): Trouble {
  return {
    happens(what, site, day, detail = '') {
      if (clean || random.next() >= troubleRates[what]) return false
      spoilt.push({ what, site, day, detail })
      return true
    },
  }
}
