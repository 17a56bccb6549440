import type { Source } from '../files/source.js'
import type { LabelInForce } from '../ledger/labels.js'
import { labelOn } from '../ledger/labels.js'
import type { Loaded } from '../ledger/loaded.js'
import { measuresOf } from '../ledger/product-measures.js'
import { inventoryOf, readOne } from '../ledger/read-records.js'
import { dayIn, inForce } from '../ledger/spans.js'
import type { Quantity } from '../measure/quantities.js'
import { parseQuantity } from '../measure/quantities.js'
import type { ProductMeasures } from '../measure/rates.js'
import type { Day } from '../types.js'

/** A limit of a label, as the register tells it. */
export interface RegisterRate {
  readonly name: string
  readonly most: Quantity
  readonly per: string
  readonly methods: readonly string[]
}

/** What the register tells of a product that bears on mixing it. */
export interface RegisterProduct {
  readonly id: string
  readonly name: string
  readonly file: string
  readonly strengths: ReadonlyMap<string, Quantity>
  readonly measures: ProductMeasures
  readonly isRestricted: boolean
  /** The day from which it is recorded as cancelled, where that has come. */
  readonly cancelledOn: string | undefined
  /** The file of the label in force, with its revision. */
  readonly label: string | undefined
  readonly rates: readonly RegisterRate[]
}

/** Products of the register, by id; whether a product can be read shows when it is looked up. */
export function registerIds(source: Source): readonly string[] {
  return inventoryOf(source)
    .district.filter(({ kind }) => kind === 'product')
    .map(({ id }) => id)
}

/** Null when the record is there and cannot be used. */
export function registerProduct(source: Source, id: string, asOf: Day): RegisterProduct | null {
  const path = inventoryOf(source).district.find((found) => found.kind === 'product' && found.id === id)
  const read = path && readOne(source, path, [])
  if (!path || !read) return null
  const product = read as Loaded<'product'>
  const { data, file } = product
  const label = inForce(data.labels, asOf)
  const cancelledOn = data.cancelled?.on
  return {
    id,
    name: data.name,
    file,
    strengths: new Map(
      Object.entries(data['active-ingredients'] ?? {}).flatMap(([name, { strength }]) => {
        const told = parseQuantity(strength)
        return told ? [[name, told] as const] : []
      }),
    ),
    measures: measuresOf(product),
    isRestricted: data['restricted-use'] === 'yes',
    cancelledOn: cancelledOn !== undefined && dayIn(cancelledOn) <= asOf ? cancelledOn : undefined,
    label: label && `${label.file}${label.revision === undefined ? '' : `, ${label.revision}`}`,
    rates: ratesOf(labelOn(product, asOf)),
  }
}

function ratesOf(label: LabelInForce | undefined): RegisterRate[] {
  return Object.entries(label?.says.rates ?? {}).flatMap(([name, rate]) => {
    const most = parseQuantity(rate['at-most'])
    return most ? [{ name, most, per: rate.per, methods: rate.methods ?? [] }] : []
  })
}
