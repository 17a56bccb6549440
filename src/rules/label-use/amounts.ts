import type { LabelSays } from '../../ledger/labels.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { Quantity } from '../../measure/quantities.js'
import { parseQuantity } from '../../measure/quantities.js'
import type { Rate } from '../../measure/rates.js'
import { counted, inUnitOf, shown, sumAs, sumsOf } from '../../measure/rates.js'
import type { Place } from '../../types.js'

type RateSays = NonNullable<LabelSays['rates']>[string]

/** A rate of a label, read. `per` words that are no extent count what they name, one by one. */
export interface LabelRate extends Rate {
  readonly name: string
  readonly says: RateSays
}

/** The rates of a label that hold for the method of a treatment. */
export function ratesFor({ rates }: LabelSays, { method }: Treatment): LabelRate[] {
  return Object.entries(rates ?? {}).flatMap(([name, says]) => {
    const most = parseQuantity(says['at-most'])
    const forOther = says.methods !== undefined && !says.methods.includes(method)
    // What is per station says nothing of what lies outside one.
    const noStation = says.per === 'station' && method !== 'in-a-station'
    if (!most || forOther || noStation) return []
    return [{ name, says, most, per: parseQuantity(says.per) ?? counted(1) }]
  })
}

/** An amount as recorded, and on what it was used: in one area, or in all. */
export interface UsedOn {
  readonly area: string | undefined
  readonly amounts: readonly Quantity[]
  readonly on: readonly Quantity[]
  /** `on 3 ft2`, `in 8 placements`. */
  readonly onWhat: string
  readonly at: Place
}

/**
 * Amounts in each area, and last the whole, each with that on which a rate is counted. Where a record does not tell
 * the amount or that on which it was used, it is left out: nothing is guessed.
 */
export function usedOn(treatment: Treatment, per: RateSays['per']): UsedOn[] {
  const found: UsedOn[] = []
  for (const { id, amount } of treatment.areas) {
    const quantity = amount === undefined ? null : parseQuantity(amount)
    const on = sizeOfOne(treatment, id, per)
    if (quantity && on)
      found.push({
        area: id,
        amounts: [quantity],
        on: [on],
        onWhat: inWords([on], per),
        at: treatment.application ? treatment.at('areas', id, 'amount') : treatment.at('product'),
      })
  }
  const amounts = wholeAmount(treatment)
  const on = wholeSize(treatment, per)
  if (amounts && on)
    found.push({
      area: undefined,
      amounts,
      on,
      onWhat: inWords(on, per),
      at: treatment.at(treatment.amount === undefined ? 'areas' : 'amount'),
    })
  return found
}

/** The amount in all: as recorded, or in each of the areas, if every one tells it. */
export function wholeAmount(treatment: Treatment): readonly Quantity[] | undefined {
  return all(
    treatment.amount === undefined ? treatment.areas.map(({ amount }) => amount) : [treatment.amount],
  )
}

/** Every one of them read; undefined if there is none, or one is missing. */
function all(texts: readonly (string | undefined)[]): readonly Quantity[] | undefined {
  const read = texts.flatMap((text) => (text === undefined ? [] : (parseQuantity(text) ?? [])))
  return read.length === texts.length && read.length > 0 ? read : undefined
}

function sizeOfOne(treatment: Treatment, id: string, per: RateSays['per']): Quantity | null {
  const facts = treatment.application?.areas[id]
  if (per === 'area') return counted(1)
  if (per === 'placement' || per === 'station') {
    const places = treatment.device ? treatment.device.traps : facts?.placements
    return places === undefined ? null : counted(places)
  }
  return parseQuantity(per)?.dimension === 'area' && facts?.extent !== undefined
    ? parseQuantity(facts.extent)
    : null
}

/** That on which a rate is counted in all; undefined where the record does not tell it. */
export function wholeSize(treatment: Treatment, per: RateSays['per']): readonly Quantity[] | undefined {
  const { application } = treatment
  if (per === 'application') return [counted(1)]
  const stated = {
    area: application?.['treated-extent'],
    length: application?.['treated-length'],
    volume: application?.['treated-space'],
  }[String(parseQuantity(per)?.dimension)]
  if (stated !== undefined) return all([stated])
  const sizes = treatment.areas.map(({ id }) => sizeOfOne(treatment, id, per))
  return sizes.every((size) => size !== null) ? sizes : undefined
}

const counts: Partial<Record<RateSays['per'], readonly [string, string]>> = {
  placement: ['placement', 'placements'],
  station: ['station', 'stations'],
  area: ['area', 'areas'],
}

/** `on 3 ft2`, `in 8 placements`, `along 120 ft`. */
function inWords(on: readonly Quantity[], per: RateSays['per']): string {
  const [first] = on
  if (per === 'application' || !first) return 'in one application'
  const whole = inUnitOf(sumAs(sumsOf(on), first).size, first)
  const [one, many] = counts[per] ?? []
  if (one) return `in ${whole.value} ${whole.value === 1 ? one : many}`
  const word = { length: 'along', volume: 'in' }[String(first.dimension)] ?? 'on'
  return `${word} ${shown(whole)}`
}
