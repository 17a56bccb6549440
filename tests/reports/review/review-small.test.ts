import { describe, expect, it } from 'vitest'
import { memorySource } from '../../../src/files/memory.js'
import { plainPainter } from '../../../src/output/painter.js'
import { reviewHtml } from '../../../src/output/review-html.js'
import { reviewMarkdown } from '../../../src/output/review-markdown.js'
import { reviewText } from '../../../src/output/review-text.js'
import { oakFiles } from '../../ledger/small-site.js'
import { answerIn, example, exampleWith, refusalOf, reviewIn, rowsIn, saidIn } from './reviews.js'

const district = `
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2026-01-01
coordinator: [{from: 2026-01-01, who: marsh}]
rulebooks: []
calendar: []
`

const oak = (visits: Record<string, string>, others: Record<string, string> = {}) =>
  memorySource(oakFiles(visits, { 'district.yaml': district, ...others }))

const asked = { year: '2026', asOf: '2026-12-31' }

describe('a review of little', () => {
  it.each([
    ['a site without a visit', {}],
    [
      'one reading',
      {
        '2026-03-08': 'set:\n  K1: {kind: sticky-trap, area: kitchen}\n',
        '2026-03-20': 'readings:\n  none: [K1]\n',
      },
    ],
  ])('answers every question of %s', (_, visits) => {
    const review = reviewIn(oak(visits), asked)
    expect(review.answers.map(({ id }) => id)).toContain('overlooked')
    for (const { answer } of review.answers) expect(answer).toMatch(/^[A-Z0-9].*\.$/)
    const html = reviewHtml(review)
    expect(html).not.toMatch(/undefined|NaN|\[object/)
    expect(reviewText(review, { paint: plainPainter })).not.toMatch(/undefined|NaN/)
    expect(reviewMarkdown(review)).not.toMatch(/undefined|NaN/)
  })

  it('does not take nothing written down for nothing there', () => {
    const review = reviewIn(oak({}), asked)
    expect(answerIn(review, 'sanitation').answer).toContain('does not show that there was none')
    expect(answerIn(review, 'education').answer).toContain('No talk, flyer, lesson or course is on record')
    expect(answerIn(review, 'last-review').answer).toBe('No review before that of 2026 is on record.')
  })

  it('says that a year lies before the records', () => {
    const review = reviewIn(example(), { year: '2019' })
    expect(review.headline).toBe(
      'The records begin on 2024-08-01, after the calendar year 2019, so nothing can be said of it.',
    )
    expect(review.answers).toEqual([])
    expect(review.improve).toEqual([])
    expect(reviewHtml(review)).toContain('nothing can be said of it')
  })

  it('says that a year lies before the records of its site', () => {
    // Quarry Road is in the ledger from 2025-08-18, the day before which no day of 2024 lies.
    const review = reviewIn(example(), { year: '2024', site: 'quarry-road' })
    expect(review.headline).toContain('begin on 2025-08-18')
    expect(reviewIn(example(), { year: '2024', site: 'ottermere' }).answers.length).toBeGreaterThan(0)
  })

  it.each([
    ['2031', 'begins on 2031-01-01, after the as-of day'],
    ['2026-2027', 'begins on 2026-09-01, after the as-of day'],
    ['2030-2031', 'no school year 2030-2031; it states 2024-2025, 2025-2026, 2026-2027'],
    ['26', '26 is no year'],
    ['0999', '0999 is no year'],
    ['<script>', 'is no year'],
  ])('refuses %s', (year, says) => {
    expect(refusalOf(example(), { year })).toContain(says)
  })

  it('refuses a ledger that cannot be judged', () => {
    expect(refusalOf(memorySource(new Map()), { year: '2026' })).toContain('district.yaml')
  })

  it('says what could not be read', () => {
    const source = exampleWith({ 'sites/ottermere/visits/2026-06-20-okafor.yaml': 'purpose: [' })
    const review = reviewIn(source)
    expect(review.incomplete).toBe(true)
    expect(review.notExamined.join(' ')).toContain('sites/ottermere')
    expect(reviewHtml(review)).toContain('could not be examined')
  })
})

describe('what a page that may be published leaves out', () => {
  const names = /okafor|marsh|tarrow|lind\b|quill|reyes|hale\b|vale\b|bream|arbor\b/i

  it('names no one', () => {
    expect(saidIn(reviewIn(example()))).not.toMatch(names)
    expect(
      saidIn(reviewIn(example(), { site: 'quarry-road', with: ['complaints', 'floor-plan'] })),
    ).not.toMatch(names)
  })

  it('says what it leaves out, and how to get it', () => {
    const { leftOut } = reviewIn(example())
    expect(leftOut.map(({ part }) => part)).toEqual(['complaints', 'floor-plan', 'names'])
    expect(reviewIn(example(), { with: ['names'] }).leftOut.map(({ part }) => part)).toEqual([
      'complaints',
      'floor-plan',
    ])
  })

  it('names people, and the files of records, where it is asked to', () => {
    const named = reviewIn(example(), { with: ['names'] })
    expect(answerIn(named, 'overlooked').records).toContain('sites/ottermere/visits/2025-12-02-okafor.yaml')
    expect(rowsIn(answerIn(named, 'last-review'), 'last-decisions')[0]).toMatchObject({ who: 'Wes Tarrow' })
    expect(answerIn(named, 'overlooked').recordCount).toBe(answerIn(named, 'overlooked').records.length)
    const { recordCount, records } = answerIn(reviewIn(example()), 'overlooked')
    expect({ recordCount, records }).toEqual({
      recordCount: answerIn(named, 'overlooked').recordCount,
      records: [],
    })
  })

  it('shows the complaint log only where it is asked to', () => {
    const words = 'little flies'
    const said = exampleWith({
      'sites/ottermere/complaints/2026-02-09-quill.yaml': `by: quill\nfrom: staff\narea: library\npest: fungus-gnat\nsays: ${words}, says Lind\n`,
    })
    expect(saidIn(reviewIn(said))).not.toContain(words)
    const shown = reviewIn(said, { with: ['complaints'], site: 'ottermere' })
    expect(rowsIn(answerIn(shown, 'channels'), 'complaints-complaints')[0]).toMatchObject({
      says: `${words}, says the site manager`,
    })
    expect(reviewHtml(shown)).toContain(words)
  })

  it('tells of single devices only beside a floor plan', () => {
    expect(saidIn(reviewIn(example(), { site: 'ottermere' }))).not.toMatch(/\bK[1-9]\b/)
    const plan = reviewIn(example(), { site: 'ottermere', with: ['floor-plan'] })
    expect(rowsIn(answerIn(plan, 'floor-plan'), 'map-devices').map(({ device }) => device)).toContain('K1')
    expect(reviewHtml(plan)).toContain('<svg')
    // Of a district there is no one plan.
    expect(reviewIn(example(), { with: ['floor-plan'] }).answers.map(({ id }) => id)).not.toContain(
      'floor-plan',
    )
  })
})

describe('hostile text', () => {
  const evil = '<img src=x onerror=alert(1)></style><script>alert(2)</script> | `x` \\u202e # **b**'
  const source = () =>
    oak(
      { '2026-03-08': `conditions:\n  gap: {new: ${JSON.stringify(evil)}, area: kitchen, gives: food}\n` },
      {
        'district.yaml': district.replace('Example District', JSON.stringify(evil)),
        'reviews/2025.yaml': `held: 2025-12-01\nby: marsh\npresent: [${JSON.stringify(evil)}]\ndecisions:\n  a: {what: ${JSON.stringify(evil)}}\n`,
        'education/2026-02-01-marsh.yaml': `by: marsh\nkind: talk\ntopic: ${JSON.stringify(evil)}\naudience: teachers\n`,
      },
    )

  it('stays text in a page', () => {
    const html = reviewHtml(reviewIn(source(), asked))
    expect(html).not.toMatch(/<(?:img|script)/)
    expect(html.match(/<\/style>/g)).toHaveLength(1)
    expect(html).not.toContain('\u202e')
    expect(html.match(/onerror/g)?.length).toBeGreaterThan(2)
  })

  it('stays text in Markdown', () => {
    const text = reviewMarkdown(reviewIn(source(), asked))
    expect(text).not.toMatch(/(?<!\\)<(?:img|script)/)
    for (const line of text.split('\n')) if (line.startsWith('#')) expect(line).toMatch(/^#{1,4} \S/)
    expect(text).not.toMatch(/[^\\]\*\*b\*\*/)
  })

  it.each([
    ['Smith-Jones and Ida showed it', 'The technician and Ida showed it'],
    [
      'as smith-jones says in visits/2026-03-12-smith-jones.yaml',
      'as the technician says in visits/2026-03-12.yaml',
    ],
    ['Mary Smith-Jones swept the multi-purpose room', 'The technician swept the multi-purpose room'],
    [
      'in Smith-Jones Hall, the 3-day wait of 2026-03-12',
      'in Smith-Jones Hall, the 3-day wait of 2026-03-12',
    ],
  ])('has a name with a hyphen masked: %s', (topic, masked) => {
    const named = oak(
      {},
      {
        'people/smith-jones.yaml': 'name: Mary Smith-Jones\nroles: [technician]\n',
        'sites/oak/site.yaml':
          'name: Oak\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas:\n  hall: {kind: dining, name: Smith-Jones Hall}\n  b: {kind: kitchen, name: Multi-purpose 3-B}\n',
        'education/2026-02-01-marsh.yaml': `by: marsh\nkind: talk\ntopic: "${topic}"\naudience: teachers\n`,
      },
    )
    expect(rowsIn(answerIn(reviewIn(named, asked), 'education'), 'education')).toMatchObject([
      { topic: masked },
    ])
  })

  it('is masked only where it is a name', () => {
    const named = oak(
      {},
      {
        'people/oakley.yaml': 'name: Ida Oakley\nroles: [custodian]\n',
        'education/2026-02-01-marsh.yaml':
          'by: marsh\nkind: talk\ntopic: "Ida Oakley shows (.*) how; $& oakley"\naudience: teachers\n',
      },
    )
    expect(rowsIn(answerIn(reviewIn(named, asked), 'education'), 'education')).toMatchObject([
      { topic: 'The custodian shows (.*) how; $& the custodian' },
    ])
  })
})
