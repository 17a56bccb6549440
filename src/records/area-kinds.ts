/** Kinds of area, as a plan's thresholds and the look of a room depend on them. */
export const areaKinds = [
  'classroom',
  'office',
  'break-room',
  'public',
  'restroom',
  'kitchen',
  'dining',
  'food-storage',
  'utility',
  'custodial',
  'storage',
  'loading-dock',
  'void',
  'outdoors',
  'playground',
  'waste',
] as const
export type AreaKind = (typeof areaKinds)[number]
