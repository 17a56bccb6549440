import type { DeviceKind } from '../../records/device-kinds.js'

/** How much of the rate each kind of device catches: 1 for what the rate is stated for. */
export const efficiency: Readonly<Record<DeviceKind, Readonly<Record<string, number>>>> = {
  'sticky-trap': {
    'german-cockroach': 1,
    'american-cockroach': 0.5,
    'odorous-house-ant': 1,
    'pavement-ant': 1,
    'house-fly': 0.1,
    'fruit-fly': 0.2,
    'drain-fly': 0.6,
    silverfish: 1,
    spider: 1,
    'ground-beetle': 1,
    'house-cricket': 1,
    pillbug: 1,
  },
  'glue-board': {
    'american-cockroach': 1.5,
    silverfish: 0.8,
    spider: 1.2,
    'ground-beetle': 1.2,
    'house-cricket': 1.5,
    pillbug: 0.8,
  },
  'snap-trap': { 'house-mouse': 2, 'norway-rat': 2 },
  'multiple-catch-trap': { 'house-mouse': 1.5 },
  // Blocks eaten a night per unit of rate; a station holds four blocks.
  'bait-station': { 'norway-rat': 3 },
  'light-trap': { 'house-fly': 6, 'fruit-fly': 4, 'drain-fly': 1 },
  'pheromone-trap': { 'indianmeal-moth': 1 },
  'sticky-card': { 'fungus-gnat': 1 },
  'tracking-patch': { 'house-mouse': 2 },
  'blocked-entrance': { 'norway-rat': 6 },
  'termite-station': { 'western-subterranean-termite': 1 },
}
