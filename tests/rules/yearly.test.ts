import { describe, expect, it } from 'vitest'
import { standsOn } from '../../src/check/run-check.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { annualNotice } from '../../src/rules/yearly/example-ledgers.js'
import { yearlyRules } from '../../src/rules/yearly/index.js'
import { checkOf } from '../check/checking.js'

const ids = new Set(yearlyRules.map(({ id }) => id))

/** What this family says, standing on a day or not; the other families are judged by their own tests. */
function problemsOf(overlay: string, asOf = '2026-03-20') {
  const { problems, faults } = checkOf(overlay, asOf)
  // A slip in the records of a test is not to pass for silence.
  if (faults.length > 0) throw new Error(`the ledger of this test cannot be read: ${JSON.stringify(faults)}`)
  return problems.filter(({ rule }) => ids.has(rule))
}

/** Each problem as rule, first day, and day it ended. */
const spansOf = (overlay: string, asOf?: string) =>
  problemsOf(overlay, asOf).map(({ rule, from, until }) =>
    [rule, isoOf(from), ...(until === undefined ? [] : [isoOf(until)])].join(' '),
  )

/** What is true on 2026-03-20, and not only later. */
const standingOf = (overlay: string) =>
  problemsOf(overlay).filter((problem) => standsOn(problem, dayOf('2026-03-20') ?? 0))

const saying = (overlay: string) =>
  standingOf(overlay).map(({ rule, args }) => yearlyRules.find(({ id }) => id === rule)?.says(args))

const law = 'source: "Invented Pest Act, section 12", kind: law, confidence: read'
const schoolYears = `
  - {from: 2024-09-03, until: 2025-06-13}
  - {from: 2025-09-02, until: 2026-06-12}
  - {from: 2026-09-01, until: 2027-06-11}`

interface Set {
  readonly begin?: string
  readonly rulebook?: string
  readonly calendar?: string
}

/** The district under duties of its own, with the school years 2024-2025 to 2026-2027. */
const under = (
  duties: string,
  { begin = '2025-09-02', rulebook = begin, calendar = schoolYears }: Set = {},
) => `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: ${begin}
coordinator: [{from: ${begin}, who: marsh}]
rulebooks:
  - {from: ${begin}, rulebook: practice}
  - {from: ${rulebook}, rulebook: own}
calendar: ${calendar}
=== rulebooks/own.yaml
title: Invented rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: what this example shows
does-not-cover: [everything else]
uses:
  gel: [{from: 2020-01-01, any: [{formulation: [gel]}], ${law}}]
yearly:
${duties.trimEnd().replace(/^/gm, '  ')}
`
const duty = (facts: string, name = 'notice', basis = law) =>
  `${name}: [{from: 2020-01-01, ${facts}, ${basis}}]\n`
const notice = (facts = '') => duty(`what: annual-notice, year: school, days-from-start: 30${facts}`)
const report = (facts = '') =>
  duty(`what: report-to-the-state, year: calendar, days-after-end: 30${facts}`, 'report')

const filing = (day: string, what: string, year: string, facts = '') => `
=== filings/${day}-marsh.yaml
by: marsh
what: ${what}
year: "${year}"
${facts.trim()}
`
const used = (day: string, facts = '', product = 'spray-a') => `
=== sites/oak/applications/${day}-okafor.yaml
by: okafor
status: done
product: ${product}
pest: german-cockroach
areas: {kitchen: {amount: 2 fl oz}}
method: spot
time: 17:10 to 17:30
${facts.trim()}
`
const told = (day: string, to: string, of: string, who = 'marsh', at = '') => `
=== sites/oak/notices/${day}-${who}.yaml
by: ${who}
application: ${of}-okafor
sent: {to: ${to}${at === '' ? '' : `, at: ${at}`}}
`

