/**
 * Toxicity categories of pesticide products, I the worst, and the signal word that follows from them.
 *
 * Two tables are in use and they differ. The regulation has one (40 CFR 156.62); EPA's reviewers work with that of
 * the Label Review Manual, chapter 7 (July 2014), which says so, and whose limits for skin contact and breathing are
 * lower. A category therefore always comes from a table that is named. Upper limits belong to the category they close.
 */
export const toxicityCategories = ['I', 'II', 'III', 'IV'] as const
export type ToxicityCategory = (typeof toxicityCategories)[number]

export type DoseRoute = 'oral' | 'dermal' | 'inhalation'
export type ToxicityRoute = DoseRoute | 'eye' | 'skin'

export type ToxicityTable = '40 CFR 156.62' | 'Label Review Manual, chapter 7'

/** Largest value of the categories I, II and III: LD50 in mg/kg, by inhalation LC50 in mg/L. */
type Limits = readonly [number, number, number]

const limits: Readonly<Record<ToxicityTable, Readonly<Record<DoseRoute, Limits>>>> = {
  // Read in reprints of the table; that the upper limits are included, from memory.
  '40 CFR 156.62': { oral: [50, 500, 5000], dermal: [200, 2000, 20_000], inhalation: [0.2, 2, 20] },
  // From memory.
  'Label Review Manual, chapter 7': {
    oral: [50, 500, 5000],
    dermal: [200, 2000, 5000],
    inhalation: [0.05, 0.5, 2],
  },
}

/** Category of a dose that kills half: LD50 in mg/kg, by inhalation LC50 in mg/L. Null for what is no dose. */
export function categoryOfDose(
  table: ToxicityTable,
  route: DoseRoute,
  value: number,
): ToxicityCategory | null {
  if (!(value >= 0)) return null
  const [one, two, three] = limits[table][route]
  return value <= one ? 'I' : value <= two ? 'II' : value <= three ? 'III' : 'IV'
}

/** What 40 CFR 156.62 tells apart in the eye. */
export const eyeEffects = {
  corrosive: 'I',
  'opacity not reversible within 7 days': 'I',
  'opacity reversible within 7 days': 'II',
  'irritation persisting for 7 days': 'II',
  'irritation reversible within 7 days, no opacity': 'III',
  'no irritation': 'IV',
} as const satisfies Record<string, ToxicityCategory>
export type EyeEffect = keyof typeof eyeEffects

/** What 40 CFR 156.62 tells apart on the skin. */
export const skinEffects = {
  corrosive: 'I',
  'severe irritation at 72 hours': 'II',
  'moderate irritation at 72 hours': 'III',
  'mild or slight irritation at 72 hours': 'IV',
} as const satisfies Record<string, ToxicityCategory>
export type SkinEffect = keyof typeof skinEffects

export function categoryOfEyeEffect(effect: EyeEffect): ToxicityCategory {
  return eyeEffects[effect]
}

export function categoryOfSkinEffect(effect: SkinEffect): ToxicityCategory {
  return skinEffects[effect]
}

/**
 * The eye by the Label Review Manual, chapter 7 (from memory): how long the effect took to clear, in whole days, 0
 * for less than a day, or that it destroys tissue. What took longer than 21 days is as bad as that.
 */
export function categoryOfEyeClearing(cleared: number | 'corrosive'): ToxicityCategory | null {
  if (cleared === 'corrosive') return 'I'
  if (!Number.isInteger(cleared) || cleared < 0) return null
  return cleared < 1 ? 'IV' : cleared <= 7 ? 'III' : cleared <= 21 ? 'II' : 'I'
}

/** Signal words from the least to the gravest. */
const gravity = ['none', 'caution', 'warning', 'danger', 'danger-poison'] as const
export type RequiredWord = (typeof gravity)[number]

const poisonRoutes: ReadonlySet<ToxicityRoute> = new Set<ToxicityRoute>(['oral', 'dermal', 'inhalation'])

/**
 * The least signal word that 40 CFR 156.64 asks for, by the worst of the routes that are known; null where none is.
 * A route that is not known can only ask for a graver one. Danger goes with "poison" where I is by mouth, by contact
 * or by breath, not by eye or skin alone. IV on every route asks for none (should it bear one, it is caution).
 */
export function requiredSignalWord(
  categories: Readonly<Partial<Record<ToxicityRoute, ToxicityCategory | undefined>>>,
): RequiredWord | null {
  const known = (Object.entries(categories) as [ToxicityRoute, ToxicityCategory | undefined][]).filter(
    ([, category]) => category !== undefined,
  )
  const has = (wanted: ToxicityCategory) => known.some(([, category]) => category === wanted)
  if (known.length === 0) return null
  if (known.some(([route, category]) => category === 'I' && poisonRoutes.has(route))) return 'danger-poison'
  return has('I') ? 'danger' : has('II') ? 'warning' : has('III') ? 'caution' : 'none'
}

/** Whether a signal word stands for less than another. */
export function isLesserWord(word: RequiredWord, than: RequiredWord): boolean {
  return gravity.indexOf(word) < gravity.indexOf(than)
}
