/** What a unit measures. Quantities of different dimensions never convert into each other. */
export type Dimension =
  | 'volume'
  | 'weight'
  | 'length'
  | 'area'
  | 'pieces'
  | 'percent'
  | 'strength'
  | 'time'
  | 'calendar'
  | 'temperature'
  | 'speed'

interface UnitRow {
  unit: string
  dimension: Dimension
  /** How many base units one is, as an exact decimal. */
  factor: string
  /** Divides the factor where the quotient is no finite decimal. */
  over?: string
  /** Taken off the number before the factor is applied (temperature scales). */
  zeroAt?: string
  /** Other spellings that are read; what is written back is always `unit`. */
  also?: readonly string[]
}

/**
 * Every unit, with its exact factor to the base of its dimension: mL, g, m, m², %, g/L, minutes, months,
 * °C, and m/s. The factors are those of NIST Handbook 44 Appendix C, which follow from 1 in = 2.54 cm, 1 gal = 231 in³
 * and 1 lb = 453.59237 g. The acre is the international one (43,560 ft²); the US survey foot was retired at
 * the end of 2022.
 *
 * A fluid ounce is volume and an ounce is weight. A month is not a number of days: it is kept apart from days
 * and weeks. Pieces (blocks, placements, …) convert only into themselves.
 */
export const unitTable = [
  { unit: 'fl oz', dimension: 'volume', factor: '29.5735295625' },
  { unit: 'tsp', dimension: 'volume', factor: '4.92892159375' },
  { unit: 'tbsp', dimension: 'volume', factor: '14.78676478125' },
  { unit: 'cup', dimension: 'volume', factor: '236.5882365', also: ['cups'] },
  { unit: 'pt', dimension: 'volume', factor: '473.176473' },
  { unit: 'qt', dimension: 'volume', factor: '946.352946' },
  { unit: 'gal', dimension: 'volume', factor: '3785.411784' },
  { unit: 'mL', dimension: 'volume', factor: '1' },
  { unit: 'L', dimension: 'volume', factor: '1000' },
  { unit: 'ft3', dimension: 'volume', factor: '28316.846592', also: ['ft³'] },
  { unit: '1000 ft3', dimension: 'volume', factor: '28316846.592', also: ['1000 ft³'] },
  { unit: 'm3', dimension: 'volume', factor: '1000000', also: ['m³'] },

  { unit: 'oz', dimension: 'weight', factor: '28.349523125' },
  { unit: 'lb', dimension: 'weight', factor: '453.59237' },
  { unit: 'mg', dimension: 'weight', factor: '0.001' },
  { unit: 'g', dimension: 'weight', factor: '1' },
  { unit: 'kg', dimension: 'weight', factor: '1000' },

  { unit: 'in', dimension: 'length', factor: '0.0254' },
  { unit: 'ft', dimension: 'length', factor: '0.3048' },
  { unit: 'yd', dimension: 'length', factor: '0.9144' },
  { unit: 'mm', dimension: 'length', factor: '0.001' },
  { unit: 'cm', dimension: 'length', factor: '0.01' },
  { unit: 'm', dimension: 'length', factor: '1' },

  { unit: 'ft2', dimension: 'area', factor: '0.09290304', also: ['ft²'] },
  { unit: '1000 ft2', dimension: 'area', factor: '92.90304', also: ['1000 ft²'] },
  { unit: 'yd2', dimension: 'area', factor: '0.83612736', also: ['yd²'] },
  { unit: 'acre', dimension: 'area', factor: '4046.8564224', also: ['acres'] },
  { unit: 'm2', dimension: 'area', factor: '1', also: ['m²'] },
  { unit: 'hectare', dimension: 'area', factor: '10000', also: ['hectares'] },

  { unit: 'block', dimension: 'pieces', factor: '1', also: ['blocks'] },
  { unit: 'packet', dimension: 'pieces', factor: '1', also: ['packets'] },
  { unit: 'tablet', dimension: 'pieces', factor: '1', also: ['tablets'] },
  { unit: 'placement', dimension: 'pieces', factor: '1', also: ['placements'] },
  { unit: 'station', dimension: 'pieces', factor: '1', also: ['stations'] },
  { unit: 'trap', dimension: 'pieces', factor: '1', also: ['traps'] },
  { unit: 'each', dimension: 'pieces', factor: '1' },

  { unit: '%', dimension: 'percent', factor: '1' },
  { unit: 'g/L', dimension: 'strength', factor: '1' },
  { unit: 'lb/gal', dimension: 'strength', factor: '453.59237', over: '3.785411784' },

  { unit: 'min', dimension: 'time', factor: '1' },
  { unit: 'h', dimension: 'time', factor: '60' },
  { unit: 'day', dimension: 'time', factor: '1440', also: ['days'] },
  { unit: 'week', dimension: 'time', factor: '10080', also: ['weeks'] },
  { unit: 'month', dimension: 'calendar', factor: '1', also: ['months'] },
  { unit: 'year', dimension: 'calendar', factor: '12', also: ['years'] },

  { unit: 'C', dimension: 'temperature', factor: '1', also: ['°C'] },
  { unit: 'F', dimension: 'temperature', factor: '5', over: '9', zeroAt: '32', also: ['°F'] },

  { unit: 'm/s', dimension: 'speed', factor: '1' },
  { unit: 'mph', dimension: 'speed', factor: '0.44704' },
  { unit: 'km/h', dimension: 'speed', factor: '1', over: '3.6' },
] as const satisfies readonly UnitRow[]

export type Unit = (typeof unitTable)[number]['unit']

/** A row of the table as the arithmetic sees it. */
export type UnitFacts = UnitRow & { unit: Unit }

const rows: readonly UnitFacts[] = unitTable

const bySpelling = new Map<string, UnitFacts>(
  rows.flatMap((row) => [row.unit, ...(row.also ?? [])].map((spelling) => [spelling, row] as const)),
)

/** All unit names as they are written back, in the order of the table. */
export const units: readonly Unit[] = unitTable.map((row) => row.unit)

/**
 * The facts of a unit by any of its spellings; undefined for a word that is no unit. Case matters (mL, L, F).
 */
export function unitFacts(spelling: string): UnitFacts | undefined {
  return bySpelling.get(spelling)
}

/** Every spelling that is read, of all units or of those that measure one of the given dimensions. */
export function spellings(...dimensions: readonly Dimension[]): string[] {
  return [...bySpelling]
    .filter(([, row]) => dimensions.length === 0 || dimensions.includes(row.dimension))
    .map(([spelling]) => spelling)
}