describe('yearly-filing-missing', () => {
  // The school year began on 2 September 2025; 30 days later it is 2 October.
  it.each<[string, string, string[]]>([
    ['nothing was sent', '', ['yearly-filing-missing 2025-10-03']],
    ['sent on the last day', filing('2025-10-02', 'annual-notice', '2025-2026'), []],
    [
      'sent the day after: a day late, made good on the first day it was missing',
      filing('2025-10-03', 'annual-notice', '2025-2026'),
      ['yearly-filing-missing 2025-10-03 2025-10-03'],
    ],
    [
      'sent two days after',
      filing('2025-10-04', 'annual-notice', '2025-2026'),
      ['yearly-filing-missing 2025-10-03 2025-10-04'],
    ],
    [
      'sent for another year',
      filing('2025-10-02', 'annual-notice', '2024-2025'),
      ['yearly-filing-missing 2025-10-03'],
    ],
    [
      'something else was sent',
      filing('2025-10-02', 'plan-published', '2025-2026'),
      ['yearly-filing-missing 2025-10-03'],
    ],
    ['sent before the year began', filing('2025-08-20', 'annual-notice', '2025-2026'), []],
  ])('%s', (_, filings, expected) => {
    expect(spansOf(under(notice()) + filings)).toEqual(expected)
  })

  it('says what and by when, and points at the rulebook', () => {
    expect(saying(under(notice()))).toEqual([
      'The records show no annual notice for 2025-2026, which was due by 2025-10-02.',
    ])
    expect(problemsOf(under(notice())).map(({ at, level }) => [at.path.join('.'), level])).toEqual([
      ['rulebooks.1', 'error'],
    ])
  })

  it.each<[string, string, string, string]>([
    // Without a term it is due by the last day of the year: 12 June 2026.
    ['school', '', '2026-06-20', '2026-06-13'],
    ['school', 'days-from-start: 0', '2026-06-20', '2025-09-03'],
    // 30 days after 12 June is 12 July.
    ['school', 'days-after-end: 30', '2026-07-20', '2026-07-13'],
  ])('%s year, %s', (year, term, asOf, from) => {
    const facts = `what: annual-notice, year: ${year}${term === '' ? '' : `, ${term}`}`
    expect(spansOf(under(duty(facts)), asOf)).toEqual([`yearly-filing-missing ${from}`])
  })

  it('is known before it is due', () => {
    expect(checkOf(under(notice()), '2025-10-02').standing.map(({ rule }) => rule)).not.toContain(
      'yearly-filing-missing',
    )
    expect(spansOf(under(notice()), '2025-09-20')).toEqual(['yearly-filing-missing 2025-10-03'])
    // The next school year has not begun.
    expect(spansOf(under(notice()), '2026-08-31')).toHaveLength(1)
    expect(spansOf(under(notice()), '2026-09-01')).toHaveLength(2)
  })

  describe('a year is not asked about', () => {
    it.each<[string, string, string[]]>([
      // 31 December 2025 and 30 days is 30 January 2026.
      ['began with the records', '2025-01-01', ['yearly-filing-missing 2026-01-31']],
      ['began a day before the records', '2025-01-02', []],
    ])('a calendar year that %s', (_, begin, expected) => {
      expect(spansOf(under(report(), { begin }), '2026-03-20').slice(0, 1)).toEqual(
        expected.length > 0 ? expected : ['yearly-filing-missing 2027-01-31'],
      )
    })

    it('that had begun before the rulebook came into force', () => {
      expect(spansOf(under(notice(), { rulebook: '2025-09-03' }))).toEqual([])
      expect(spansOf(under(notice(), { rulebook: '2025-09-02' }))).toHaveLength(1)
    })

    it('whose duty had ended before it was due', () => {
      const until = (day: string) =>
        under(notice().replace('from: 2020-01-01', `from: 2020-01-01, until: ${day}`))
      expect([spansOf(until('2025-10-01')), spansOf(until('2025-10-02'))]).toEqual([
        [],
        ['yearly-filing-missing 2025-10-03'],
      ])
    })

    it('of a kind that no calendar states', () => {
      expect(spansOf(under(notice(), { calendar: '[]' }))).toEqual([])
    })
  })

  it('reads the version of the day the year began', () => {
    const versions = `notice:
  - {from: 2020-01-01, what: annual-notice, year: school, days-from-start: 30, ${law}}
  - {from: 2026-01-01, what: annual-notice, year: school, days-from-start: 10, ${law}}
`
    // 1 September 2026 and 10 days is 11 September.
    expect(spansOf(under(versions), '2026-09-20')).toEqual([
      'yearly-filing-missing 2025-10-03',
      'yearly-filing-missing 2026-09-12',
    ])
  })

  describe('every so many years', () => {
    const programme = (every: number) =>
      duty(`what: programme-notified, year: calendar, every: ${every}`, 'programme')
    const missing = (set: Set, filings = '', every = 5, asOf = '2026-03-20') =>
      spansOf(under(programme(every), set) + filings, asOf)
    const notified = (day: string) => filing(day, 'programme-notified', day.slice(0, 4))

    it('is counted from the records where nothing was filed', () => {
      // Five years from 2020 is 2025, due by its last day; from 2021 it is 2026.
      expect(missing({ begin: '2020-06-01' })).toEqual(['yearly-filing-missing 2026-01-01'])
      expect(missing({ begin: '2021-06-01' })).toEqual(['yearly-filing-missing 2027-01-01'])
      expect(missing({ begin: '2022-06-01' })).toEqual([])
    })
    it('is counted from the rulebook where that came later', () => {
      expect(missing({ begin: '2019-06-01', rulebook: '2021-03-01' })).toEqual([
        'yearly-filing-missing 2027-01-01',
      ])
    })
    it('is counted from the duty where that came later', () => {
      expect(missing({ begin: '2018-06-01' })).toEqual(['yearly-filing-missing 2026-01-01'])
    })
    it('is counted from what was filed last', () => {
      expect(missing({ begin: '2020-06-01' }, notified('2021-04-01'))).toEqual([
        'yearly-filing-missing 2027-01-01',
      ])
      expect(missing({ begin: '2020-06-01' }, notified('2022-04-01'))).toEqual([])
      // Also from before the records; 2019 and 5 is 2024.
      expect(missing({ begin: '2020-06-01' }, notified('2019-04-01'))).toEqual([
        'yearly-filing-missing 2025-01-01',
      ])
      // The term of a filing of 2015 ends in 2020, the year in which the records begin: it was due by its last day.
      expect(missing({ begin: '2020-01-01' }, notified('2015-04-01'))).toEqual([
        'yearly-filing-missing 2021-01-01',
      ])
      // What was filed in 2010 says nothing of 2015, of which there are no records.
      expect(missing({ begin: '2020-06-01' }, notified('2010-04-01'))).toEqual([
        'yearly-filing-missing 2026-01-01',
      ])
    })
    it('is told once, until it was filed late', () => {
      // Three years from 2020 is 2023.
      expect(missing({ begin: '2020-06-01' }, '', 3)).toEqual(['yearly-filing-missing 2024-01-01'])
      expect(missing({ begin: '2020-06-01' }, notified('2025-02-01'), 3)).toEqual([
        'yearly-filing-missing 2024-01-01 2025-02-01',
      ])
    })
  })

  describe('once for all', () => {
    const plan = under(duty('what: plan-published, year: school, days-from-start: 0, once: yes', 'plan'), {
      begin: '2024-09-03',
    })
    const published = (date: string, year: string) => filing(date, 'plan-published', year)
    it.each<[string, string, string[]]>([
      // The first year in the records began on 3 September 2024.
      ['never: told for the first year', '', ['yearly-filing-missing 2024-09-04']],
      ['in the first year', published('2024-09-03', '2024-2025'), []],
      ['before the records', published('2019-05-06', '2018-2019'), []],
      [
        'in the second year',
        published('2025-10-01', '2025-2026'),
        ['yearly-filing-missing 2024-09-04 2025-10-01'],
      ],
      ['for a year to come', published('2024-09-01', '2025-2026'), ['yearly-filing-missing 2024-09-04']],
    ])('%s', (_, filings, expected) => expect(spansOf(plan + filings)).toEqual(expected))

    it('from the first year with a use', () => {
      const used2026 = under(
        duty('what: plan-published, year: school, days-from-start: 0, once: yes, only-if-used: yes', 'plan'),
        { begin: '2024-09-03' },
      )
      expect(spansOf(used2026 + used('2026-03-12') + used('2026-09-10'), '2026-09-20')).toEqual([
        'yearly-filing-missing 2026-03-13',
      ])
    })
  })

  describe('only in a year with a use', () => {
    const own = under(notice(', only-if-used: yes, holds-for: [gel]'), { begin: '2025-09-02' })
    const gel = (day: string) => used(day, 'formulation: gel', 'bait-a')
    it('of the class it holds for', () => {
      expect(spansOf(own)).toEqual([])
      expect(spansOf(own + used('2026-03-12'))).toEqual([])
      // The site answers from the first day of the records; used before the term was over, it is due as ever.
      expect(spansOf(own + gel('2025-09-20'))).toEqual(['yearly-filing-missing 2025-10-03'])
    })
    it('and not before that use', () => {
      expect(spansOf(own + gel('2026-03-12'))).toEqual(['yearly-filing-missing 2026-03-13'])
      expect(spansOf(own + gel('2026-03-12') + annualNotice('', '2026-03-12'))).toEqual([])
    })
    it('a recess belongs to the year before it', () => {
      expect(spansOf(own + gel('2026-08-31'), '2026-09-20')).toEqual(['yearly-filing-missing 2026-09-01'])
      // 1 September 2026 and 30 days is 1 October.
      expect(spansOf(own + gel('2026-09-01'), '2026-09-20')).toEqual(['yearly-filing-missing 2026-10-02'])
    })
  })

  it('what several rulebooks ask for one year is told once, for the earliest term', () => {
    const two = `${notice()}${duty(
      'what: annual-notice, year: school, days-from-start: 60',
      'later',
      'source: board policy 7, kind: standard, confidence: read',
    )}`
    const found = (asOf: string) =>
      problemsOf(under(two), asOf).map(({ from, sources }) => [isoOf(from), sources.length])
    expect(found('2026-03-20')).toEqual([['2025-10-03', 2]])
    // The later term is not over yet.
    expect(found('2025-10-20')).toEqual([['2025-10-03', 1]])
  })

  it.each([
    ['law', 'error'],
    ['standard', 'warning'],
    ['practice', 'note'],
  ])('a duty of %s: %s', (kind, level) => {
    const own = under(
      duty(
        'what: annual-notice, year: school, days-from-start: 30',
        'notice',
        `source: invented, kind: ${kind}, confidence: no source`,
      ),
    )
    expect(problemsOf(own).map((problem) => problem.level)).toEqual([level])
  })

  it('nothing is called missing while a filing cannot be read', () => {
    const broken = `${under(notice())}
=== filings/2025-09-04-marsh.yaml
by: marsh
what: anual-notice
`
    const { problems, notChecked } = checkOf(broken)
    expect(problems.filter(({ rule }) => ids.has(rule))).toEqual([])
    expect(notChecked.map(({ what }) => what)).toEqual(['filing 2025-09-04-marsh'])
  })
})

