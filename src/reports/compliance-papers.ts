import { compareText } from '../ledger/compare-text.js'
import type { DistrictView } from '../ledger/district-view.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { Loaded } from '../ledger/loaded.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Row, Table } from '../types.js'
import type { ProductFacts } from './compliance-papers-collect.js'
import type { Part, ProductInPeriod } from './compliance-papers-parts.js'
import { labelParts, registrationParts, sheetParts } from './compliance-papers-parts.js'
import type { Outcome } from './outcomes.js'
import { absentInWords, eachDay, worstOf } from './outcomes.js'
import type { Period } from './period.js'

/** Label, safety data sheet and registration of every product that was used in a period or is kept at a site. */
export function papersTable(
  facts: readonly (readonly ProductFacts[])[],
  district: DistrictView,
  period: Period,
  asOf: Day,
): Table {
  const byProduct = new Map<string, ProductFacts[]>()
  for (const fact of facts.flat()) getOrMake(byProduct, fact.product, () => []).push(fact)
  const last = Math.min(period.to, asOf)
  const rows = [...byProduct]
    .map(([id, of]) => ({ id, of, product: district.products.get(id) }))
    .sort(
      (a, b) =>
        compareText(a.product?.data.name ?? a.id, b.product?.data.name ?? b.id) || compareText(a.id, b.id),
    )
    .flatMap(({ id, of, product }) =>
      product
        ? rowsOf(product, of, district, { from: period.from, to: last })
        : [unknownRow(id, of, district)],
    )
  return {
    id: 'papers',
    title: 'Labels, safety data sheets and registrations of products used or kept',
    columns: [
      { id: 'product', title: 'product' },
      { id: 'paper', title: 'of it' },
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'what the records show' },
      { id: 'id', title: 'id', for: 'work' },
      { id: 'kind', title: 'kind', for: 'work' },
      { id: 'uses', title: 'uses', for: 'work', decimals: 0 },
      { id: 'first-use', title: 'first use', for: 'work' },
      { id: 'last-use', title: 'last use', for: 'work' },
      { id: 'kept-at', title: 'kept at', for: 'work' },
      { id: 'in-force', title: 'in force', for: 'work' },
      { id: 'file', title: 'file', for: 'work' },
      { id: 'in-data', title: 'label in data', for: 'work' },
      { id: 'age', title: 'age of sheet', for: 'work' },
      { id: 'sections', title: 'sixteen headings', for: 'work' },
      { id: 'number', title: 'registration number', for: 'work' },
      { id: 'state', title: 'registered in the state', for: 'work' },
      { id: 'special-local-need', title: 'special local need', for: 'work' },
      { id: 'cancellation', title: 'not cancelled', for: 'work' },
      { id: 'clauses', title: 'asked by', for: 'work' },
    ],
    rows,
    empty: 'No product is recorded as used in this period, and none as kept.',
  }
}

export const papersCautions: readonly string[] = [
  'Follow the label: the one on the container decides. Whether a paper in the ledger is the one that came with the container is not told here.',
  'A registration is shown as the register of this ledger has it; EPA and the state hold the registers that count.',
]

function rowsOf(
  product: Loaded<'product'>,
  of: readonly ProductFacts[],
  district: DistrictView,
  { from, to }: Period,
): Row[] {
  const days = eachDay(of.flatMap((fact) => fact.days))
  const about: ProductInPeriod = {
    product,
    district,
    from,
    to,
    days,
    // What is only kept is looked at as it lies there on the last day.
    judgedOn: days.length > 0 ? days : [to],
    cancelledDays: eachDay(of.flatMap(({ cancelledDays }) => cancelledDays)),
    states: of.flatMap(({ states }) => states),
  }
  const { kind } = product.data
  return [
    rowOf('label', labelParts(about), about, of),
    rowOf('sheet', sheetParts(about), about, of),
    rowOf('registration', registrationParts(about), about, of),
  ].map((row) => ({ ...row, cells: { ...row.cells, kind } }))
}

function rowOf(
  paper: string,
  parts: readonly Part[],
  { product, days }: ProductInPeriod,
  of: readonly ProductFacts[],
): Row {
  const outcome = worstOf(parts.map((part) => part.outcome))
  return {
    cells: {
      product: product.data.name,
      paper,
      outcome,
      why: inWords(parts, outcome),
      ...commonCells(product.id, days, of),
      ...Object.fromEntries(parts.map((part) => [part.id, part.outcome])),
      clauses: [...new Set(parts.flatMap(({ clauses }) => clauses ?? []))].join('; ') || null,
    },
    records: [product.file, ...new Set(of.flatMap(({ records }) => records))],
  }
}

function commonCells(id: string, days: readonly Day[], of: readonly ProductFacts[]) {
  const first = days[0]
  const last = days[days.length - 1]
  return {
    id,
    uses: of.reduce((sum, { uses }) => sum + uses, 0),
    'first-use': first === undefined ? null : isoOf(first),
    'last-use': last === undefined ? null : isoOf(last),
    'kept-at': of.flatMap(({ site, isKept }) => (isKept ? [site] : [])).join(' ') || null,
  }
}

/** What is not shown and what cannot be checked, or else what is shown. */
function inWords(parts: readonly Part[], outcome: Outcome): string {
  const wanted: readonly Outcome[] =
    outcome === 'not shown' || outcome === 'cannot be checked'
      ? ['not shown', 'cannot be checked']
      : [outcome]
  return wanted
    .flatMap((one) => parts.filter((part) => part.outcome === one))
    .map(({ says }) => says)
    .filter((says) => says !== '')
    .join('; ')
}

function unknownRow(id: string, of: readonly ProductFacts[], district: DistrictView): Row {
  return {
    cells: {
      product: id,
      paper: 'all',
      outcome: 'cannot be checked',
      why: absentInWords(district, 'product', id),
      ...commonCells(id, eachDay(of.flatMap(({ days }) => days)), of),
    },
    records: [...new Set(of.flatMap(({ records }) => records))],
  }
}
