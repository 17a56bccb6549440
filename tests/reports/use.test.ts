import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { useReport } from '../../src/reports/use.js'
import { periodBefore } from '../../src/reports/use-periods.js'
import { day, oakFiles } from '../ledger/small-site.js'

type Texts = Readonly<Record<string, string>>

const districtFrom = (begin: string, calendar = '[]') => ({
  'district.yaml': `format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: ${begin}
coordinator: [{from: ${begin}, who: marsh}]
rulebooks: []
calendar: ${calendar}
`,
})

const site = (name: string, areas: string, more = '') =>
  `name: ${name}\nsite-manager: [{from: 2024-01-01, who: lind}]\ncomplaint-log: front office\ncontract: []\nareas: ${areas}\n${more}`

const product = (id: string, facts: string): Texts => ({
  [`products/${id}/product.yaml`]: `name: Invented ${id}\n${facts}\n`,
})

const register: Texts = {
  ...districtFrom('2024-01-01'),
  'sites/oak/site.yaml': site(
    '"Oak School, \\"The Oak\\""',
    '{kitchen: {kind: kitchen, name: "Kitchen, main", extent: 1500 ft2}, room-1: {kind: classroom, extent: 500 ft2}, store: {kind: storage}}',
    'address: 1 Oak Road, Alder Fork\n',
  ),
  'sites/elm/site.yaml': site('Elm School', '{hall: {kind: dining}}'),
  'people/okafor.yaml': `name: Ada Okafor
roles: [applicator]
licences:
  or-1:
    {number: XX-1, state: OR, kind: applicator, categories: [structural], spans: [{from: 2025-01-01, until: 2026-03-31}]}
  wa-1:
    {number: WW-9, state: WA, kind: applicator, categories: [structural], spans: [{from: 2025-01-01, until: 2026-12-31}]}
`,
  ...product(
    'gel',
    'kind: pesticide\nregistration: 99999-11\nmaker: \'Invented "Best" Baits, Inc.\'\nactive-ingredients: {inventamide: {strength: 0.6 %}}\nsignal-word: caution',
  ),
  ...product(
    'concentrate',
    'kind: pesticide\nregistration: 99999-12\nactive-ingredients: {inventathrin: {strength: 2 lb/gal}}\nsignal-word: warning',
  ),
  ...product(
    'spray',
    'kind: pesticide\nregistration: 99999-13\ndensity: 1200 g/L\nactive-ingredients: {inventathrin: {strength: 0.5 %}}',
  ),
  ...product(
    'foam',
    'kind: minimum-risk\nactive-ingredients: {peppermint-oil: {strength: 1.5 %}}\nsignal-word: none',
  ),
  ...product(
    'block',
    'kind: pesticide\nregistration: 99999-14\nactive-ingredients: {inventacoum: {strength: 0.005 %}}\nsignal-word: caution',
  ),
  ...product('talc', 'kind: other-material'),
}

interface Used {
  readonly product?: string
  readonly pest?: string
  readonly also?: string
  readonly method?: string
  readonly areas?: string
  readonly amount?: string
  readonly status?: string
  readonly site?: string
  readonly time?: string
}

const applied = (date: string, used: Used = {}, who = 'okafor'): Texts => ({
  [`sites/${used.site ?? 'oak'}/applications/${date}-${who}.yaml`]: [
    `by: ${who}`,
    `status: ${used.status ?? 'done'}`,
    `product: ${used.product ?? 'gel'}`,
    `pest: ${used.pest ?? 'german-cockroach'}`,
    ...(used.also === undefined ? [] : [`also-against: [${used.also}]`]),
    `method: ${used.method ?? 'crack-and-crevice'}`,
    `areas: ${used.areas ?? '{kitchen: {}}'}`,
    ...(used.amount === undefined ? [] : [`amount: ${used.amount}`]),
    ...(used.time === undefined ? [] : [`time: ${used.time}`]),
    '',
  ].join('\n'),
})

interface Asked {
  readonly asOf?: string
  readonly from?: string
  readonly to?: string
  readonly site?: string
  readonly pest?: string
  readonly visits?: Texts
}

