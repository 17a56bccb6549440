import { isoOf } from '../../../src/measure/calendar.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, lineOf, listAt, mapAt, put, take, textAt, textOf } from '../draft.js'
import type { FaultKind, Where } from '../fault.js'
import { reportedAt } from '../fault.js'
import { eventsOf, siteFile, sitesOf, visitsOf } from '../site-records.js'

const inProducts = /^products\/[^/]+\/product\.yaml$/
const inUses = /^sites\/[^/]+\/(?:applications|visits)\//

/** Products, their papers, and files that records name. */
export const productFaults: readonly FaultKind[] = [
  {
    name: 'a product is misspelt in an application',
    expect: 'product-not-in-register',
    at: inUses,
    make(draft, random) {
      const applications = sitesOf(draft).flatMap((site) => eventsOf(draft, site, 'applications'))
      const application = random.pick(applications)
      if (!application) return null
      put(draft, application.file, ['product'], `${textAt(application.data, 'product')}x`)
      return reportedAt(application.file, 'product')
    },
  },
  {
    name: 'a product is misspelt where a station is filled',
    expect: 'product-not-in-register',
    at: inUses,
    make(draft, random) {
      const fill = random.pick(usesOf(draft, 'block-x').filter(({ where }) => where.path !== undefined))
      if (!fill?.where.path) return null
      put(draft, fill.where.file, fill.where.path, 'blok-x')
      return { where: [fill.where] }
    },
  },
  {
    name: 'the record of a product is lost',
    expect: 'product-not-in-register',
    at: /^(?:sites|filings)\//,
    make(draft, random) {
      const product = random.pick(usedProducts(draft))
      if (product === undefined) return null
      draft.files.delete(`products/${product}/product.yaml`)
      return { where: [...usesOf(draft, product).map(({ where }) => where), ...storedOf(draft, product)] }
    },
  },
  {
    name: 'the label ended the day before the last use',
    expect: 'product-without-label',
    at: inUses,
    make: paperEnded('labels'),
  },
  {
    name: 'the labels of a product are not entered',
    expect: 'product-without-label',
    at: inUses,
    make: paperLost('labels'),
  },
  {
    name: 'the label is entered with a year to come',
    expect: 'product-without-label',
    at: inUses,
    make: paperToCome('labels'),
  },
  {
    name: 'the safety data sheet ended the day before the last use',
    expect: 'product-without-sds',
    at: inUses,
    make: paperEnded('sds'),
  },
  {
    name: 'the safety data sheets of a product are not entered',
    expect: 'product-without-sds',
    at: inUses,
    make: paperLost('sds'),
  },
  {
    name: 'the safety data sheet is entered with a year to come',
    expect: 'product-without-sds',
    at: inUses,
    make: paperToCome('sds'),
  },
  {
    name: 'the file of a label is missing',
    expect: 'file-missing',
    at: inProducts,
    make(draft, random) {
      const paper = random.pick(papersOf(draft))
      if (!paper) return null
      draft.files.delete(paper.path)
      return reportedAt(paper.record, ...paper.at, 'file')
    },
  },
  {
    name: 'the name of a file differs by a capital',
    expect: 'file-missing',
    at: inProducts,
    make(draft, random) {
      const paper = random.pick(papersOf(draft))
      const name = paper?.path.slice(paper.path.lastIndexOf('/') + 1)
      if (!paper || name === undefined) return null
      put(draft, paper.record, [...paper.at, 'file'], `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`)
      return reportedAt(paper.record, ...paper.at, 'file')
    },
  },
  {
    name: 'the property diagram is missing',
    expect: 'file-missing',
    at: /\/site\.yaml$/,
    make(draft, random) {
      const file = siteFile(random.pick(sitesOf(draft)) ?? '')
      draft.files.delete(file.replace('site.yaml', textAt(dataOf(draft, file), 'diagram', 'file') ?? ''))
      return reportedAt(file, 'diagram', 'file')
    },
  },
  {
    name: 'a label is changed in place',
    expect: 'file-changed',
    at: inProducts,
    make(draft, random) {
      const paper = random.pick(papersOf(draft))
      if (!paper) return null
      draft.files.set(paper.path, `${textOf(draft, paper.path)}Now also against ants.\n`)
      return reportedAt(paper.record, ...paper.at, 'sha256')
    },
  },
  {
    name: 'one digit of a hash differs',
    expect: 'file-changed',
    at: /\/site\.yaml$/,
    make(draft, random) {
      const file = siteFile(random.pick(sitesOf(draft)) ?? '')
      const hash = textAt(dataOf(draft, file), 'diagram', 'sha256')
      if (hash === undefined) return null
      put(draft, file, ['diagram', 'sha256'], `${hash.slice(0, -1)}${hash.endsWith('7') ? '3' : '7'}`)
      return reportedAt(file, 'diagram', 'sha256')
    },
  },
  {
    name: 'a paper is kept a second time under a name with a capital',
    expect: 'names-differ-in-capitals',
    at: /^products\/.+$/,
    make(draft, random) {
      const paper = random.pick(papersOf(draft))
      if (!paper) return null
      const [folder, name] = paper.path.split(/(?<=\/)(?=[^/]+$)/)
      const capital = `${folder}${name?.charAt(0).toUpperCase()}${name?.slice(1)}`
      draft.files.set(capital, textOf(draft, paper.path))
      return { where: [{ file: capital, line: 1 }] }
    },
  },
]

