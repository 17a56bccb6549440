import { numberOf } from '../measure/fractions.js'
import type { SignalWord } from '../records/use-words.js'
import { signalWords } from '../records/use-words.js'
import type { Cell, Column, Row, Table } from '../types.js'
import { pestName } from './pest-name.js'
import type { Amounts, WhyNot } from './use-amounts.js'
import { activeOf, amountsOf, ingredientsOf, inWords } from './use-amounts.js'
import type { Use } from './use-collect.js'

const noneRecorded = 'None recorded in this period.'

/** What is told of every group of uses, whatever they are grouped by. */
export const useColumns: readonly Column[] = [
  { id: 'applications', title: 'applied', decimals: 0 },
  { id: 'baits', title: 'bait put out', decimals: 0 },
  { id: 'amount', title: 'undiluted amount', for: 'people' },
  { id: 'active', title: 'active', for: 'people' },
  { id: 'without-amount', title: 'uses without amount', decimals: 0, for: 'work' },
  { id: 'weight', title: 'undiluted amount by weight', unit: 'g', decimals: 3, for: 'work' },
  { id: 'volume', title: 'undiluted amount by volume', unit: 'mL', decimals: 3, for: 'work' },
  { id: 'pieces', title: 'undiluted amount in pieces', for: 'work' },
  { id: 'weighed-pieces', title: 'pieces that the weight tells', for: 'work' },
  { id: 'active-weight', title: 'active ingredient', unit: 'g', decimals: 6, for: 'work' },
  {
    id: 'active-not-told',
    title: 'uses whose active ingredient is not wholly told',
    decimals: 0,
    for: 'work',
  },
  { id: 'active-why', title: 'why not', for: 'work' },
]

export function useCells(uses: readonly Use[]): Record<string, Cell> {
  const amounts = amountsOf(uses)
  const active = activeIn(uses)
  const without = uses.filter(({ isWhole }) => !isWhole).length
  const missing = without === 0 ? [] : [`${without} of ${uses.length} without amount`]
  return {
    applications: uses.filter(({ how }) => how === 'application').length,
    baits: uses.filter(({ how }) => how === 'bait in a device').length,
    'without-amount': without,
    amount: [...(amounts.text === null ? [] : [amounts.text]), ...missing].join('; ') || null,
    active: active.text,
    ...machineAmounts(amounts),
    'active-weight': active.grams,
    'active-not-told': active.notTold,
    'active-why': active.why,
  }
}

function machineAmounts({ grams, millilitres, pieces, weighedPieces }: Amounts): Record<string, Cell> {
  return { weight: grams, volume: millilitres, pieces, 'weighed-pieces': weighedPieces }
}

/** Active ingredient in uses; how many of them do not tell all of theirs, and why. */
export function activeIn(uses: readonly Use[], ingredient?: string) {
  const whyNot = new Set<WhyNot>()
  let notTold = 0
  for (const use of uses) {
    const reasons: ReadonlySet<WhyNot> = new Set([
      ...activeOf([use], ingredient).whyNot,
      ...(use.isWhole ? [] : (['no-amount'] as const)),
    ])
    if (reasons.size > 0) notTold++
    for (const reason of reasons) whyNot.add(reason)
  }
  const { grams } = activeOf(uses, ingredient)
  const size = grams ? numberOf(grams) : null
  const only = notTold === 0 ? '' : ` (${uses.length - notTold} of ${uses.length})`
  return {
    grams: size,
    notTold,
    why: inWords(whyNot),
    text: size === null ? null : `${Number(size.toPrecision(4))} g${only}`,
  }
}

/** Records behind a row, each once. */
export function recordsOf(uses: readonly Use[]): string[] {
  return [...new Set(uses.map(({ file }) => file))].sort()
}

/** Uses by whatever they are asked for; one that belongs to several groups is in each. */
function grouped<K>(uses: readonly Use[], keysOf: (use: Use) => readonly K[]): Map<K, Use[]> {
  const groups = new Map<K, Use[]>()
  for (const use of uses) {
    for (const key of new Set(keysOf(use))) {
      const group = groups.get(key)
      if (group) group.push(use)
      else groups.set(key, [use])
    }
  }
  return groups
}

function groupTable(
  id: string,
  title: string,
  column: Column,
  groups: readonly (readonly [string, readonly Use[]])[],
): Table {
  return {
    id,
    title,
    columns: [column, ...useColumns],
    rows: groups.map(([name, uses]) => ({
      cells: { [column.id]: name, ...useCells(uses) },
      records: recordsOf(uses),
    })),
    empty: noneRecorded,
  }
}

const nameOf = (uses: readonly Use[]) => uses[0]?.product.data.name ?? ''