function pageOf(records: Texts, { asOf = '2026-06-30', from, to, visits = {}, ...filter }: Asked = {}) {
  const report = useReport(memorySource(oakFiles(visits, { ...register, ...records })), {
    asOf: day(asOf),
    asOfIsToday: false,
    ...(from === undefined ? {} : { from: day(from) }),
    ...(to === undefined ? {} : { to: day(to) }),
    ...filter,
  })
  const table = (id: string) => {
    const found = report.tables.find((candidate) => candidate.id === id)
    if (!found) throw new Error(`there is no table ${id}`)
    return found
  }
  const rows = (id: string, ...columns: string[]) =>
    table(id).rows.map(({ cells }) => columns.map((column) => cells[column] ?? '–').join(' | '))
  return { ...report, table, rows }
}

const amounts = ['applications', 'baits', 'without-amount', 'amount'] as const

describe('amounts', () => {
  // Gel: 4.5 g + 1.5 g = 6 g, a third use without amount. Active: 0.6 % of 6 g = 0.036 g.
  const gel = {
    ...applied('2026-03-05', { amount: '4.5 g' }),
    ...applied('2026-03-20', { areas: '{kitchen: {amount: 1 g}, room-1: {amount: 0.5 g}}' }),
    ...applied('2026-04-02'),
  }

  it('are added up exactly, and what is missing is counted', () => {
    const page = pageOf(gel)
    expect(
      page.rows('products', 'product', ...amounts, 'weight', 'active-weight', 'active-not-told'),
    ).toEqual(['Invented gel | 3 | 0 | 1 | 6 g; 1 of 3 without amount | 6 | 0.036 | 1'])
    expect(page.rows('active-ingredients', 'ingredient', 'weight', 'uses', 'not-told', 'why')).toEqual([
      'inventamide | 0.036 | 3 | 1 | no amount recorded',
    ])
    expect(page.headline).toBe(
      'One pesticide was applied 3 times, 1 of 3 without amount; the strongest signal word is CAUTION; in the period before, nothing is recorded.',
    )
    expect(page.table('products').rows[0]?.records).toEqual([
      'products/gel/product.yaml',
      'sites/oak/applications/2026-03-05-okafor.yaml',
      'sites/oak/applications/2026-03-20-okafor.yaml',
      'sites/oak/applications/2026-04-02-okafor.yaml',
    ])
  })

  it('are never zero where none is recorded at all', () => {
    const page = pageOf(applied('2026-04-02'))
    expect(page.rows('products', 'amount', 'weight', 'volume', 'pieces', 'active-weight')).toEqual([
      '1 of 1 without amount | – | – | – | –',
    ])
  })

  it('count as missing in part where an area has none, and the part recorded is added', () => {
    const page = pageOf(applied('2026-03-20', { areas: '{kitchen: {amount: 1 g}, room-1: {}}' }))
    expect(page.rows('products', ...amounts)).toEqual(['1 | 0 | 1 | 1 g; 1 of 1 without amount'])
  })

  it('of weight and volume stand side by side without a density, and pieces of each kind apart', () => {
    const page = pageOf({
      ...applied('2026-03-05', { product: 'foam', amount: '6 fl oz' }),
      ...applied('2026-03-06', { product: 'foam', amount: '10 g' }),
      ...applied('2026-03-07', { product: 'block', amount: '4 block' }),
      ...applied('2026-03-08', { product: 'block', amount: '2 packet' }),
    })
    // 6 fl oz = 6 × 29.5735295625 mL = 177.441177375 mL. 1.5 % of 10 g = 0.15 g; of the volume nothing is told.
    expect(
      page.rows('products', 'product', 'amount', 'weight', 'volume', 'pieces', 'active-weight', 'active-why'),
    ).toEqual([
      'Invented block | 4 block; 2 packet | – | – | 4 block; 2 packet | – | pieces, and no weight of one in the register',
      'Invented foam | 10 g; 6 fl oz | 10 | 177.441177375 | – | 0.15 | a volume of a product whose strength is in %, and no density in the register',
    ])
    expect(page.rows('hazards', 'signal-word', 'applications', 'amount')).toEqual([
      'CAUTION | 2 | 4 block; 2 packet',
      'none printed | 2 | 10 g; 6 fl oz',
    ])
  })

  it('of pieces are told by weight where the register has what one weighs', () => {
    const page = pageOf({
      ...product(
        'block',
        'kind: pesticide\nregistration: 99999-14\nactive-ingredients: {inventacoum: {strength: 0.005 %}}\nweight-per: {block: 20 g}\nsignal-word: caution',
      ),
      ...applied('2026-03-05', { product: 'block', amount: '4 block' }),
      ...applied('2026-03-06', { product: 'block', areas: '{kitchen: {amount: 4 block}}' }),
      ...applied('2026-03-07', { product: 'gel', amount: '6 g' }),
    })
    // 8 × 20 g = 160 g; 0.005 % of it is 0.008 g. With 6 g of gel 166 g; 0.6 % of 6 g is 0.036 g, together 0.044 g.
    const columns = [
      'amount',
      'weight',
      'pieces',
      'weighed-pieces',
      'active-weight',
      'active-not-told',
    ] as const
    expect(page.rows('products', 'product', ...columns)).toEqual([
      'Invented block | 160 g (8 block) | 160 | – | 8 block | 0.008 | 0',
      'Invented gel | 6 g | 6 | – | – | 0.036 | 0',
    ])
    expect(page.rows('hazards', 'signal-word', ...columns)).toEqual([
      'CAUTION | 166 g (8 block in it) | 166 | – | 8 block | 0.044 | 0',
    ])
    // Half of the blocks were put out in the kitchen, whose 1500 ft2 and those of room-1 make 2000 ft2; the gel and the
    // other blocks too, each alone in it: 166 g ÷ 2 = 83 g per 1000 ft2, and no block beside it.
    expect(page.rows('per-1000-ft2', 'site', 'per-1000-ft2', 'pieces-rate')).toContain('oak | 83 g | –')
  })

  it('of pieces whose weight is not known stand beside the weight of others of the same product', () => {
    const page = pageOf({
      ...product(
        'block',
        'kind: pesticide\nregistration: 99999-14\nactive-ingredients: {inventacoum: {strength: 0.005 %}}\nweight-per: {block: 1 oz}',
      ),
      ...applied('2026-03-05', { product: 'block', amount: '2 block' }),
      ...applied('2026-03-06', { product: 'block', amount: '3 packet' }),
    })
    // 2 × 1 oz = 2 × 28.349523125 g = 56.69904625 g; 0.005 % of it is 0.0028349523125 g.
    expect(
      page.rows('products', 'amount', 'weight', 'pieces', 'weighed-pieces', 'active-not-told', 'active-why'),
    ).toEqual([
      '2 oz (2 block); 3 packet | 56.69904625 | 3 packet | 2 block | 1 | pieces, and no weight of one in the register',
    ])
    expect(page.table('products').rows[0]?.cells['active-weight']).toBeCloseTo(0.0028349523125, 15)
  })

  it('of weight and volume of one product become one weight by its density', () => {
    const page = pageOf({
      ...applied('2026-03-05', { product: 'spray', amount: '100 mL' }),
      ...applied('2026-03-06', { product: 'spray', amount: '80 g' }),
      ...applied('2026-03-07', { product: 'concentrate', amount: '1 fl oz' }),
    })
    // Spray: 100 mL × 1.2 g/mL + 80 g = 200 g, 0.5 % of it 1 g. Concentrate: 1/128 gal × 2 lb/gal = 1/64 lb =
    // 7.08738078125 g. Together 8.08738078125 g of the one ingredient.
    expect(page.rows('products', 'product', 'amount', 'weight', 'volume', 'active-weight')).toEqual([
      'Invented concentrate | 1 fl oz | – | 29.5735295625 | 7.08738078125',
      'Invented spray | 200 g | 200 | – | 1',
    ])
    expect(page.rows('active-ingredients', 'ingredient', 'weight', 'not-told', 'products')).toEqual([
      'inventathrin | 8.08738078125 | 0 | concentrate; spray',
    ])
    expect(page.rows('hazards', 'signal-word')).toEqual(['WARNING', 'not recorded'])
    expect(page.headline).toContain('the strongest signal word in the register is WARNING')
  })

  it('are not those of planned or cancelled applications, nor of what is no pesticide', () => {
    const page = pageOf({
      ...applied('2026-03-05', { status: 'planned', amount: '1 g' }),
      ...applied('2026-03-06', { status: 'cancelled', amount: '1 g' }),
      ...applied('2026-03-07', { product: 'talc', amount: '1 g' }),
    })
    expect(page.table('products').rows).toEqual([])
    expect(page.incomplete).toBe(false)
  })

  it('hold bait put into devices, as bait', () => {
    const visits = {
      '2026-03-01':
        'set: {W1: {kind: bait-station, area: store, for: [norway-rat], product: block, bait-added: 4 block}}\n',
      '2026-04-01': 'readings: {W1: {bait-taken: some, bait-added: 3 block, product: block}}\n',
      '2026-05-01': 'readings: {W1: {bait-taken: none}}\n',
    }
    const page = pageOf(gel, { visits })
    // 4 + 3 blocks in two visits; nothing was put in at the third.
    expect(page.rows('products', 'product', ...amounts)).toEqual([
      'Invented block | 0 | 2 | 0 | 7 block',
      'Invented gel | 3 | 0 | 1 | 6 g; 1 of 3 without amount',
    ])
    expect(page.headline).toContain(
      '2 pesticides were applied 3 times and put into devices as bait twice, 1 of 5 without amount;',
    )
    expect(page.rows('methods', 'method', 'applications', 'baits')).toEqual([
      'crack-and-crevice | 3 | 0',
      'in-a-station | 0 | 2',
    ])
  })

  it('per 1,000 ft2 are of areas whose extent is recorded, and the rest is counted', () => {
    const page = pageOf({
      ...applied('2026-03-05', { amount: '4 g' }),
      ...applied('2026-03-06', { areas: '{kitchen: {amount: 1 g}, store: {amount: 7 g}}', amount: '8 g' }),
      ...applied('2026-03-07'),
    })
    // Kitchen and room 1 have 2,000 ft2; 4 g + 1 g were used there: 2.5 g on 1,000 ft2; 0.6 % of it is 0.015 g. The
    // 7 g in the store, whose size nobody wrote down, are left out, and so is the use without amount.
    expect(
      page.rows('per-1000-ft2', 'site', 'areas-measured', 'extent', 'weight-rate', 'active-rate', 'left-out'),
    ).toEqual(['elm | 0 of 1 | – | – | – | 0', 'oak | 2 of 3 | 2000 | 2.5 | 0.015 | 2'])
    expect(page.rows('sites', 'site', ...amounts)).toEqual([
      'elm | 0 | 0 | 0 | –',
      'oak | 3 | 0 | 1 | 12 g; 1 of 3 without amount',
    ])
  })
})

