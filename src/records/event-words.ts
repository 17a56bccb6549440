/** Words that events choose from, without their schemas, so that help can list them without loading those. */

export const complaintFrom = ['staff', 'parent', 'pupil', 'visitor', 'neighbor'] as const

export const owners = [
  'maintenance',
  'custodial',
  'kitchen',
  'teacher',
  'grounds',
  'office',
  'contractor',
  'district',
] as const

export const evidenceKinds = [
  'live',
  'dead',
  'droppings',
  'gnawing',
  'tracks',
  'rub-marks',
  'nest',
  'burrow',
  'mud-tube',
  'swarmers',
  'wings',
  'egg-case',
  'shed-skin',
  'odor',
  'damage',
  'honeycomb',
] as const

export const traceAges = ['fresh', 'old', 'unknown'] as const
