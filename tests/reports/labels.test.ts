import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import type { Source } from '../../src/files/source.js'
import { labelsReport } from '../../src/reports/labels.js'
import { day, oakFiles } from '../ledger/small-site.js'

const text = (name: string) => `The ${name} of an invented product.\n`
const hashOf = (content: string) => createHash('sha256').update(content).digest('hex')

type Texts = Readonly<Record<string, string>>

/** A product with its papers beside it. */
const product = (id: string, facts: string): Texts => ({
  [`products/${id}/product.yaml`]: `name: Invented ${id}\n${facts}\n`,
  [`products/${id}/label.txt`]: text('label'),
  [`products/${id}/sds.txt`]: text('sheet'),
})
const gel = product(
  'gel',
  `kind: pesticide
registration: 99999-11
labels: [{from: 2026-01-05, file: label.txt, revision: rev. 01/26, sha256: ${hashOf(text('label'))}}]
sds: [{from: 2026-01-06, file: sds.txt, revised: 2025-11-20, sha256: ${hashOf(text('sheet'))}}]`,
)
const application = (date: string, of = 'gel', status = 'done'): Texts => ({
  [`sites/oak/applications/${date}-okafor.yaml`]: `by: okafor\nstatus: ${status}\nproduct: ${of}\npest: german-cockroach\nmethod: bait-placement\nareas: {kitchen: {amount: 2 g}}\n`,
})
const storage = (date: string, items: string, who = 'lind'): Texts => ({
  [`sites/oak/storage/${date}-${who}.yaml`]: `by: ${who}\nplaces:\n  cupboard:\n    area: store\n    locked: yes\n    items: {${items}}\n`,
})

interface Asked {
  readonly asOf?: string
  readonly from?: string
  readonly visits?: Texts
  readonly site?: string
}

function pageOf(
  others: Texts,
  { asOf = '2026-06-30', from, visits = {}, site = 'oak' }: Asked = {},
  source?: (of: Source) => Source,
) {
  const files = memorySource(oakFiles(visits, others))
  const options = { asOf: day(asOf), asOfIsToday: false, ...(from === undefined ? {} : { from: day(from) }) }
  const report = labelsReport(source ? source(files) : files, options, site)
  const rows = (id: string, ...columns: string[]) =>
    report.tables
      .find((table) => table.id === id)
      ?.rows.map(({ cells }) => columns.map((column) => cells[column] ?? '–').join(' | '))
  return {
    ...report,
    products: rows('products', 'product', 'number', 'last-used'),
    papers: rows('papers', 'paper', 'name', 'revision', 'since', 'state'),
    kept: rows('kept', 'where', 'product', 'amount', 'on'),
    facts: rows('papers', 'paper', 'file', 'present', 'intact', 'current'),
    wrong: rows('wrong', 'product', 'what'),
  }
}

