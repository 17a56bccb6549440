import type { Step } from '../measure/mixing.js'
import { quantityOf } from '../measure/mixing.js'
import type { Quantity } from '../measure/quantities.js'
import { convert } from '../measure/quantities.js'
import type { Unit } from '../measure/unit-table.js'

/** A number with at most so many significant digits, but never fewer digits than stand before the point; no exponent. */
function plain(value: number, digits: number): string {
  const whole = Math.abs(value) >= 1 ? Math.floor(Math.log10(Math.abs(value))) + 1 : 0
  const rounded = Number(value.toPrecision(Math.min(100, Math.max(digits, whole))))
  const text = String(rounded)
  return text.includes('e-') ? rounded.toFixed(18).replace(/0+$/, '').replace(/\.$/, '') : text
}

/** A result for people: four significant digits. */
export function figure({ value, unit }: Quantity): string {
  return `${plain(value, 4)} ${unit}`
}

/** A figure that was given, as it was given. */
export function asGiven({ value, unit }: Quantity): string {
  return `${value} ${unit}`
}

/** A line of the working: `55 gal × 1 % ÷ 48 %`. */
export function stepText({ start, then }: Step): string {
  const exact = (quantity: Quantity) => `${plain(quantity.value, 7)} ${quantity.unit}`
  return [exact(quantityOf(start)), ...then.map(([sign, by]) => `${sign} ${exact(quantityOf(by))}`)].join(' ')
}

const largeAndSmall = { volume: ['gal', 'fl oz', 128], weight: ['lb', 'oz', 16] } as const

/**
 * As it is measured out with a jug and a spoon, or on a scale: `1 gal 18.7 fl oz`, `9 lb 6 oz`, `2 tsp`. Null where
 * that says nothing more.
 */
export function handier(quantity: Quantity): string | null {
  const { dimension } = quantity
  if (dimension !== 'volume' && dimension !== 'weight') return null
  const [large, small, ratio] = largeAndSmall[dimension]
  const inSmall = convert(quantity, small)?.value ?? 0
  const tenths = Math.round(inSmall * 10)
  if (tenths >= ratio * 10) {
    const whole = Math.floor(tenths / (ratio * 10))
    const left = (tenths - whole * ratio * 10) / 10
    return left === 0 ? `${whole} ${large}` : `${whole} ${large} ${left} ${small}`
  }
  if (dimension === 'volume' && inSmall < 1) return `${plain(inSmall * 6, 3)} tsp`
  return `${plain(inSmall, 3)} ${small}`
}

const metricUnits: Readonly<Record<'volume' | 'weight', readonly Unit[]>> = {
  volume: ['L', 'mL'],
  weight: ['kg', 'g', 'mg'],
}

/** In the largest metric unit of which it is at least one. */
export function metric(quantity: Quantity): string | null {
  const { dimension } = quantity
  if (dimension !== 'volume' && dimension !== 'weight') return null
  const told = metricUnits[dimension].flatMap((unit) => convert(quantity, unit) ?? [])
  const best = told.find(({ value }) => value >= 1) ?? told.at(-1)
  return best ? figure(best) : null
}