describe('the period', () => {
  const around = {
    ...applied('2025-06-30', { amount: '1 g' }),
    ...applied('2025-07-01', { amount: '2 g' }),
    ...applied('2026-06-30', { amount: '4 g' }),
  }

  it('is the twelve months to the as-of day, first and last day included', () => {
    const page = pageOf(around)
    expect(page.period).toEqual({ from: '2025-07-01', to: '2026-06-30' })
    expect(page.rows('products', ...amounts)).toEqual(['2 | 0 | 0 | 6 g'])
    const months = page.rows('over-time', 'when', 'from', 'to', 'applications', 'weight')
    expect(months).toHaveLength(12)
    expect(months[0]).toBe('2025-07 | 2025-07-01 | 2025-07-31 | 1 | 2')
    expect(months[1]).toBe('2025-08 | 2025-08-01 | 2025-08-31 | 0 | –')
    expect(months[11]).toBe('2026-06 | 2026-06-01 | 2026-06-30 | 1 | 4')
  })

  it('is held against the one before, which ends on the day before', () => {
    const page = pageOf(around)
    expect(page.rows('before', 'period', 'from', 'to', 'covered', ...amounts)).toEqual([
      'this period | 2025-07-01 | 2026-06-30 | wholly | 2 | 0 | 0 | 6 g',
      'before | 2024-07-01 | 2025-06-30 | wholly | 1 | 0 | 0 | 1 g',
    ])
    expect(page.headline).toContain('in the period before, pesticides were applied once.')
  })

  it('begins and ends where it is asked to', () => {
    const asked = { from: '2025-07-02', to: '2026-06-29' }
    expect(pageOf(around, asked).table('products').rows).toEqual([])
    expect(pageOf(around, { from: '2025-07-01', to: '2025-07-01' }).rows('products', 'weight')).toEqual(['2'])
  })

  it('does not reach beyond the as-of day', () => {
    const page = pageOf(around, { asOf: '2026-05-15', from: '2026-04-01', to: '2026-12-31' })
    expect(page.period).toEqual({ from: '2026-04-01', to: '2026-05-15' })
    expect(page.cautions.at(-1)).toContain('told up to that day')
    // Without a first day it is still the twelve months to the as-of day.
    expect(pageOf(around, { asOf: '2026-05-15', to: '2027-12-31' }).period).toEqual({
      from: '2025-05-16',
      to: '2026-05-15',
    })
  })

  it('before it is of whole months where it is, so that a leap day does not shift it, and else of days', () => {
    const earlier = (from: string, to: string) => periodBefore({ from: day(from), to: day(to) })
    // 2024 has 366 days, 2023 has 365.
    expect(earlier('2024-01-01', '2024-12-31')).toEqual({ from: day('2023-01-01'), to: day('2023-12-31') })
    expect(earlier('2026-03-15', '2026-04-14')).toEqual({ from: day('2026-02-15'), to: day('2026-03-14') })
    // Ten days, 5 to 14 March; the ten days before are 23 February to 4 March.
    expect(earlier('2026-03-05', '2026-03-14')).toEqual({ from: day('2026-02-23'), to: day('2026-03-04') })
  })

  it('before is not compared where the records do not reach into it', () => {
    const late = pageOf({ ...around, ...districtFrom('2025-07-01') })
    expect(late.headline).toContain('the period before is not in the records.')
    // Uses written down from before the records begin are told all the same.
    expect(late.rows('before', 'period', 'covered', 'applications')).toEqual([
      'this period | wholly | 2',
      'before | not at all | 1',
    ])
    const partly = pageOf({ ...around, ...districtFrom('2025-01-01') })
    expect(partly.headline).toContain('in the period before, which the records cover only in part,')
    expect(partly.cautions.join(' ')).toContain(
      'The records of elm, oak begin after the start of the period before;',
    )
  })

  it('that the records do not reach, or not wholly, is never said to be without use', () => {
    const asked = { from: '2025-01-01', to: '2025-06-30' }
    expect(pageOf(districtFrom('2025-07-01'), asked).headline).toBe(
      'The records begin after this period, so nothing can be said of it.',
    )
    expect(pageOf(districtFrom('2025-06-30'), asked).headline).toBe(
      'No use of a pesticide is recorded in this period, which the records cover only in part; the period before is not in the records.',
    )
  })

  it('of more than two years is told by school year', () => {
    const calendar = '[{from: 2024-09-03, until: 2025-06-13}, {from: 2025-09-02, until: 2026-06-12}]'
    const page = pageOf(
      {
        ...districtFrom('2024-01-01', calendar),
        ...applied('2025-09-01', { amount: '1 g' }),
        ...applied('2025-09-02', { amount: '2 g' }),
      },
      { from: '2024-05-01' },
    )
    expect(page.rows('over-time', 'when', 'applications', 'weight')).toEqual([
      '2024-05-01 to 2024-09-02 | 0 | –',
      '2024-09-03 to 2025-09-01 | 1 | 1',
      '2025-09-02 to 2026-06-30 | 1 | 2',
    ])
  })

  it('without a use is a page that says so', () => {
    const page = pageOf({})
    expect(page.headline).toBe(
      'No use of a pesticide is recorded in this period; in the period before, nothing is recorded.',
    )
    expect(page.table('products').empty).toBe('None recorded in this period.')
    for (const id of [
      'products',
      'active-ingredients',
      'pests',
      'methods',
      'hazards',
      'over-time',
      'state-form',
    ])
      expect(page.table(id).rows).toEqual([])
  })
})

