/** Kinds of device, without the schema, so that help can list them without loading it. */
export const deviceKinds = [
  'sticky-trap',
  'glue-board',
  'snap-trap',
  'multiple-catch-trap',
  'bait-station',
  'light-trap',
  'pheromone-trap',
  'sticky-card',
  'tracking-patch',
  'blocked-entrance',
  'termite-station',
] as const
export type DeviceKind = (typeof deviceKinds)[number]
