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
  'turf',
  'planting',
  'waste',
] as const
export type AreaKind = (typeof areaKinds)[number]

const outdoorKinds: ReadonlySet<AreaKind> = new Set(['outdoors', 'playground', 'turf', 'planting'])
/** A dock and a place for waste can be either, so nothing is concluded from their kind. */
const eitherKinds: ReadonlySet<AreaKind> = new Set(['loading-dock', 'waste'])

/** Whether an area of this kind lies in the open; undefined where its kind does not tell. */
export function liesOutdoors(kind: AreaKind): boolean | undefined {
  return eitherKinds.has(kind) ? undefined : outdoorKinds.has(kind)
}