describe('filters', () => {
  const all = {
    ...applied('2026-03-05', { amount: '1 g', also: 'odorous-house-ant' }),
    ...applied('2026-03-06', { product: 'foam', pest: 'yellowjacket', amount: '6 fl oz', method: 'spot' }),
    ...applied('2026-03-07', { site: 'elm', areas: '{hall: {}}', amount: '2 g' }),
  }

  it('by pest leave uses against it, also where it is not the first', () => {
    expect(pageOf(all, { pest: 'odorous-house-ant' }).rows('products', 'product', 'weight')).toEqual([
      'Invented gel | 1',
    ])
    expect(pageOf(all, { pest: 'german-cockroach' }).rows('products', 'weight')).toEqual(['3'])
    expect(pageOf(all, { pest: 'house-mouse' }).headline).toBe(
      'No use of a pesticide against house mouse is recorded in this period; in the period before, nothing is recorded.',
    )
  })

  it('by site leave that site', () => {
    const page = pageOf(all, { site: 'elm' })
    expect(page.rows('products', 'product', 'weight')).toEqual(['Invented gel | 2'])
    expect(page.rows('sites', 'site')).toEqual(['elm'])
    expect(page.headline).toBe(
      'One pesticide was applied once at elm; the strongest signal word is CAUTION; in the period before, nothing is recorded.',
    )
    expect(page.rows('state-form', 'site', 'area')).toEqual(['Elm School | hall'])
  })

  it('are not needed for a use against two pests to stand in the row of each', () => {
    const page = pageOf(all)
    expect(page.rows('pests', 'pest', 'applications')).toEqual([
      'German cockroach | 2',
      'odorous house ant | 1',
      'yellowjacket | 1',
    ])
    expect(page.cautions.join(' ')).toContain('A use against several pests stands in the row of each')
  })
})

