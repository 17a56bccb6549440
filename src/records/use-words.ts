/** Words for what a product is and how it is used: two facts, never one (a gel can be put into a crack or on a board). */

export const formulations = [
  'gel',
  'paste',
  'bait-block',
  'granular-bait',
  'liquid-bait',
  'bait-station',
  'dust',
  'aerosol',
  'emulsifiable-concentrate',
  'wettable-powder',
  'suspension-concentrate',
  'soluble-concentrate',
  'ready-to-use-liquid',
  'granule',
  'foam',
  'fumigant',
  'glue',
  'solid',
  'other',
] as const
export type Formulation = (typeof formulations)[number]

/** Formulations that are eaten by what they are for, and lie where they were put. */
export const baitFormulations: ReadonlySet<Formulation> = new Set([
  'gel',
  'paste',
  'bait-block',
  'granular-bait',
  'liquid-bait',
  'bait-station',
])

/** Formulations that are mixed with water before use. */
export const concentrates: ReadonlySet<Formulation> = new Set([
  'emulsifiable-concentrate',
  'wettable-powder',
  'suspension-concentrate',
  'soluble-concentrate',
])

/** Formulations that are poured or sprayed, so that an `oz` on them may mean a fluid ounce. */
export const liquidFormulations: ReadonlySet<Formulation> = new Set([
  'liquid-bait',
  'emulsifiable-concentrate',
  'suspension-concentrate',
  'soluble-concentrate',
  'ready-to-use-liquid',
])

export const methods = [
  'bait-placement',
  'in-a-station',
  'crack-and-crevice',
  'void',
  'spot',
  'baseboard',
  'broadcast',
  'space',
  'perimeter',
  'drench',
  'injection',
  'wipe',
  'other',
] as const
export type Method = (typeof methods)[number]

/** What a product is in law. */
export const productKinds = [
  'pesticide',
  'minimum-risk',
  'antimicrobial',
  'living-agent',
  'lure',
  'device',
  'caulk',
  'other-material',
] as const
export type ProductKind = (typeof productKinds)[number]

export const signalWords = ['danger-poison', 'danger', 'warning', 'caution', 'none'] as const
export type SignalWord = (typeof signalWords)[number]

/** Groups of active ingredients that the laws name. */
export const activeClasses = [
  'borate',
  'silica',
  'diatomaceous-earth',
  'botanical',
  'pyrethroid',
  'microbial',
  'insect-growth-regulator',
  'synergist',
  'soap-or-oil',
  'rodenticide',
  'pheromone',
  'herbicide',
  'other',
] as const
export type ActiveClass = (typeof activeClasses)[number]

export const siteKinds = ['school', 'child-care', 'office', 'other'] as const

/** Where pupils are while a pesticide is applied. */
export const pupilPlaces = ['none in the building', 'elsewhere in the building', 'in the area'] as const

/** What a notice or a sign can say. */
export const noticeContents = [
  'trade-name',
  'common-name',
  'active-ingredients',
  'registration',
  'manufacturer',
  'location',
  'date',
  'time',
  'rain-dates',
  'reason',
  'sensitive-persons-statement',
  'adverse-effects',
  'label-safety-instructions',
  'coordinator-contact',
  'applicator-contact',
  'warning-words',
  'reentry-time',
  'emergency-problem',
  'emergency-reason',
  'emergency-prevention',
] as const
export type NoticeContent = (typeof noticeContents)[number]

/** What the record of an application can be asked to hold beyond product, day, place and who. */
export const recordElements = [
  'registration',
  'amount',
  'amount-in-each-area',
  'size-of-area',
  'start-and-end',
  'certified-applicator',
  'customer-address',
  'spot-description',
  'dilution',
  'lot',
  'equipment',
  'weather',
  'pupils',
  'reason',
] as const

export const yearlyKinds = [
  'annual-notice',
  'report-to-the-state',
  'plan-published',
  'programme-notified',
] as const

/** Kinds of places where a sign hangs. */
export const postingPlaces = ['treated-area', 'each-entrance', 'common-area'] as const
