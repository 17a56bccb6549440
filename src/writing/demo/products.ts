import { createHash } from 'node:crypto'
import { sheetHeadings } from '../../rules/products/sheet-headings.js'
import type { Day } from '../../types.js'
import { dateOf, dateText, dayOf } from './days.js'
import type { Trouble } from './trouble.js'
import type { DemoFile } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

interface InventedProduct {
  readonly id: string
  readonly name: string
  readonly kind: 'pesticide' | 'lure'
  readonly registration?: string
  readonly active?: Readonly<Record<string, string>>
  readonly formulation: string
  /** Weight of one block. */
  readonly block?: string
  readonly use: string
  /** What the label says, as data. */
  readonly says?: YamlMap
}

/** Products of an invented maker. Company number 99999 stands for none. */
export const products: readonly InventedProduct[] = [
  {
    id: 'gel-a',
    name: 'Invented Gel Bait A',
    kind: 'pesticide',
    registration: '99999-1',
    active: { indoxacarb: '0.6 %' },
    formulation: 'gel',
    use: 'cockroaches, in cracks and crevices indoors',
    says: {
      places: ['indoors'],
      'pest-groups': ['cockroach'],
      methods: ['crack-and-crevice', 'void'],
      rates: { placements: { 'at-most': '0.5 g', per: 'placement' } },
      'out-of-reach': 'yes',
    },
  },
  {
    id: 'gel-b',
    name: 'Invented Gel Bait B',
    kind: 'pesticide',
    registration: '99999-2',
    active: { hydramethylnon: '2 %' },
    formulation: 'gel',
    use: 'cockroaches, in cracks and crevices indoors',
    says: {
      places: ['indoors'],
      'pest-groups': ['cockroach'],
      methods: ['crack-and-crevice', 'void'],
      rates: { placements: { 'at-most': '0.5 g', per: 'placement' } },
      'out-of-reach': 'yes',
    },
  },
  {
    id: 'ant-bait-c',
    name: 'Invented Ant Bait C',
    kind: 'pesticide',
    registration: '99999-3',
    active: { 'boric-acid': '5 %' },
    formulation: 'bait-station',
    use: 'ants, in stations out of reach',
    says: {
      places: ['indoors', 'outdoors'],
      'pest-groups': ['ant'],
      methods: ['in-a-station'],
      rates: { stations: { 'at-most': '12 station', per: 'area' } },
    },
  },
  {
    id: 'block-x',
    name: 'Invented Block X',
    kind: 'pesticide',
    registration: '99999-4',
    active: { diphacinone: '0.005 %' },
    formulation: 'bait-block',
    block: '28 g',
    use: 'rats, in locked stations outdoors',
    says: {
      places: ['outdoors', 'loading-dock', 'waste'],
      'pest-groups': ['rodent'],
      methods: ['in-a-station'],
      rates: { stations: { 'at-most': '16 block', per: 'station' } },
      'out-of-reach': 'yes',
    },
  },
  {
    id: 'dust-d',
    name: 'Invented Void Dust D',
    kind: 'pesticide',
    registration: '99999-5',
    active: { 'silica-gel': '90 %' },
    formulation: 'dust',
    use: 'cockroaches, in closed wall voids',
    says: {
      places: ['indoors'],
      'pest-groups': ['cockroach', 'occasional', 'fabric'],
      methods: ['void', 'crack-and-crevice'],
      rates: { voids: { 'at-most': '2 oz', per: 'application' } },
      'keep-out-until-dry': 'yes',
    },
  },
  {
    id: 'aerosol-e',
    name: 'Invented Wasp Aerosol E',
    kind: 'pesticide',
    registration: '99999-6',
    active: { pyrethrins: '0.5 %' },
    formulation: 'aerosol',
    use: 'nests of stinging insects outdoors',
    says: {
      places: ['indoors', 'outdoors', 'loading-dock', 'waste'],
      'pest-groups': ['stinging'],
      methods: ['spot'],
      rates: { nests: { 'at-most': '8 fl oz', per: 'application' } },
      'spot-at-most': '4 ft2',
      'keep-out-until-dry': 'yes',
      'with-people-present': 'no',
    },
  },
  {
    id: 'soap-f',
    name: 'Invented Plant Soap F',
    kind: 'pesticide',
    registration: '99999-7',
    active: { 'potassium-salts-of-fatty-acids': '2 %' },
    formulation: 'ready-to-use-liquid',
    use: 'potted plants, off the property',
    says: { places: ['outdoors'], 'pest-groups': ['plant', 'fly'], methods: ['spot'] },
  },
  {
    id: 'lure-m',
    name: 'Invented Moth Lure M',
    kind: 'lure',
    formulation: 'solid',
    use: 'pheromone traps for stored-product moths',
  },
]