describe('the rows of a state form', () => {
  it('are one for each application and area, as CSV with whatever stands in the names', () => {
    const page = pageOf(
      applied('2026-03-20', {
        areas: '{kitchen: {amount: 1 g}, room-1: {amount: 0.5 g}}',
        amount: '1.5 g',
        time: '15:40 to 16:05',
        also: 'odorous-house-ant',
      }),
    )
    const [header, ...lines] = reportCsv(page, 'state-form').trimEnd().split('\n')
    expect(header).toBe(
      'site,address,date,time,area,product,maker,registration number,"amount, in the unit of the next column",unit,amount in all areas together,unit of it,method,pest,applicator,licence number,supervised by,licence number of the supervisor,how,records',
    )
    const start = '"Oak School, ""The Oak""","1 Oak Road, Alder Fork",2026-03-20,15:40 to 16:05'
    const of = 'Invented gel,"Invented ""Best"" Baits, Inc.",99999-11'
    const end =
      '1.5,g,crack-and-crevice,German cockroach; odorous house ant,Ada Okafor,XX-1,,,application,sites/oak/applications/2026-03-20-okafor.yaml'
    expect(lines).toEqual([`${start},"Kitchen, main",${of},1,g,${end}`, `${start},room-1,${of},0.5,g,${end}`])
  })

  it('give the amount of the whole to no area, unless it is the only one', () => {
    const shared = pageOf(applied('2026-03-20', { areas: '{kitchen: {}, room-1: {}}', amount: '3 g' }))
    expect(shared.rows('state-form', 'area', 'amount', 'unit', 'amount-in-all', 'amount-shown')).toEqual([
      'Kitchen, main | – | – | 3 | part of 3 g',
      'room-1 | – | – | 3 | part of 3 g',
    ])
    const alone = pageOf(applied('2026-03-20', { amount: '3 g' }))
    expect(alone.rows('state-form', 'area', 'amount', 'unit')).toEqual(['Kitchen, main | 3 | g'])
  })

  it('have the licence that was in force on the day, of the state of the district where there is one', () => {
    const page = pageOf({
      ...applied('2026-03-31', { amount: '1 g' }),
      ...applied('2026-04-01', { amount: '1 g' }),
      ...applied('2026-04-02', { amount: '1 g' }, 'reyes'),
    })
    // The licence of Oregon ends on 31 March; reyes is not among the people of the ledger.
    expect(page.rows('state-form', 'date', 'applicator', 'licence')).toEqual([
      '2026-03-31 | Ada Okafor | XX-1',
      '2026-04-01 | Ada Okafor | WW-9 (WA)',
      '2026-04-02 | reyes | –',
    ])
  })
})