describe('yearly-filing-incomplete', () => {
  const own = under(notice(', to: everyone, says: [policy, coordinator-contact]'))
  const sent = (facts: string, day = '2025-09-04') => filing(day, 'annual-notice', '2025-2026', facts)
  const both = 'says: [policy, coordinator-contact]'

  it.each<[string, string, string[]]>([
    ['everything, to everyone', `to: everyone\n${both}`, []],
    ['more than was asked', 'to: everyone\nsays: [products-used, coordinator-contact, policy]', []],
    [
      'one thing is missing',
      'to: everyone\nsays: [policy]',
      ['The annual notice for 2025-2026 does not say: coordinator-contact.'],
    ],
    [
      'nothing is recorded of what it says',
      'to: everyone',
      ['The annual notice for 2025-2026 does not say: policy, coordinator-contact.'],
    ],
    [
      'only parents',
      `to: all parents\n${both}`,
      ['The annual notice for 2025-2026 is not recorded as sent to all staff.'],
    ],
    [
      'only those who asked',
      `to: those who asked\n${both}`,
      ['The annual notice for 2025-2026 is not recorded as sent to everyone.'],
    ],
    [
      'whom it went to is not recorded',
      both,
      ['The annual notice for 2025-2026 is not recorded as sent to everyone.'],
    ],
    [
      'both',
      'to: all staff\nsays: [policy]',
      [
        'The annual notice for 2025-2026 does not say: coordinator-contact; it is not recorded as sent to all parents.',
      ],
    ],
  ])('%s', (_, facts, expected) => {
    expect(saying(own + sent(facts))).toEqual(expected)
  })

  it('points at what it says, at whom it went to, or at what it is', () => {
    const at = (facts: string) => problemsOf(own + sent(facts)).map(({ at: place }) => place.path.join('.'))
    expect([
      at('to: everyone\nsays: [policy]'),
      at('to: everyone'),
      at(`to: all staff\n${both}`),
      at(both),
    ]).toEqual([['says'], ['what'], ['to'], ['what']])
  })

  describe('several filings for one year add up', () => {
    // Six days from the first day of school are 8 September: the second filing, on the 10th, comes after the term.
    const soon = under(
      duty(
        'what: annual-notice, year: school, days-from-start: 6, to: everyone, says: [policy, coordinator-contact]',
      ),
    )
    it.each([
      ['parents first, staff within the term', `to: all parents\n${both}`, `to: all staff\n${both}`],
      ['what was missing', 'to: everyone\nsays: [policy]', 'to: everyone\nsays: [coordinator-contact]'],
    ])('%s: whole by the day it is due', (_, first, second) => {
      expect(spansOf(own + sent(first) + sent(second, '2025-09-10'))).toEqual([])
    })

    it('what is missing from all of them is told where it lacks, in what it lacks', () => {
      const parts =
        soon + sent(`to: all parents\n${both}`) + sent('to: all staff\nsays: [policy]', '2025-09-10')
      expect(problemsOf(parts).map(({ at, args }) => [at.file, at.path, args.lacks, args.unreached])).toEqual(
        [['filings/2025-09-10-marsh.yaml', ['says'], ['coordinator-contact'], '']],
      )
    })

    it.each<[string, string, string, string[]]>([
      [
        'parents first, staff six days later',
        `to: all parents\n${both}`,
        `to: all staff\n${both}`,
        ['yearly-filing-incomplete 2025-09-04 2025-09-10'],
      ],
      [
        'what was missing, six days later',
        'to: everyone\nsays: [policy]',
        'to: everyone\nsays: [coordinator-contact]',
        ['yearly-filing-incomplete 2025-09-04 2025-09-10'],
      ],
      [
        'what was missing, to some only',
        'to: everyone\nsays: [policy]',
        'to: all staff\nsays: [coordinator-contact]',
        ['yearly-filing-incomplete 2025-09-04'],
      ],
      ['a short one after a whole one', `to: everyone\n${both}`, 'to: all staff\nsays: [policy]', []],
    ])('%s', (_, first, second, expected) => {
      expect(spansOf(soon + sent(first) + sent(second, '2025-09-10'))).toEqual(expected)
    })
  })

  it.each([
    ['the state', 'the state', true],
    ['the state', 'the public', false],
    ['the public', 'the public', true],
    ['the public', 'everyone', false],
  ])('asked to %s, sent to %s', (asked, to, isWhole) => {
    const found = spansOf(
      under(report(`, to: ${asked}`), { begin: '2025-01-01' }) +
        filing('2026-01-20', 'report-to-the-state', '2025', `to: ${to}`),
    )
    expect(found.filter((line) => line.includes('incomplete'))).toEqual(
      isWhole ? [] : ['yearly-filing-incomplete 2026-01-20'],
    )
  })

  it('is not asked of what no duty asks for, nor of a year without a use', () => {
    const gelOnly = under(notice(', to: everyone, only-if-used: yes, holds-for: [gel]'))
    expect(spansOf(gelOnly + sent('to: all staff'))).toEqual([])
    const gel = used('2026-03-12', 'formulation: gel', 'bait-a')
    expect(spansOf(gelOnly + sent('to: all staff') + gel)).toEqual(['yearly-filing-incomplete 2025-09-04'])
    expect(
      spansOf(own + sent(`to: everyone\n${both}`) + filing('2025-09-05', 'plan-published', '2025-2026')),
    ).toEqual([])
  })

  it('is asked of what was sent before the year began, within the records', () => {
    const early = (begin: string) =>
      spansOf(
        under(notice(', to: everyone'), { begin }) +
          filing('2025-08-20', 'annual-notice', '2025-2026', 'to: all staff'),
        '2025-08-25',
      )
    expect([early('2025-08-20'), early('2025-08-21')]).toEqual([['yearly-filing-incomplete 2025-08-20'], []])
  })

  it('what several rulebooks ask is told once, with those that were broken', () => {
    const two = `${notice(', to: everyone, says: [policy]')}${duty(
      'what: annual-notice, year: school, days-from-start: 30, says: [coordinator-contact]',
      'later',
      'source: board policy 7, kind: standard, confidence: read',
    )}`
    const found = problemsOf(under(two) + sent('to: everyone\nsays: [policy]'))
    expect(
      found.map(({ level, args, sources }) => [level, args.lacks, sources.map(({ text }) => text)]),
    ).toEqual([['warning', ['coordinator-contact'], ['board policy 7']]])
  })
})

