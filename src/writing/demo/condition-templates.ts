import type { AreaKind } from '../../records/area-kinds.js'

/** Correctable faults of the invented schools, and the words for them. */
export interface ConditionTemplate {
  readonly name: string
  readonly kind: 'sanitation' | 'moisture' | 'structural' | 'storage' | 'landscape'
  readonly gives: 'food' | 'water' | 'harborage' | 'entry'
  readonly owner: 'maintenance' | 'custodial' | 'kitchen' | 'teacher' | 'grounds'
  readonly where: readonly AreaKind[]
  readonly says: string
  readonly mended: string
  readonly good: string
  readonly opening?: string
  readonly advice: string
}

const t = (
  name: string,
  [kind, gives, owner]: readonly [
    ConditionTemplate['kind'],
    ConditionTemplate['gives'],
    ConditionTemplate['owner'],
  ],
  where: readonly AreaKind[],
  [says, mended, good, advice]: readonly [string, string, string, string],
  opening?: string,
): ConditionTemplate => ({
  name,
  kind,
  gives,
  owner,
  where,
  says,
  mended,
  good,
  advice,
  ...(opening ? { opening } : {}),
})

export const conditionTemplates: readonly ConditionTemplate[] = [
  t(
    'sink-drip',
    ['moisture', 'water', 'maintenance'],
    ['kitchen'],
    [
      'drip under the prep sink',
      'new trap and washers under the prep sink',
      'dry under the sink',
      'wipe the cabinet floor dry at closing',
    ],
  ),
  t(
    'floor-drain',
    ['sanitation', 'food', 'kitchen'],
    ['kitchen'],
    [
      'scum in the floor drain by the dish machine',
      'drain brushed and flushed, basket put back',
      'drain clean, basket in place',
      'brush the floor drain every Friday',
    ],
  ),
  t(
    'grease-line',
    ['sanitation', 'food', 'kitchen'],
    ['kitchen'],
    [
      'grease on the wall behind the fryer',
      'wall and floor behind the fryer degreased',
      'wall clean',
      'pull the fryer out once a month',
    ],
  ),
  t(
    'cartons',
    ['storage', 'harborage', 'kitchen'],
    ['food-storage', 'kitchen'],
    [
      'cartons stacked against the wall',
      'cartons broken down, shelves 6 in off the wall',
      'wall free',
      'no cartons overnight',
    ],
  ),
  t(
    'open-sacks',
    ['storage', 'food', 'kitchen'],
    ['food-storage'],
    [
      'flour sack open on the lower shelf',
      'dry goods moved into lidded bins',
      'bins closed',
      'first in, first out, lids on',
    ],
  ),
  t(
    'door-gap',
    ['structural', 'entry', 'maintenance'],
    ['loading-dock', 'kitchen', 'custodial', 'food-storage', 'classroom'],
    [
      'daylight under the outer door, 1/2 in',
      'door sweep fitted',
      'sweep touches the sill all along',
      'keep the door shut between deliveries',
    ],
    'door sweep, 1/2 in gap',
  ),
  t(
    'pipe-gap',
    ['structural', 'entry', 'maintenance'],
    ['utility', 'custodial', 'restroom'],
    [
      'open gap round the heating pipe, 1 in',
      'gap packed with copper mesh and sealed',
      'seal whole',
      'nothing stored against the pipes',
    ],
    'pipe sleeve, 1 in gap',
  ),
  t(
    'mop-sink',
    ['moisture', 'water', 'custodial'],
    ['custodial'],
    ['wet mops left in the sink', 'rack fitted, mops hung to dry', 'mops hang dry', 'hang mops head down'],
  ),
  t(
    'faucet-drip',
    ['moisture', 'water', 'maintenance'],
    ['restroom'],
    ['faucet drips, puddle below', 'cartridge replaced', 'no drip', 'report drips the same day'],
  ),
  t(
    'snack-shelf',
    ['sanitation', 'food', 'teacher'],
    ['classroom', 'office'],
    [
      'open snacks in a cupboard',
      'snacks moved into a lidded bin',
      'only closed boxes',
      'food in lidded boxes only',
    ],
  ),
  t(
    'clutter',
    ['storage', 'harborage', 'custodial'],
    ['utility', 'custodial'],
    [
      'cardboard piled beside the boiler',
      'cardboard taken to recycling',
      'floor free',
      'keep 3 ft round the boiler free',
    ],
  ),
  t(
    'torn-screen',
    ['structural', 'entry', 'maintenance'],
    ['dining', 'kitchen'],
    ['torn window screen', 'new 16 mesh screen', 'screen whole', 'windows without a screen stay shut'],
    'window screen, 5 in tear',
  ),
  t(
    'open-lid',
    ['sanitation', 'food', 'custodial'],
    ['waste'],
    [
      'dumpster lid left open, spill round it',
      'lid hinge bent back, pad washed',
      'lid shut, pad clean',
      'shut the lid after every bag',
    ],
  ),
  t(
    'ivy',
    ['landscape', 'harborage', 'grounds'],
    ['outdoors'],
    [
      'ivy on the wall behind the stations',
      'ivy cut back 18 in from the wall',
      'wall free',
      'keep growth 18 in from walls',
    ],
  ),
  t(
    'standing-water',
    ['moisture', 'water', 'grounds'],
    ['playground', 'outdoors'],
    ['puddle that does not drain', 'drain cleared', 'no standing water', 'clear leaves from the drain'],
  ),
]