const byName = (a: readonly [string, unknown], b: readonly [string, unknown]) =>
  a[0] < b[0] ? -1 : a[0] > b[0] ? 1 : 0

export function productTable(uses: readonly Use[]): Table {
  const groups = [...grouped(uses, ({ product }) => [product.id])].sort(
    ([idA, a], [idB, b]) => byName([nameOf(a), a], [nameOf(b), b]) || byName([idA, a], [idB, b]),
  )
  return {
    id: 'products',
    title: 'By product',
    columns: [
      { id: 'product', title: 'product' },
      { id: 'folder', title: 'folder', for: 'work' },
      { id: 'registration', title: 'registration number', for: 'work' },
      { id: 'kind', title: 'kind', for: 'work' },
      ...useColumns,
    ],
    rows: groups.flatMap(([folder, of]): Row[] => {
      const product = of[0]?.product
      if (!product) return []
      const { name, registration, kind } = product.data
      return [
        {
          cells: { product: name, folder, registration: registration ?? null, kind, ...useCells(of) },
          records: [product.file, ...recordsOf(of)],
        },
      ]
    }),
    empty: noneRecorded,
  }
}

export function pestUseTable(uses: readonly Use[]): Table {
  const groups = [
    ...grouped(uses, ({ pests }) => (pests.length === 0 ? ['not stated'] : pests.map(pestName))),
  ]
  return groupTable('pests', 'By pest', { id: 'pest', title: 'pest' }, groups.sort(byName))
}

export function methodTable(uses: readonly Use[]): Table {
  const groups = [...grouped(uses, ({ method }) => [method as string])]
  return groupTable('methods', 'By method', { id: 'method', title: 'method' }, groups.sort(byName))
}

type Hazard = SignalWord | 'not recorded'

/** Signal words in the order of what they stand for; a label may bear none. */
const hazards: readonly (readonly [Hazard, string])[] = [
  ...signalWords.map((word) => [word, word === 'none' ? 'none printed' : word.toUpperCase()] as const),
  ['not recorded', 'not recorded'],
]

const hazardOf = ({ product }: Use): Hazard => product.data['signal-word'] ?? 'not recorded'

export function hazardTable(uses: readonly Use[]): Table {
  const groups = grouped(uses, (use) => [hazardOf(use)])
  return groupTable(
    'hazards',
    'By signal word, as printed on the label',
    { id: 'signal-word', title: 'signal word' },
    hazards.flatMap(([word, name]) => {
      const of = groups.get(word)
      return of ? [[name, of] as const] : []
    }),
  )
}

/** The strongest signal word printed on what was used, and how many uses are of products without one in the register. */
export function strongestHazard(uses: readonly Use[]) {
  const used = new Set(uses.map(hazardOf))
  return {
    word: signalWords.find((word) => used.has(word)),
    notRecorded: uses.filter((use) => hazardOf(use) === 'not recorded').length,
  }
}

/** Each active ingredient apart, and why it is not told where it is not. */
export function ingredientTable(uses: readonly Use[]): Table {
  const withNone = uses.filter(({ product }) => ingredientsOf(product).length === 0)
  const groups = grouped(uses, ({ product }) => ingredientsOf(product).map(({ id }) => id))
  const rows = [...groups].sort(byName).map(([id, of]): Row => {
    const told = activeIn(of, id)
    const name = ingredientsOf(of[0]?.product as Use['product']).find((one) => one.id === id)?.name ?? id
    return ingredientRow(name, of, told)
  })
  if (withNone.length > 0) rows.push(ingredientRow('not in the register', withNone, activeIn(withNone)))
  return {
    id: 'active-ingredients',
    title: 'Active ingredients',
    columns: [
      { id: 'ingredient', title: 'active ingredient' },
      { id: 'weight-shown', title: 'weight', for: 'people' },
      { id: 'weight', title: 'weight', unit: 'g', decimals: 6, for: 'work' },
      { id: 'uses', title: 'uses', decimals: 0 },
      { id: 'not-told', title: 'not told', decimals: 0 },
      { id: 'why', title: 'why not' },
      { id: 'products', title: 'products', for: 'work' },
    ],
    rows,
    empty: noneRecorded,
  }
}

function ingredientRow(name: string, of: readonly Use[], told: ReturnType<typeof activeIn>): Row {
  const products = new Map(of.map(({ product }) => [product.id, product]))
  return {
    cells: {
      ingredient: name,
      'weight-shown': told.grams === null ? null : `${Number(told.grams.toPrecision(4))} g`,
      weight: told.grams,
      uses: of.length,
      'not-told': told.notTold,
      why: told.why,
      products: [...products.keys()].sort().join('; '),
    },
    records: [...[...products.values()].map(({ file }) => file).sort(), ...recordsOf(of)],
  }
}