describe('what could not be examined', () => {
  it('is a product that the register does not have: nobody can tell whether it is a pesticide', () => {
    const page = pageOf({
      ...applied('2026-03-05', { product: 'gell', amount: '1 g' }),
      ...applied('2026-03-06', { product: 'gell', amount: '1 g' }),
    })
    expect(page.table('products').rows).toEqual([])
    expect(page.headline).toBe(
      'No use of a pesticide is recorded in this period; in the period before, nothing is recorded; part of what was asked could not be examined.',
    )
    expect(page.notExamined).toEqual([
      'gell: used twice; no record in the register that can be used, so it is not told whether it is a pesticide.',
    ])
    expect(page.incomplete).toBe(true)
  })

  it('is said in the headline, but not of another site than the one asked for', () => {
    const broken = { 'sites/oak/applications/2026-03-05-okafor.yaml': 'by: okafor\n' }
    const part = 'part of what was asked could not be examined.'
    expect(pageOf(broken).headline).toContain(part)
    expect(pageOf(broken, { site: 'elm' }).headline).not.toContain(part)
  })

  it('is a site with a record that cannot be used, and the page does not say that nothing was used', () => {
    const page = pageOf({ 'sites/oak/applications/2026-03-05-okafor.yaml': 'by: okafor\n' }, { site: 'oak' })
    expect(page.headline).toBe('This site could not be examined.')
    expect(page.table('products').empty).toBe('Not examined.')
    expect(page.incomplete).toBe(true)
  })
})
