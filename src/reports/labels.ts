import type { Source } from '../files/source.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import type { Report, Row, Table } from '../types.js'
import { areaName } from './area-name.js'
import { notExaminedOf } from './not-examined.js'
import { readOnlySite } from './only-site.js'
import type { ReportOptions } from './options.js'
import { periodOf } from './period.js'
import type { Paper } from './product-papers.js'
import { labelOf, sheetOf } from './product-papers.js'
import type { ProductAtSite } from './products-at-site.js'
import { productsAtSite, storageDay } from './products-at-site.js'

const cautions = [
  // The number of the poison control centers of the United States, from memory.
  'In an emergency call 911 or poison control: 1-800-222-1222 (US Poison Help).',
  'Follow label and safety data sheet; the label on the container decides.',
]
const unproven = '`there`: in its place; no SHA-256 is recorded that would show a change.'

/** The page to have at hand for whoever asks what is used or kept at a site: its labels and safety data sheets. */
export function labelsReport(source: Source, options: ReportOptions, site: string): Report {
  const { from } = periodOf(options)
  // Other sites have nothing to do with this page, and what cannot be read there does not touch it.
  const { read, view } = readOnlySite(source, site, options)
  const products = view ? productsAtSite(view, from).map((product) => listed(view, product)) : []
  const wrong = products.flatMap(({ wrong: what, at }) => what.map((text) => ({ at, text })))
  const papers = products.flatMap((product) => product.papers)
  const unreadable = papers.filter(({ present }) => present === 'could not be read')
  return {
    report: 'labels',
    title: `Labels and safety data sheets, ${view?.site.data.name ?? site}`,
    headline: view ? headlineOf(products.length, wrong.length) : 'This site could not be examined.',
    asOf: isoOf(options.asOf),
    period: { from: isoOf(from), to: isoOf(options.asOf) },
    facts: [],
    tables: [
      productTable(view, products),
      paperTable(view, products),
      keptTable(view, products),
      {
        id: 'wrong',
        title: 'What is wrong',
        columns: [
          { id: 'product', title: 'product' },
          { id: 'what', title: 'what' },
        ],
        rows: wrong.map(({ at, text }) => ({ cells: { product: at.name, what: text }, records: at.records })),
        empty: view
          ? 'Nothing: each paper asked for is there, in force, and not known as changed.'
          : 'Not examined.',
      },
    ],
    cautions: papers.some(({ intact }) => intact === 'not stated') ? [...cautions, unproven] : cautions,
    notExamined: [
      ...notExaminedOf(read),
      ...unreadable.map(({ path }) => `${path}: the file could not be read.`),
    ],
    incomplete: read.notChecked.length > 0 || unreadable.length > 0,
  }
}

interface Listed {
  readonly at: ProductAtSite
  /** Its record is in the register and cannot be used. */
  readonly isBroken: boolean
  readonly papers: readonly Paper[]
  readonly wrong: readonly string[]
}

function listed(view: SiteView, at: ProductAtSite): Listed {
  const { district } = view
  if (!at.product) {
    const isBroken = at.id !== undefined && district.broken.has(`product ${at.id}`)
    const what = isBroken
      ? 'its record in the register cannot be used'
      : 'is not in the register: no label and no sheet of it can be looked up'
    return { at, isBroken, papers: [], wrong: [what] }
  }
  const papers = [labelOf(district, at.product, view.asOf), sheetOf(district, at.product, view.asOf)]
  return {
    at,
    isBroken: false,
    papers,
    wrong: papers.flatMap(({ wrong }) => (wrong === undefined ? [] : [wrong])),
  }
}

function headlineOf(products: number, wrong: number): string {
  const counted =
    products === 1
      ? 'One product was used or is kept here'
      : `${products} products were used or are kept here`
  if (products === 0) return 'No product was used here, and none is recorded as kept here.'
  if (wrong === 0) return `${counted}; nothing is wrong with the papers.`
  return `${counted}; ${wrong === 1 ? 'one thing is' : `${wrong} things are`} wrong.`
}

function keptTable(view: SiteView | undefined, products: readonly Listed[]): Table {
  const day = view && storageDay(view)
  const rows = products.flatMap(({ at }) =>
    at.stored.map(({ area, amount, file }) => ({
      cells: {
        where: view ? areaName(view, area) : area,
        product: at.name,
        amount: amount ?? null,
        on: day === undefined ? null : isoOf(day),
      },
      records: [file],
    })),
  )
  return {
    id: 'kept',
    title: 'Kept here',
    columns: [
      { id: 'where', title: 'where' },
      { id: 'product', title: 'product' },
      { id: 'amount', title: 'amount' },
      { id: 'on', title: 'written down' },
    ],
    rows,
    empty: !view
      ? 'Not examined.'
      : day === undefined
        ? 'Nothing is recorded of what is kept here.'
        : `Nothing, as written down on ${isoOf(day)}.`,
  }
}