/** A new label and a new sheet come every two years, from January of the even years. */
function revisions(from: Day, until: Day): Day[] {
  const { year } = dateOf(from)
  const days: Day[] = []
  const first = year - (year % 2)
  // A ledger that begins in the first days of an even year begins with the label of two years before.
  const begin = dayOf(first, 1, 15) <= from ? first : first - 2
  for (let even = begin; dayOf(even, 1, 15) <= until; even += 2) days.push(dayOf(even, 1, 15))
  return days
}

/** Days within the span on which every product gets a new label and sheet. */
export function productRevisions(from: Day, until: Day): Day[] {
  return revisions(from, until).filter((day) => day > from)
}

function labelText(product: InventedProduct, day: Day): string {
  return `${product.name}
Invented label, revision ${dateText(day)}. This product does not exist.

For use against ${product.use}.
${product.registration ? `Registration 99999 belongs to no company: ${product.registration}\n` : ''}${product.block ? `Each block weighs ${product.block}.\n` : ''}Keep out of reach of children.
`
}

/** The sixteen headings of 29 CFR 1910.1200, appendix D, over invented content. */
function sheetText(product: InventedProduct, day: Day): string {
  const sections = sheetHeadings.map((heading, index) => `${index + 1}. ${heading}\n   Invented content.\n`)
  return `Safety data sheet: ${product.name}\nInvented sheet, revised ${dateText(day)}. This product does not exist.\n\n${sections.join('\n')}`
}

function sha256Of(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

function spans(days: readonly Day[]): { day: Day; from: string; until?: string }[] {
  return days.map((day, index) => {
    const next = days[index + 1]
    return { day, from: dateText(day), ...(next === undefined ? {} : { until: dateText(next - 1) }) }
  })
}

/** What the spoiling pass does to a product; nothing in a clean ledger. */
export interface ProductFaults {
  readonly noLabel: boolean
  readonly changedSheet: boolean
}

export function productFaults(trouble: Trouble, day: Day): ReadonlyMap<string, ProductFaults> {
  return new Map(
    products
      .filter((product) => product.kind === 'pesticide')
      .map((product) => [
        product.id,
        {
          noLabel: trouble.happens('label file missing', '', day, product.id),
          changedSheet: trouble.happens('safety data sheet changed', '', day, product.id),
        },
      ]),
  )
}

/** product.yaml and the labels and sheets beside it, as they stand on a day. */
export function productFiles(
  product: InventedProduct,
  start: Day,
  day: Day,
  faults: ProductFaults | undefined,
): DemoFile[] {
  const folder = `products/${product.id}`
  const dated = spans(revisions(start, day))
  const files: DemoFile[] = []
  const labels: YamlMap[] = []
  const sheets: YamlMap[] = []
  for (const { day: revised, ...span } of dated) {
    const label = labelText(product, revised)
    const sheet = sheetText(product, revised)
    const labelName = `label-${span.from.slice(0, 7)}.txt`
    const sheetName = `sds-${span.from.slice(0, 7)}.txt`
    labels.push({
      ...span,
      file: labelName,
      sha256: sha256Of(label),
      revision: `rev. ${span.from.slice(0, 7)}`,
      says: product.says,
    })
    sheets.push({
      ...span,
      file: sheetName,
      sha256: sha256Of(sheet),
      revised: span.from,
      sections: sheetHeadings.map((_, index) => index + 1),
    })
    if (!faults?.noLabel) files.push({ path: `${folder}/${labelName}`, text: label })
    const text = faults?.changedSheet
      ? sheet.replace('Invented content.', 'Invented content, changed.')
      : sheet
    files.push({ path: `${folder}/${sheetName}`, text })
  }
  const record: YamlMap = {
    name: product.name,
    kind: product.kind,
    registration: product.registration,
    ...(product.kind === 'pesticide' ? { states: { OR: [{ from: '2000-01-01' }] } } : {}),
    maker: 'Invented Products',
    'active-ingredients':
      product.active &&
      Object.fromEntries(Object.entries(product.active).map(([name, strength]) => [name, { strength }])),
    formulation: product.formulation,
    'weight-per': product.block === undefined ? undefined : { block: product.block },
    ...(product.kind === 'pesticide'
      ? { 'signal-word': 'caution', 'restricted-use': 'no', labels, sds: sheets }
      : {}),
    notes: 'Invented. It stands for no real product.',
  }
  const kept = product.kind === 'pesticide' ? files : []
  return [{ path: `${folder}/product.yaml`, text: mapText(record) }, ...kept]
}
