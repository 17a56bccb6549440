import type { Mix } from '../measure/mixing.js'
import { againstLimit } from '../measure/mixing.js'
import type { Quantity } from '../measure/quantities.js'
import { parseQuantity } from '../measure/quantities.js'
import type { Table } from '../types.js'
import type { MixAsked } from './mix.js'
import { asGiven } from './mix-amounts.js'
import type { RegisterProduct, RegisterRate } from './mix-register.js'

export interface HeldRate {
  readonly rate: RegisterRate
  readonly compared: -1 | 0 | 1 | null
}

/** The rates of the label in force that are for a method, or all where none is named. */
export function ratesFor(
  register: RegisterProduct | undefined,
  method: string | undefined,
): readonly RegisterRate[] {
  return (register?.rates ?? []).filter(
    ({ methods }) => method === undefined || methods.length === 0 || methods.includes(method),
  )
}

/**
 * Whether a rate is exceeded. Where the method is not known, one for named methods counts only if every such rate is
 * exceeded: else the one that is may be for another method.
 */
export function isAboveFor(held: readonly HeldRate[], method: string | undefined): boolean {
  const isAbove = ({ compared }: HeldRate) => compared === 1
  if (method !== undefined) return held.some(isAbove)
  const byMethod = held.filter(({ rate }) => rate.methods.length > 0)
  const forAll = held.filter(({ rate }) => rate.methods.length === 0)
  return forAll.some(isAbove) || (byMethod.length > 0 && byMethod.every(isAbove))
}

/** What to ask where it hangs on the method. */
export function whichMethod(held: readonly HeldRate[], isAbove: boolean): string[] {
  if (isAbove) return []
  return held
    .filter(({ compared }) => compared === 1)
    .map(
      ({ rate }) =>
        `These figures are above the rate ${rate.name}, which is for ${rate.methods.join(', ')}: --method says whether that one holds.`,
    )
}

/** How what is mixed stands to one rate of the label: −1 below, 0 at, 1 above; null where units differ. */
export function heldAgainst(mix: Mix, asked: MixAsked, { most, per }: RegisterRate): HeldRate['compared'] {
  if (per === 'application') {
    const once = amountOfOne('each')
    return againstLimit(mix, once, { most, per: once })
  }
  if (asked.kind !== 'rate' || asked.inMix) return null
  const limit = parseQuantity(per) ?? parseQuantity(`1 ${per}`)
  return limit && againstLimit(mix, asked.on, { most, per: limit })
}

function amountOfOne(unit: 'each'): Quantity {
  return { value: 1, unit, dimension: 'pieces' }
}

export function notHeldLines(register: RegisterProduct | undefined, held: readonly HeldRate[]): string[] {
  if (!register) return []
  if (register.label === undefined)
    return [`The register tells of no label of ${register.name} in force: nothing was held against a label.`]
  if (held.length === 0)
    return [
      `The register tells no rate of ${register.name}${register.rates.length > 0 ? ' for this method' : ''}: nothing was held against its label; read the printed one.`,
    ]
  return held
    .filter(({ compared }) => compared === null)
    .map(
      ({ rate }) =>
        `The rate ${rate.name} (${asGiven(rate.most)} per ${rate.per}) measures something else than was asked, so it was not held against it.`,
    )
}

const comparisons = new Map<HeldRate['compared'], string>([
  [1, 'ABOVE it'],
  [0, 'exactly at it'],
  [-1, 'below it'],
  [null, 'not compared'],
])

export function rateTable(register: RegisterProduct, held: readonly HeldRate[]): Table {
  return {
    id: 'label-rates',
    title: 'Rates of the label in force, as the register tells them',
    columns: [
      { id: 'rate', title: 'rate' },
      { id: 'at-most', title: 'at most' },
      { id: 'per', title: 'per' },
      { id: 'methods', title: 'for' },
      { id: 'stands', title: 'these figures are' },
    ],
    rows: held.map(({ rate, compared }) => ({
      cells: {
        rate: rate.name,
        'at-most': asGiven(rate.most),
        per: rate.per,
        methods: rate.methods.length === 0 ? 'all methods' : rate.methods.join(', '),
        stands: comparisons.get(compared) ?? null,
      },
      records: [register.file],
    })),
    empty: `The register tells no rate of ${register.name}.`,
  }
}