function productTable(view: SiteView | undefined, products: readonly Listed[]): Table {
  return {
    id: 'products',
    title: 'Products',
    columns: [
      { id: 'product', title: 'product' },
      { id: 'number', title: 'EPA number', for: 'people' },
      { id: 'last-used', title: 'last used' },
      { id: 'folder', title: 'folder' },
      { id: 'kind', title: 'kind', for: 'work' },
      { id: 'registration', title: 'registration', for: 'work' },
      { id: 'used-in', title: 'used in', for: 'work' },
    ],
    rows: view ? products.map((one) => productRow(view, one)) : [],
    empty: view ? 'None.' : 'Not examined.',
  }
}

function productRow(view: SiteView, { at, isBroken }: Listed): Row {
  const product = at.product?.data
  const { lastUse } = at
  const names = (areas: readonly string[]) =>
    [...new Set(areas)].map((area) => areaName(view, area)).join(', ') || null
  return {
    cells: {
      product: at.name,
      number: isBroken ? 'not readable' : numberOf(product),
      'last-used': lastUse === undefined ? null : isoOf(lastUse.day),
      folder: product ? (at.id ?? null) : null,
      kind: product?.kind ?? null,
      registration: product?.registration ?? null,
      'used-in': names(lastUse?.areas ?? []),
    },
    records: at.records,
  }
}

/** What poison control asks for: the registration number; where there is none, what the product is. */
function numberOf(product: RecordOf<'product'> | undefined): string {
  if (!product) return 'not in the register'
  if (product.registration !== undefined) return product.registration
  switch (product.kind) {
    case 'pesticide':
    case 'antimicrobial':
      return 'not recorded'
    case 'minimum-risk':
      return 'minimum risk'
    case 'living-agent':
      return 'living agent'
    case 'lure':
      return 'lure'
    case 'device':
      return 'trap'
    case 'caulk':
      return 'sealant'
    case 'other-material':
      return 'no pesticide'
  }
}

function paperTable(view: SiteView | undefined, products: readonly Listed[]): Table {
  return {
    id: 'papers',
    title: 'Their labels and safety data sheets, in the folder products/ of the ledger',
    columns: [
      { id: 'paper', title: 'paper' },
      { id: 'name', title: 'file', for: 'people' },
      { id: 'revision', title: 'revision' },
      { id: 'since', title: 'since' },
      { id: 'state', title: 'state' },
      { id: 'product', title: 'product', for: 'work' },
      { id: 'file', title: 'file', for: 'work' },
      { id: 'present', title: 'present', for: 'work' },
      { id: 'intact', title: 'intact', for: 'work' },
      { id: 'current', title: 'current', for: 'work' },
    ],
    rows: products.flatMap(({ at, papers }) => {
      const shown = papers.filter(({ file, wrong }) => file !== undefined || wrong !== undefined)
      if (papers.length > 0 && shown.length === 0) return [noPaperRow(at)]
      return shown.map((paper) => paperRow(at, paper))
    }),
    empty: view ? 'None.' : 'Not examined.',
  }
}

function paperRow(at: ProductAtSite, paper: Paper): Row {
  return {
    cells: {
      paper: paper.kind === 'label' ? 'label' : 'sheet',
      name: `${at.id}/${paper.file ?? ''}`,
      revision: paper.revision ?? null,
      since: paper.from ?? null,
      state: stateOf(paper),
      product: at.id ?? null,
      file: paper.path ?? null,
      present: paper.present,
      intact: paper.intact,
      current: paper.current,
    },
    records: at.product ? [at.product.file] : [],
  }
}

/** A trap, a lure or a sealant for which no paper is kept, and none is asked. */
function noPaperRow(at: ProductAtSite): Row {
  return {
    cells: { paper: 'neither', name: `${at.id}/`, state: 'none kept', product: at.id ?? null },
    records: at.product ? [at.product.file] : [],
  }
}

function stateOf({ file, present, intact, current }: Paper): string {
  if (file === undefined) return 'NONE'
  if (present === 'no') return 'NOT THERE'
  if (present === 'could not be read') return 'NOT READABLE'
  if (intact === 'no') return 'CHANGED'
  if (current === 'no') return 'OUT OF DATE'
  return intact === 'yes' ? 'unchanged' : 'there'
}