describe('a product and its papers', () => {
  it('has its number, its last use, and what the register and the disk say of both', () => {
    const page = pageOf({ ...gel, ...application('2026-03-05'), ...application('2026-05-05') })
    expect(page.title).toBe('Labels and safety data sheets, Oak School')
    expect(page.headline).toBe('One product was used or is kept here; nothing is wrong with the papers.')
    expect(page.products).toEqual(['Invented gel | 99999-11 | 2026-05-05'])
    expect(page.papers).toEqual([
      'label | gel/label.txt | rev. 01/26 | 2026-01-05 | unchanged',
      'sheet | gel/sds.txt | 2025-11-20 | 2026-01-06 | unchanged',
    ])
    expect(page.facts).toEqual([
      'label | products/gel/label.txt | yes | yes | yes',
      'sheet | products/gel/sds.txt | yes | yes | yes',
    ])
    expect([page.wrong, page.incomplete, page.notExamined]).toEqual([[], false, []])
    expect(page.tables[0]?.rows[0]?.records).toEqual([
      'products/gel/product.yaml',
      'sites/oak/applications/2026-05-05-okafor.yaml',
    ])
  })

  it('says whom to call, and that the label decides', () => {
    // The number of the poison control centers of the United States, from memory.
    expect(pageOf({}).cautions.join(' ')).toMatch(/1-800-222-1222.*label on the container decides/)
  })

  it.each<[string, Texts, string, string]>([
    [
      'is not in the ledger',
      {
        ...gel,
        'products/gel/product.yaml': (gel['products/gel/product.yaml'] ?? '').replace(
          'label.txt',
          'label-2.txt',
        ),
      },
      'label | products/gel/label-2.txt | no | not known | yes',
      'Invented gel | its label label-2.txt is not in the ledger',
    ],
    [
      'was changed',
      { ...gel, 'products/gel/label.txt': 'Another label.\n' },
      'label | products/gel/label.txt | yes | no | yes',
      'Invented gel | its label label.txt is not the file that was recorded',
    ],
  ])('a label that %s', (_, files, facts, wrong) => {
    const page = pageOf({ ...files, ...application('2026-03-05') })
    expect([page.facts?.[0], page.wrong]).toEqual([facts, [wrong]])
    expect(page.headline).toBe('One product was used or is kept here; one thing is wrong.')
    // The page was written: what is wrong with a paper is for the check to fail on.
    expect(page.incomplete).toBe(false)
  })

  it('without a SHA-256 it is only there, and the page says what that means', () => {
    const bare = product(
      'gel',
      'kind: pesticide\nregistration: 99999-11\nlabels: [{from: 2026-01-05, file: label.txt}]\nsds: [{from: 2026-01-05, file: sds.txt}]',
    )
    const page = pageOf({ ...bare, ...application('2026-03-05') })
    expect(page.papers).toEqual([
      'label | gel/label.txt | – | 2026-01-05 | there',
      'sheet | gel/sds.txt | – | 2026-01-05 | there',
    ])
    expect(page.facts?.[0]).toBe('label | products/gel/label.txt | yes | not stated | yes')
    expect(page.cautions.at(-1)).toContain('`there`')
    expect(pageOf({ ...gel, ...application('2026-03-05') }).cautions.join()).not.toContain('`there`')
  })

  it('a file that may not be read makes the page incomplete', () => {
    const page = pageOf({ ...gel, ...application('2026-03-05') }, {}, (files) => ({
      ...files,
      sha256: () => ({ refused: 'no-permission', detail: 'may not be read by you' }),
    }))
    expect(page.incomplete).toBe(true)
    expect(page.papers?.[0]).toBe('label | gel/label.txt | rev. 01/26 | 2026-01-05 | NOT READABLE')
    expect(page.notExamined).toContain('products/gel/label.txt: the file could not be read.')
  })

  describe('of several labels the one in force counts', () => {
    const labels = (spans: string) =>
      product(
        'gel',
        `kind: pesticide\nregistration: 99999-11\nlabels: [${spans}]\nsds: [{from: 2026-01-05, file: sds.txt}]`,
      )
    const two = labels(
      '{from: 2026-01-05, until: 2026-04-30, file: label.txt, revision: old}, {from: 2026-05-01, file: sds.txt, revision: new}',
    )
    it.each([
      ['2026-04-30', 'old'],
      ['2026-05-01', 'new'],
    ])('on %s it is the %s one', (asOf, revision) => {
      const page = pageOf({ ...two, ...application('2026-03-05') }, { asOf })
      expect(page.papers?.[0]).toContain(`| ${revision} |`)
      expect(page.wrong).toEqual([])
    })

    it.each<[string, string, string]>([
      [
        '{from: 2026-01-05, until: 2026-06-29, file: label.txt}',
        'label | gel/label.txt | – | 2026-01-05 | OUT OF DATE',
        'Invented gel | its label label.txt was in force until 2026-06-29, and none is since',
      ],
      [
        '{from: 2026-07-01, file: label.txt}',
        'label | gel/ | – | – | NONE',
        'Invented gel | no label is in the register for 2026-06-30',
      ],
    ])('none is in force: %s', (span, paper, wrong) => {
      const page = pageOf({ ...labels(span), ...application('2026-03-05') })
      expect([page.papers?.[0], page.wrong]).toEqual([paper, [wrong]])
    })
  })

  it.each<[string, string, string[], string[]]>([
    [
      'pesticide',
      'not recorded',
      ['label | x/ | – | – | NONE', 'sheet | x/ | – | – | NONE'],
      ['no label', 'no safety data sheet'],
    ],
    [
      'minimum-risk',
      'minimum risk',
      ['label | x/ | – | – | NONE', 'sheet | x/ | – | – | NONE'],
      ['no label', 'no safety data sheet'],
    ],
    ['living-agent', 'living agent', ['label | x/ | – | – | NONE'], ['no label']],
    ['lure', 'lure', ['neither | x/ | – | – | none kept'], []],
    ['caulk', 'sealant', ['neither | x/ | – | – | none kept'], []],
    ['device', 'trap', ['neither | x/ | – | – | none kept'], []],
    ['other-material', 'no pesticide', ['neither | x/ | – | – | none kept'], []],
  ])('a %s without papers', (kind, number, papers, wrong) => {
    const page = pageOf({ ...product('x', `kind: ${kind}`), ...application('2026-03-05', 'x') })
    expect(page.products).toEqual([`Invented x | ${number} | 2026-03-05`])
    expect(page.papers).toEqual(papers)
    expect(page.wrong).toEqual(wrong.map((what) => `Invented x | ${what} is in the register for 2026-06-30`))
  })
})

