/** An exact fraction; the denominator is above zero. */
export interface Fraction {
  readonly numerator: bigint
  readonly denominator: bigint
}

export const nought: Fraction = { numerator: 0n, denominator: 1n }

/** Exact value of a decimal numeral, with or without an exponent. */
export function fractionOf(decimal: string): Fraction {
  const [mantissa = '0', exponent = '0'] = decimal.toLowerCase().split('e')
  const [whole = '0', part = ''] = mantissa.split('.')
  const digits = BigInt(whole + part)
  const places = part.length - Number(exponent)
  return places >= 0
    ? { numerator: digits, denominator: 10n ** BigInt(places) }
    : { numerator: digits * 10n ** BigInt(-places), denominator: 1n }
}

export function times(a: Fraction, b: Fraction): Fraction {
  return { numerator: a.numerator * b.numerator, denominator: a.denominator * b.denominator }
}

/** `a` divided by `b`; `b` is above zero. */
export function over(a: Fraction, b: Fraction): Fraction {
  return { numerator: a.numerator * b.denominator, denominator: a.denominator * b.numerator }
}

export function plus(a: Fraction, b: Fraction): Fraction {
  return {
    numerator: a.numerator * b.denominator + b.numerator * a.denominator,
    denominator: a.denominator * b.denominator,
  }
}

export function minus(a: Fraction): Fraction {
  return { numerator: -a.numerator, denominator: a.denominator }
}

/** −1, 0 or 1 as the first is smaller than, equal to or larger than the second. */
export function compareFractions(a: Fraction, b: Fraction): -1 | 0 | 1 {
  const left = a.numerator * b.denominator
  const right = b.numerator * a.denominator
  if (left === right) return 0
  return left < right ? -1 : 1
}

/** The double nearest to a fraction (to twenty digits, then rounded). */
export function numberOf({ numerator, denominator }: Fraction): number {
  if (numerator === 0n) return 0
  const size = numerator < 0n ? -numerator : numerator
  const shift = 20 + denominator.toString().length - size.toString().length
  const scaled =
    shift >= 0 ? (size * 10n ** BigInt(shift)) / denominator : size / (denominator * 10n ** BigInt(-shift))
  return Number(`${numerator < 0n ? '-' : ''}${scaled}e${-shift}`)
}
