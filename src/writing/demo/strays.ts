import type { PestModel } from './pest-model.js'

/** Animals that stray in one by one: they fill the traps and never settle. */
const stray = (
  id: string,
  k: number,
  base: PestModel['base'],
  peak: number,
  swing: number,
  complained = 0,
): PestModel => ({
  id,
  k,
  base,
  season: { peak, swing },
  onsets: 0,
  growth: 0,
  capacity: 1,
  sighted: 0,
  complained,
})

export const strays: readonly PestModel[] = [
  stray(
    'spider',
    1,
    {
      kitchen: 0.016,
      'food-storage': 0.02,
      dining: 0.02,
      custodial: 0.04,
      utility: 0.05,
      'loading-dock': 0.06,
      restroom: 0.024,
      classroom: 0.036,
    },
    265,
    0.6,
    0.003,
  ),
  stray(
    'ground-beetle',
    0.6,
    { kitchen: 0.008, dining: 0.016, custodial: 0.024, utility: 0.03, 'loading-dock': 0.07, classroom: 0.04 },
    190,
    1,
  ),
  stray(
    'pillbug',
    0.5,
    { 'loading-dock': 0.1, custodial: 0.04, utility: 0.04, dining: 0.024, classroom: 0.04, kitchen: 0.012 },
    120,
    0.9,
  ),
  stray(
    'house-cricket',
    0.7,
    { custodial: 0.016, utility: 0.04, 'loading-dock': 0.04, kitchen: 0.006 },
    250,
    1.2,
  ),
]
