import type { AreaKind } from '../../records/area-kinds.js'
import type { Day } from '../../types.js'
import { dateText } from './days.js'
import type { DemoFile } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

interface Threshold {
  readonly actAt: number
  readonly per: 'room' | 'trap-week' | 'place'
  readonly source?: string
}

interface InventedPlan {
  readonly title: string
  readonly actOnOne?: readonly (AreaKind | 'everywhere')[]
  readonly thresholds?: Partial<Record<AreaKind | 'elsewhere', Threshold>>
  /** Tactics, least hazard first. */
  readonly tactics: Readonly<Record<string, string>>
}

const wyoming = 'U. Wyoming Extension, school IPM threshold chart'
const illustrative = 'eXtension, school action thresholds, given there as an illustration'
const trapWeek = (actAt: number): Threshold => ({ actAt, per: 'trap-week' })
const room = (actAt: number, source = wyoming): Threshold => ({ actAt, per: 'room', source })

export const inventedPlans: Readonly<Record<string, InventedPlan>> = {
  'german-cockroach': {
    title: 'German cockroach',
    actOnOne: ['kitchen', 'food-storage', 'dining'],
    thresholds: { elsewhere: room(1) },
    tactics: {
      'clean-and-dry': 'Clean under and behind equipment; mend leaks; empty bins nightly',
      vacuum: 'Vacuum cracks where they gather',
      trap: 'More sticky traps to find where they come from',
      gel: 'Gel bait in cracks and voids, by a licensed applicator, as the label says',
    },
  },
  'american-cockroach': {
    title: 'American cockroach',
    thresholds: { elsewhere: room(1) },
    tactics: {
      close: 'Close floor drains and pipe gaps',
      clean: 'Clean and dry floors of plant rooms',
      dust: 'Dust in closed voids, by a licensed applicator, after notice',
    },
  },
  'house-mouse': {
    title: 'House mouse',
    actOnOne: ['everywhere'],
    tactics: {
      close: 'Close gaps over 1/4 in; fit door sweeps',
      clean: 'Take food and cartons off the floor',
      trap: 'Snap traps along the run, checked every day',
    },
  },
  'norway-rat': {
    title: 'Norway rat',
    actOnOne: ['everywhere'],
    tactics: {
      clean: 'Keep lids shut; clear growth from walls',
      close: 'Close gaps over 1/2 in; collapse burrows',
      trap: 'Snap traps where they come in, checked every day',
      bait: 'Blocks in locked stations outdoors, by a licensed applicator',
    },
  },
  'odorous-house-ant': {
    title: 'Odorous house ant',
    thresholds: { kitchen: room(3), classroom: room(5), elsewhere: room(5) },
    tactics: {
      clean: 'Wipe trails; put food away',
      close: 'Seal the crack they come through',
      bait: 'Ant bait in stations out of reach',
    },
  },
  'pavement-ant': {
    title: 'Pavement ant',
    thresholds: { kitchen: room(3), classroom: room(5), elsewhere: room(5) },
    tactics: { clean: 'Wipe trails; put food away', close: 'Seal the joint they come through' },
  },
  'house-fly': {
    title: 'House fly',
    thresholds: { classroom: room(3, illustrative), elsewhere: trapWeek(12) },
    tactics: { clean: 'Bins shut and washed', screen: 'Screens mended; doors kept shut' },
  },
  'fruit-fly': {
    title: 'Fruit fly',
    thresholds: { elsewhere: trapWeek(10) },
    tactics: { clean: 'Fruit, bottles and bins cleared; drains brushed' },
  },
  'drain-fly': {
    title: 'Drain fly',
    thresholds: { elsewhere: trapWeek(4) },
    tactics: { clean: 'Drains brushed to the trap; leaks mended' },
  },
  'fungus-gnat': {
    title: 'Fungus gnat',
    thresholds: { elsewhere: trapWeek(5) },
    tactics: {
      dry: 'Let the soil of the pot dry out',
      'take-away': 'Take the plant away and treat it off the property',
    },
  },
  'indianmeal-moth': {
    title: 'Indianmeal moth',
    thresholds: { elsewhere: trapWeek(2) },
    tactics: { find: 'Find and discard infested goods', clean: 'Clean shelves; first in, first out' },
  },
  silverfish: {
    title: 'Silverfish',
    thresholds: { elsewhere: trapWeek(3) },
    tactics: { dry: 'Dry the room; clear cardboard' },
  },
  'ground-beetle': {
    title: 'Ground beetles and other strays',
    thresholds: {
      elsewhere: { actAt: 20, per: 'room', source: 'Texas A&M AgriLife, school action thresholds' },
    },
    tactics: { close: 'Door sweeps whole; lights away from doors' },
  },
  yellowjacket: {
    title: 'Yellowjacket',
    actOnOne: ['classroom', 'kitchen', 'dining'],
    thresholds: { elsewhere: { actAt: 5, per: 'place', source: illustrative } },
    tactics: {
      clean: 'Lids shut; bins away from doors',
      'close-off': 'Close off the place and keep everyone away',
      treat: 'Nest removed or treated outside school hours, by a licensed applicator, after notice',
    },
  },
  'western-subterranean-termite': {
    title: 'Western subterranean termite',
    actOnOne: ['everywhere'],
    tactics: { dry: 'Mend leaks; no soil against wood', refer: 'Call a licensed structural inspector' },
  },
}

/** Whether what one visit found reaches the plan: animals in the area, and the highest catch of a trap in a week. */
export function reachesPlan(pest: string, kind: AreaKind, animals: number, mostPerTrapWeek: number): boolean {
  const plan = inventedPlans[pest]
  if (!plan) return false
  if (animals > 0 && plan.actOnOne?.some((where) => where === 'everywhere' || where === kind)) return true
  const threshold = plan.thresholds?.[kind] ?? plan.thresholds?.elsewhere
  if (!threshold) return false
  return (threshold.per === 'trap-week' ? mostPerTrapWeek : animals) >= threshold.actAt
}

export function planFiles(from: Day): DemoFile[] {
  return Object.entries(inventedPlans).map(([pest, plan]) => {
    const thresholds =
      plan.thresholds &&
      Object.fromEntries(
        Object.entries(plan.thresholds).map(([kind, { actAt, per, source }]) => [
          kind,
          { 'act-at': actAt, per, source: source ?? 'invented for this district' },
        ]),
      )
    const tactics = Object.fromEntries(
      Object.entries(plan.tactics).map(([name, text]) => [name, { do: text }]),
    )
    const span: YamlMap = { from: dateText(from), 'act-on-one': plan.actOnOne, thresholds, tactics }
    return { path: `plans/${pest}.yaml`, text: mapText({ title: plan.title, spans: [span] }) }
  })
}
