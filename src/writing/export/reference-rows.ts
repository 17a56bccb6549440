import type { DistrictView } from '../../ledger/district-view.js'
import { measuresOf } from '../../ledger/product-measures.js'
import { serviceTermsOn } from '../../ledger/service-terms.js'
import type { SiteView } from '../../ledger/site-view.js'
import { numberOf } from '../../measure/fractions.js'
import { convert, parseQuantity } from '../../measure/quantities.js'
import { gramsOfOne } from '../../measure/rates.js'
import { activeTable } from '../../records/tables.js'
import { livesOf } from './lives.js'
import type { ExportRow } from './table-words.js'

export function siteRow(view: SiteView): ExportRow {
  const { name, kind } = view.site.data
  return {
    site: view.id,
    name,
    kind: kind ?? 'school',
    begins: view.begins,
    ends: view.ends ?? null,
    routine_visits: serviceTermsOn(view, view.asOf)?.contract['routine-visits'] ?? null,
  }
}

export function areaRows(view: SiteView): ExportRow[] {
  return [...view.areas.values()].map(({ id, facts, from, until }) => ({
    site: view.id,
    area: id,
    name: facts.name ?? null,
    kind: facts.kind,
    floor: facts.floor ?? null,
    extent_ft2: squareFeet(facts.extent),
    children: yesOrNo(facts.children),
    begins: from,
    ends: until ?? null,
  }))
}

export function deviceRows(view: SiteView): ExportRow[] {
  return livesOf(view.devices).map(({ device, life, counts }) => ({
    site: view.id,
    device: device.id,
    life,
    kind: device.kind,
    counts,
    traps: device.traps,
    pests: device.for.length === 0 ? null : device.for.join(' '),
    area: device.stands.at(-1)?.area ?? device.setFacts.area,
    set_on: device.set.day,
    taken_up_on: device.takenUp?.day ?? null,
  }))
}

export function productRows({ products }: Pick<DistrictView, 'products'>): ExportRow[] {
  return [...products.values()].map((product) => {
    const { data } = product
    const ofOne = gramsOfOne('volume', measuresOf(product))
    return {
      product: product.id,
      name: data.name,
      kind: data.kind,
      registration: data.registration ?? null,
      formulation: data.formulation ?? null,
      signal_word: data['signal-word'] ?? null,
      restricted_use: yesOrNo(data['restricted-use']),
      density_g_per_ml: ofOne ? numberOf(ofOne) : null,
    }
  })
}

export function ingredientRows({ products }: Pick<DistrictView, 'products'>): ExportRow[] {
  return [...products.values()].flatMap((product) =>
    Object.entries(product.data['active-ingredients'] ?? {}).map(([ingredient, { strength }]) => ({
      product: product.id,
      ingredient,
      name: activeTable().get(ingredient)?.name ?? ingredient,
      strength,
    })),
  )
}

function yesOrNo(word: string | undefined): boolean | null {
  return word === undefined ? null : word === 'yes'
}

function squareFeet(extent: string | undefined): number | null {
  const read = extent === undefined ? null : parseQuantity(extent)
  return (read && convert(read, 'ft2')?.value) ?? null
}
