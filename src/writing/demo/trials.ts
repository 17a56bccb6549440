import type { Planted, Trial } from './trial.js'

/** What makes records hard to read, each switched on by itself, none of it, and all at once. */
export const hardships = [
  'none',
  'clumped catches',
  'season',
  'boards never renewed',
  'devices moved',
  'lost by catch',
  'all together',
] as const
export type Hardship = (typeof hardships)[number]

/**
 * Rates at which every monitor of a school catches something in two years, from less than one animal (drain flies) to
 * about two hundred, and at which nothing else happens.
 */
const nothing: Readonly<Record<string, Planted>> = {
  'german-cockroach': { rate: 0.02, treated: 0 },
  'american-cockroach': { rate: 0.06 },
  'odorous-house-ant': { rate: 0.05, treated: 0 },
  'pavement-ant': { rate: 0.05 },
  'house-fly': { rate: 0.03 },
  'fruit-fly': { rate: 0.02 },
  'drain-fly': { rate: 0.002 },
  'fungus-gnat': { rate: 0.05 },
  'indianmeal-moth': { rate: 0.05 },
  silverfish: { rate: 0.003 },
}

/**
 * A source of German cockroaches by the north wall of the kitchen; pavement ants that become a tenth more a month, fruit
 * flies and silverfish that become fewer; house flies, gnats and moths that double after sixteen months; American
 * cockroaches that are five times as many where a fault is open; odorous ants that the first bait brings down to a fifth.
 */
const something: Readonly<Record<string, Planted>> = {
  ...nothing,
  'german-cockroach': { rate: 0.02, treated: 0, source: { at: [52, 25], within: 20, times: 10 } },
  'american-cockroach': { rate: 0.03, fault: Math.log(5) },
  'odorous-house-ant': { rate: 0.1, treated: -Math.log(5) },
  'pavement-ant': { rate: 0.015, perMonth: Math.log(1.1) },
  'house-fly': { rate: 0.03, step: { after: 487, times: 2 } },
  'fruit-fly': { rate: 0.06, perMonth: -Math.log(1.1) },
  'fungus-gnat': { rate: 0.05, step: { after: 487, times: 2 } },
  'indianmeal-moth': { rate: 0.05, step: { after: 487, times: 2 } },
  silverfish: { rate: 0.06, perMonth: -Math.log(1.1) },
}

/** A trial with one hardship, and with something planted or nothing. */
export function trialOf(hardship: Hardship, planted: boolean): Trial {
  const is = (one: Hardship) => hardship === one || hardship === 'all together'
  return {
    pests: planted ? something : nothing,
    clumped: is('clumped catches'),
    seasons: is('season'),
    renewed: !is('boards never renewed'),
    moved: is('devices moved') ? 0.1 : 0,
    lostAlways: 0.02,
    lostPerAnimal: is('lost by catch') ? 0.02 : 0,
  }
}