describe('which products', () => {
  it.each([
    // The twelve months that end on 2026-06-30 begin on 2025-07-01.
    ['2026-06-30', '2025-07-01', true],
    ['2026-06-30', '2025-06-30', false],
    // Those that end on 29 February 2028 begin after 28 February 2027.
    ['2028-02-29', '2027-03-01', true],
    ['2028-02-29', '2027-02-28', false],
  ])('as of %s, used on %s: %s', (asOf, on, isListed) => {
    const page = pageOf({ ...gel, ...application(on) }, { asOf })
    expect(page.products).toHaveLength(isListed ? 1 : 0)
  })

  it('as long back as is asked', () => {
    const page = (from: string) => pageOf({ ...gel, ...application('2025-02-03') }, { from })
    expect([page('2025-02-03').products?.length, page('2025-02-04').products?.length]).toEqual([1, 0])
    expect(page('2025-02-03').period).toEqual({ from: '2025-02-03', to: '2026-06-30' })
    expect(page('2025-02-04').headline).toBe('No product was used here, and none is recorded as kept here.')
  })

  it('what was applied, put into devices, or a plant was treated with; not what is planned', () => {
    const files = {
      ...gel,
      ...product('bait', 'kind: lure'),
      ...product('block', 'kind: lure'),
      ...product('soap', 'kind: lure'),
      ...product('foam', 'kind: lure'),
      ...product('dust', 'kind: lure'),
      ...application('2026-03-05', 'foam', 'planned'),
      ...application('2026-03-06', 'dust', 'cancelled'),
      ...application('2026-03-07'),
    }
    const visits = {
      '2026-02-01':
        'set: {B1: {kind: bait-station, area: store, for: [norway-rat], product: bait, bait-added: 2 block}}',
      '2026-03-01': 'readings: {B1: {bait-taken: all, bait-added: 1 block, product: block}}',
      '2026-04-01': 'plants: {fern: {area: room-1, sprayed: yard, product: soap}}',
    }
    expect(pageOf(files, { visits }).products).toEqual([
      'Invented bait | lure | 2026-02-01',
      'Invented block | lure | 2026-03-01',
      'Invented gel | 99999-11 | 2026-03-07',
      'Invented soap | lure | 2026-04-01',
    ])
  })

  describe('kept there', () => {
    it('by the last record of what is kept, also if never used, and not what was disposed of', () => {
      const page = pageOf({
        ...gel,
        ...product('soap', 'kind: lure'),
        ...product('foam', 'kind: lure'),
        ...storage('2026-02-01', 'old: {product: foam}'),
        ...storage(
          '2026-05-01',
          'gel-1: {product: gel, amount: 24 g}, soap: {product: soap, disposed: waste day}',
        ),
        ...application('2025-01-10'),
      })
      expect(page.products).toEqual(['Invented gel | 99999-11 | 2025-01-10'])
      expect(page.kept).toEqual(['store | Invented gel | 24 g | 2026-05-01'])
      expect(pageOf(storage('2026-05-01', 'can: {what: a can}')).tables[0]?.rows).toHaveLength(1)
    })

    it('by every record of that day', () => {
      const page = pageOf({
        ...gel,
        ...product('soap', 'kind: lure'),
        ...storage('2026-05-01', 'gel-1: {product: gel}'),
        ...storage('2026-05-01', 'soap: {product: soap}', 'okafor'),
      })
      expect(page.products).toEqual(['Invented gel | 99999-11 | –', 'Invented soap | lure | –'])
    })

    it('says how old that record is, or that there is none', () => {
      const kept = (others: Texts) => {
        const page = pageOf(others)
        return [page.kept, page.tables.find(({ id }) => id === 'kept')?.empty]
      }
      expect(
        kept({ ...gel, ...storage('2026-05-01', 'a: {product: gel}, b: {product: gel, amount: 2 g}') })[0],
      ).toEqual(['store | Invented gel | – | 2026-05-01', 'store | Invented gel | 2 g | 2026-05-01'])
      expect(kept(storage('2026-05-01', 'can: {what: a can, disposed: waste day}'))).toEqual([
        [],
        'Nothing, as written down on 2026-05-01.',
      ])
      expect(kept({})).toEqual([[], 'Nothing is recorded of what is kept here.'])
    })

    it('what is not in the register is listed as such', () => {
      const page = pageOf(
        storage(
          '2026-05-01',
          'can: {what: half a can of wasp spray}, tub: {product: gell}, box: {amount: 2 each}',
        ),
      )
      expect(page.products).toEqual([
        'box | not in the register | –',
        'gell | not in the register | –',
        'half a can of wasp spray | not in the register | –',
      ])
      expect(page.wrong).toEqual(
        ['box', 'gell', 'half a can of wasp spray'].map(
          (name) => `${name} | is not in the register: no label and no sheet of it can be looked up`,
        ),
      )
      expect(page.papers).toEqual([])
    })
  })
})