describe('product-not-on-annual-list', () => {
  const own = under(notice(', to: everyone, lists-products: yes'))
  const listed = (products: string, day = '2025-09-04') =>
    filing(
      day,
      'annual-notice',
      '2025-2026',
      `to: everyone${products === '' ? '' : `\nproducts: [${products}]`}`,
    )
  const found = (overlay: string, asOf?: string) =>
    spansOf(overlay, asOf).filter((line) => line.startsWith('product'))

  it.each<[string, string, string[]]>([
    ['named', listed('bait-a, spray-a') + used('2026-03-12'), []],
    ['not named', listed('bait-a') + used('2026-03-12'), ['product-not-on-annual-list 2026-03-12']],
    ['a list of nothing', listed('') + used('2026-03-12'), ['product-not-on-annual-list 2026-03-12']],
    [
      'named in an amended list of the same day',
      listed('bait-a') + listed('spray-a', '2026-03-12') + used('2026-03-12'),
      [],
    ],
    [
      'named in an amended list of the next day',
      listed('bait-a') + listed('spray-a', '2026-03-13') + used('2026-03-12'),
      ['product-not-on-annual-list 2026-03-12'],
    ],
    [
      'named for another year',
      listed('bait-a') +
        filing('2025-09-05', 'annual-notice', '2024-2025', 'products: [spray-a]') +
        used('2026-03-12'),
      ['product-not-on-annual-list 2026-03-12'],
    ],
  ])('%s', (_, overlay, expected) => expect(found(own + overlay)).toEqual(expected))

  it('says so once for a product, a year and a site, at its first use', () => {
    const overlay = own + listed('bait-a') + used('2026-03-12') + used('2026-03-13') + used('2026-03-17')
    expect(saying(overlay)).toEqual([
      'No annual notice for 2025-2026 sent by then names Invented Spray A, and no notice of this application to everyone is recorded before it, nor on 2 later uses.',
    ])
    expect(problemsOf(overlay).map(({ at }) => `${at.file} ${at.path.join('.')}`)).toEqual([
      'sites/oak/applications/2026-03-12-okafor.yaml product',
    ])
  })

  describe('a notice of the one application to everyone', () => {
    const unlisted = own + listed('bait-a') + used('2026-03-12')
    // It begins at 17:10.
    it.each<[string, string, boolean]>([
      ['three days before', told('2026-03-09', 'everyone', '2026-03-12'), true],
      ['a minute before', told('2026-03-12', 'everyone', '2026-03-12', 'marsh', '17:09'), true],
      ['as it begins', told('2026-03-12', 'everyone', '2026-03-12', 'marsh', '17:10'), false],
      ['the day after', told('2026-03-13', 'everyone', '2026-03-12'), false],
      ['to parents only', told('2026-03-09', 'all parents', '2026-03-12'), false],
      [
        'to parents and to staff',
        told('2026-03-09', 'all parents', '2026-03-12') +
          told('2026-03-09', 'all staff', '2026-03-12', 'lind'),
        true,
      ],
      ['to those who asked', told('2026-03-09', 'those who asked', '2026-03-12'), false],
      ['of another application', told('2026-03-09', 'everyone', '2026-03-13') + used('2026-03-13'), false],
      [
        'a sign is none',
        `\n=== sites/oak/notices/2026-03-09-marsh.yaml\nby: marsh\napplication: 2026-03-12-okafor\nposted: {places: [door]}\n`,
        false,
      ],
    ])('%s', (_, notices, isTold) => {
      expect(found(unlisted + notices)).toEqual(isTold ? [] : ['product-not-on-annual-list 2026-03-12'])
    })
  })

  it('asks only of what the duty holds for, of pesticides, and within the records', () => {
    const gelOnly = under(notice(', lists-products: yes, holds-for: [gel]'))
    expect(found(gelOnly + listed('bait-a') + used('2026-03-12'))).toEqual([])
    const later = own
      .replaceAll('2025-09-02', '2026-03-01')
      .replace('from: 2026-03-01, until: 2026-06-12', 'from: 2025-09-02, until: 2026-06-12')
    expect(found(later + listed('bait-a') + used('2026-02-27'))).toEqual([])
    expect(found(later + listed('bait-a') + used('2026-03-12'))).toEqual([
      'product-not-on-annual-list 2026-03-12',
    ])
  })

  describe('no list at all', () => {
    // Due by 2 October 2025; the base asks nothing of the site before March 2026.
    const site = `
=== sites/oak/site.yaml
name: Oak School
from: 2025-09-02
site-manager: [{from: 2025-09-02, who: lind}]
complaint-log: front office
contract: []
areas: {kitchen: {kind: kitchen}, room-1: {kind: classroom}}
`
    it('is what is told once it is overdue', () => {
      expect(spansOf(own + site + used('2025-09-20'))).toEqual(['yearly-filing-missing 2025-10-03'])
    })
    it('within the time for it to go out: held against the first one', () => {
      const firstList = (products: string, day: string) =>
        found(own + site + used('2025-09-05') + listed(products, day))
      expect(firstList('spray-a', '2025-09-20')).toEqual([])
      expect(firstList('bait-a', '2025-09-20')).toEqual(['product-not-on-annual-list 2025-09-20'])
      // Late, the list itself is told, and not again what was used before it.
      expect(firstList('spray-a', '2025-10-20')).toEqual([])
      expect(found(own + site + used('2025-10-10') + listed('bait-a', '2025-10-20'))).toEqual([
        'product-not-on-annual-list 2025-10-20',
      ])
    })
    it('where it has no such time, nothing names what is used, until the list is overdue', () => {
      // By the last day of the school year, 12 June 2026.
      const byTheEnd = under(duty('what: annual-notice, year: school, to: everyone, lists-products: yes'))
      expect(spansOf(byTheEnd + site + used('2025-09-20')).sort()).toEqual([
        'product-not-on-annual-list 2025-09-20 2026-06-13',
        'yearly-filing-missing 2026-06-13',
      ])
      expect(found(byTheEnd + site + used('2025-09-20') + listed('spray-a', '2025-09-21'))).toEqual([
        'product-not-on-annual-list 2025-09-20',
      ])
    })
    it('of a year that began before the records, may have been sent before them', () => {
      const later = under(notice(', lists-products: yes'), { begin: '2025-09-03' })
      expect(spansOf(later + used('2026-03-12'))).toEqual([])
      expect(spansOf(later + listed('bait-a', '2025-09-02') + used('2026-03-12'))).toEqual([
        'product-not-on-annual-list 2026-03-12',
      ])
    })
  })

  describe('a report to the state', () => {
    const state = under(report(', lists-products: yes'), { begin: '2025-01-01' })
    const filed = (products: string, day = '2026-01-20') =>
      filing(day, 'report-to-the-state', '2025', products === '' ? '' : `products: [${products}]`)
    const inYear = used('2025-11-12')

    it.each<[string, string, string[]]>([
      ['names what was used', filed('spray-a') + inYear, []],
      ['leaves it out', filed('bait-a') + inYear, ['product-not-on-annual-list 2026-01-20']],
      ['names nothing', filed('') + inYear, ['product-not-on-annual-list 2026-01-20']],
      [
        'was mended ten days later',
        filed('bait-a') + filed('spray-a', '2026-01-30') + inYear,
        ['product-not-on-annual-list 2026-01-20 2026-01-30'],
      ],
      ['names what was not used', filed('bait-a, spray-a') + inYear, []],
      ['is of another year', filed('bait-a') + used('2026-01-12'), []],
    ])('%s', (_, overlay, expected) => expect(found(state + overlay)).toEqual(expected))

    it('is told at the report, with the first use', () => {
      const overlay = state + filed('bait-a') + inYear + used('2025-12-01')
      expect(saying(overlay)).toEqual([
        'The report to the state for 2025 does not name Invented Spray A, which was used in oak on 2025-11-12.',
      ])
      expect(
        standingOf(overlay).map(({ at, related }) => [at.file, at.path.join('.'), related[0]?.place.file]),
      ).toEqual([
        ['filings/2026-01-20-marsh.yaml', 'products', 'sites/oak/applications/2025-11-12-okafor.yaml'],
      ])
    })

    it('is not asked for here where there is none: that is told as missing', () => {
      expect(found(state + inYear)).toEqual([])
    })
  })
})
