/** Groups of pests, as the pest table sorts them and as labels name them. */
export const pestGroups = [
  'cockroach',
  'rodent',
  'ant',
  'fly',
  'stinging',
  'termite',
  'stored-product',
  'fabric',
  'bed-bug',
  'occasional',
  'plant',
  'bird',
  'bat',
  'weed',
  'microbe',
  'unidentified',
] as const