describe('what cannot be read', () => {
  const notUsable = {
    'sites/oak/visits/2026-03-11-okafor.yaml': 'purpose: follow-up\nby: okafor\ninspected: kitchen\n',
  }

  it('of this site: nothing is told, and the page says so', () => {
    const page = pageOf({ ...gel, ...application('2026-03-05'), ...notUsable })
    expect([page.incomplete, page.headline, page.products]).toEqual([
      true,
      'This site could not be examined.',
      [],
    ])
    expect(page.tables.map(({ empty }) => empty)).toEqual(page.tables.map(() => 'Not examined.'))
    expect(page.notExamined.join()).toContain('sites/oak')
  })

  it('of another site does not touch it', () => {
    const page = pageOf({
      ...gel,
      ...application('2026-03-05'),
      'sites/elm/visits/2026-03-11-okafor.yaml': 'inspected: kitchen\n',
      'sites/elm/visits/2026-08-11-okafor.yaml': 'purpose: follow-up\nby: okafor\n',
    })
    expect([page.incomplete, page.notExamined, page.products?.length]).toEqual([false, [], 1])
  })

  it('a product whose record cannot be used is not called missing', () => {
    const page = pageOf({ ...product('gel', 'kind: pesticyde'), ...application('2026-03-05') })
    expect(page.incomplete).toBe(true)
    expect(page.products).toEqual(['gel | not readable | 2026-03-05'])
    expect(page.wrong).toEqual(['gel | its record in the register cannot be used'])
    expect(page.notExamined.join()).toContain('product gel')
  })

  it('records of later days are left out, and that is said', () => {
    const page = pageOf({
      ...gel,
      ...application('2026-03-05'),
      ...storage('2026-07-01', 'gel-1: {product: gel}'),
    })
    expect(page.products).toEqual(['Invented gel | 99999-11 | 2026-03-05'])
    expect(page.notExamined).toEqual(['One record dated after the as-of day was not looked at.'])
  })
})