interface Use {
  readonly day: number
  readonly where: Where
}

/** Every place at which a product is put to use, by day. */
function usesOf(draft: Draft, product: string): Use[] {
  const uses: Use[] = []
  for (const site of sitesOf(draft)) {
    for (const { file, day, data } of eventsOf(draft, site, 'applications'))
      if (data.product === product) uses.push({ day, where: { file, path: ['product'] } })
    for (const { file, day, data } of visitsOf(draft, site))
      for (const key of ['set', 'readings'])
        for (const [device, facts] of Object.entries(mapAt(data, key)))
          if (textAt(facts, 'product') === product)
            uses.push({ day, where: { file, path: [key, device, 'product'] } })
  }
  return uses.sort((a, b) => a.day - b.day)
}

/** Places other than uses that name a product: what is kept, plants treated, incidents, yearly lists. */
function storedOf(draft: Draft, product: string): Where[] {
  const listed = [...draft.files.keys()]
    .filter((file) => file.startsWith('filings/'))
    .flatMap((file) => {
      const at = listAt(dataOf(draft, file), 'products').indexOf(product)
      return at < 0 ? [] : [{ file, path: ['products', at] }]
    })
  const stored = [...draft.files.keys()]
    .filter((file) => /^sites\/[^/]+\/(?:storage|incidents)\//.test(file))
    .flatMap((file) =>
      textOf(draft, file)
        .split('\n')
        .flatMap((text, at) =>
          new RegExp(`product: ${product}(?:[,}]|$)`).test(text) ? [{ file, line: at + 1 }] : [],
        ),
    )
  return [...listed, ...stored]
}

/** Products that were used once the records began, and that are pesticides. */
function usedProducts(draft: Draft): string[] {
  return productIds(draft).filter(
    (id) =>
      textAt(dataOf(draft, `products/${id}/product.yaml`), 'kind') === 'pesticide' &&
      usesOf(draft, id).length > 0,
  )
}

function productIds(draft: Draft): string[] {
  return [...draft.files.keys()].flatMap((file) => /^products\/([^/]+)\/product\.yaml$/.exec(file)?.[1] ?? [])
}

/** The first use at each site, on which the missing paper is told. */
function firstUses(draft: Draft, uses: readonly Use[]): Where[] {
  const first = new Map<string, Use>()
  for (const use of uses) {
    const site = use.where.file.split('/')[1] ?? ''
    if (!first.has(site)) first.set(site, use)
  }
  return [...first.values()].map(({ where }) => ({
    file: where.file,
    line: lineOf(draft, where.file, where.path ?? []),
  }))
}

/** The paper in force on the last use ends a day too early, and no other follows. */
function paperEnded(kind: 'labels' | 'sds'): FaultKind['make'] {
  return (draft, random) => {
    const uses = usedProducts(draft).map((id) => ({ id, days: usesOf(draft, id).map(({ day }) => day) }))
    // Of several devices filled on one day it would not be clear which is told.
    const clear = uses.filter(({ days }) => days.at(-1) !== days.at(-2))
    const product = random.pick(clear)?.id
    const last = product === undefined ? undefined : usesOf(draft, product).at(-1)
    if (!last) return null
    const record = `products/${product}/product.yaml`
    const spans = listAt(dataOf(draft, record), kind)
    const at = spans.findIndex((span) => isIn(span, last.day))
    put(draft, record, [kind], spans.slice(0, at + 1))
    put(draft, record, [kind, at, 'until'], isoOf(last.day))
    const before = copyOf(draft)
    put(draft, record, [kind, at, 'until'], isoOf(last.day - 1))
    return { where: [last.where], before }
  }
}

/** The only paper of a product is entered with a year that is still to come. */
function paperToCome(kind: 'labels' | 'sds'): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(usedProducts(draft))
    if (product === undefined) return null
    const record = `products/${product}/product.yaml`
    const [first] = listAt(dataOf(draft, record), kind)
    const { until: _, ...span } = mapAt(first)
    put(draft, record, [kind], [span])
    const before = copyOf(draft)
    put(draft, record, [kind, 0, 'from'], `203${textAt(span, 'from')?.slice(3)}`)
    return { where: firstUses(draft, usesOf(draft, product)), before }
  }
}

function isIn(span: Parameters<typeof textAt>[0], day: number): boolean {
  const until = textAt(span, 'until')
  return (textAt(span, 'from') ?? '') <= isoOf(day) && (until === undefined || isoOf(day) <= until)
}

function paperLost(kind: 'labels' | 'sds'): FaultKind['make'] {
  return (draft, random) => {
    const product = random.pick(usedProducts(draft))
    if (product === undefined) return null
    take(draft, `products/${product}/product.yaml`, [kind])
    return { where: firstUses(draft, usesOf(draft, product)) }
  }
}

/** Labels and safety data sheets of all products, with where their records name them. */
function papersOf(draft: Draft) {
  return productIds(draft).flatMap((id) => {
    const record = `products/${id}/product.yaml`
    return ['labels', 'sds'].flatMap((kind) =>
      listAt(dataOf(draft, record), kind).map((span, n) => ({
        record,
        at: [kind, n],
        path: `products/${id}/${textAt(span, 'file')}`,
      })),
    )
  })
}
