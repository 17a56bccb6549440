import { numberOf } from '../measure/fractions.js'
import type { Quantity } from '../measure/quantities.js'
import { inUnitOf, sumAs, sumsOf } from '../measure/rates.js'
import type { Cell, Table } from '../types.js'
import type { Portion } from './use-amounts.js'
import { activeOf, amountsOf } from './use-amounts.js'
import type { SiteFacts, Use } from './use-collect.js'
import { recordsOf, useCells, useColumns } from './use-tables.js'

const thousandSquareFeet: Quantity = { value: 1, unit: '1000 ft2', dimension: 'area' }

const noSite = 'No site was examined.'

/** Site by site, those without a use too. */
export function siteTable(sites: readonly SiteFacts[], uses: readonly Use[]): Table {
  return {
    id: 'sites',
    title: 'By site',
    columns: [{ id: 'site', title: 'site' }, ...useColumns],
    rows: sites.map((site) => {
      const of = uses.filter(({ siteId }) => siteId === site.id)
      return { cells: { site: site.id, ...useCells(of) }, records: [site.file, ...recordsOf(of)] }
    }),
    empty: noSite,
  }
}

/** Amounts on the size of the site, as far as that is recorded. */
export function perAreaTable(sites: readonly SiteFacts[], uses: readonly Use[]): Table {
  return {
    id: 'per-1000-ft2',
    title: 'Per 1,000 ft2 of the areas of a site whose extent is recorded',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'areas-measured', title: 'areas with extent' },
      { id: 'extent', title: 'extent', unit: 'ft2', decimals: 0 },
      { id: 'per-1000-ft2', title: 'undiluted, per 1,000 ft2', for: 'people' },
      { id: 'left-out', title: 'uses left out', decimals: 0 },
      { id: 'weight-rate', title: 'by weight', unit: 'g per 1000 ft2', decimals: 4, for: 'work' },
      { id: 'volume-rate', title: 'by volume', unit: 'mL per 1000 ft2', decimals: 4, for: 'work' },
      { id: 'pieces-rate', title: 'in pieces, per 1000 ft2', for: 'work' },
      { id: 'active-rate', title: 'active ingredient', unit: 'g per 1000 ft2', decimals: 6, for: 'work' },
    ],
    rows: sites.map((site) => {
      const of = uses.filter(({ siteId }) => siteId === site.id)
      return { cells: { site: site.id, ...rateCells(site, of) }, records: [site.file, ...recordsOf(of)] }
    }),
    empty: noSite,
  }
}

/**
 * What was used in areas of known size, on the size of all such areas of the site. What was used elsewhere is left out
 * of the rate, and so is its area, so that both halves speak of the same places.
 */
function rateCells({ extents }: SiteFacts, uses: readonly Use[]): Record<string, Cell> {
  const known = extents.flatMap((extent) => (extent ? [extent] : []))
  const size = inUnitOf(sumAs(sumsOf(known), thousandSquareFeet).size, thousandSquareFeet).value
  const measured = { 'areas-measured': `${known.length} of ${extents.length}` }
  if (!(size > 0)) return { ...measured, 'left-out': uses.length }
  const portions: Portion[] = uses.map(({ product, parts }) => ({
    product,
    amounts: parts.flatMap(({ extent, amount }) => (extent && amount ? [amount] : [])),
  }))
  const leftOut = uses.filter(({ parts }) => parts.some(({ extent, amount }) => !extent || !amount)).length
  const { grams, millilitres, pieceCounts } = amountsOf(portions)
  const active = activeOf(portions).grams
  const rate = (total: number | null) => (total === null ? null : total / size)
  const pieces = [...pieceCounts].map(([kind, count]) => `${Number((count / size).toPrecision(4))} ${kind}`)
  const texts = [
    ...(grams === null ? [] : [`${Number((grams / size).toPrecision(4))} g`]),
    ...(millilitres === null ? [] : [`${Number((millilitres / size).toPrecision(4))} mL`]),
    ...pieces,
  ]
  return {
    ...measured,
    extent: size * 1000,
    'weight-rate': rate(grams),
    'volume-rate': rate(millilitres),
    'pieces-rate': pieces.length === 0 ? null : pieces.join('; '),
    'active-rate': rate(active ? numberOf(active) : null),
    'left-out': leftOut,
    'per-1000-ft2': texts.length === 0 ? null : texts.join('; '),
  }
}
