import { describe, expect, it } from 'vitest'
import { districtWith, law, notice, parentsTold, problemsOf, sprayed, told } from './notices-checking.js'

const own = (sections: string, calendar?: string) => districtWith({ own: sections }, calendar)
const spray = sprayed('2026-03-12')

const bothTold = (reach: string) => `
notices:
  parents: [${law(`to: parents, reach: ${reach}, lead: 72 hours`)}]
  staff: [${law(`to: staff, reach: ${reach}, lead: 72 hours`)}]
`

describe('who is told', () => {
  const all = own(bothTold('all'))
  const either = own(bothTold('all or those who asked'))
  const list = own(bothTold('those who asked'))
  const sent = (to: string, more = '') => notice('2026-03-08', `sent: {to: ${to}${more}}`)
  it.each<[string, string, string[]]>([
    ['all: everyone', all + sent('everyone'), []],
    ['all: parents alone', all + sent('all parents'), ['notice-missing staff']],
    ['all: staff alone', all + sent('all staff'), ['notice-missing parents']],
    ['all: those who asked', all + sent('those who asked'), ['notice-to-too-few parents and staff']],
    ['all: nobody', all, ['notice-missing parents and staff']],
    [
      'all: parents, and of staff those who asked',
      all + sent('all parents') + notice('2026-03-07', 'sent: {to: those who asked}', '2026-03-12', 'lind'),
      ['notice-to-too-few staff'],
    ],
    ['either: those who asked', either + sent('those who asked'), []],
    ['either: parents alone', either + sent('all parents'), ['notice-missing staff who asked']],
    ['either: everyone', either + sent('everyone'), []],
    ['those who asked: nobody', list, ['notice-missing parents who asked and staff who asked']],
    ['those who asked: everyone', list + sent('everyone'), []],
    // Nobody on the list is nobody to tell, whenever that was looked up.
    [
      'those who asked, and nobody did',
      list + notice('2026-03-11', 'sent: {to: those who asked, recipients: 0}'),
      [],
    ],
    ['either, and nobody asked', either + sent('those who asked', ', recipients: 0'), []],
    [
      'all, and nobody asked',
      all + sent('those who asked', ', recipients: 0'),
      ['notice-to-too-few parents and staff'],
    ],
  ])('%s', (_, ledger, expected) => {
    const found = problemsOf(ledger + spray).map(({ rule, args }) => `${rule} ${args.groups}`)
    expect(found.sort()).toEqual(expected)
  })
})

describe('what a notice says', () => {
  const duty = own(
    parentsTold('reach: all, lead: 72 hours, says: [trade-name, registration, location, reason]'),
  )
  const sent = (facts: string, more = '') =>
    notice('2026-03-08', `sent: {to: everyone${facts}}\n${more}`) +
    (more === '' ? '' : '\n=== sites/oak/notices/notice.md\nAn invented notice.\n')
  const found = (ledger: string) =>
    problemsOf(ledger).map(({ rule, level, args, at }) => [rule, level, args.missing, args.recorded, at.path])
  it.each<[string, string, unknown[]]>([
    ['everything, and more', sent(', says: [date, trade-name, registration, location, reason]'), []],
    [
      'not everything: what lacks, in the order it is asked',
      sent(', says: [reason, trade-name, date]'),
      [['notice-incomplete', 'error', ['registration', 'location'], 'listed', ['sent', 'says']]],
    ],
    [
      'not recorded',
      sent(''),
      [
        [
          'notice-incomplete',
          'error',
          ['trade-name', 'registration', 'location', 'reason'],
          'nowhere',
          ['sent'],
        ],
      ],
    ],
    [
      'kept as a file that no check reads',
      sent('', 'text: notice.md'),
      [
        [
          'notice-incomplete',
          'warning',
          ['trade-name', 'registration', 'location', 'reason'],
          'as a file',
          ['sent'],
        ],
      ],
    ],
    [
      'listed, whatever the file says',
      sent(', says: [trade-name]', 'text: notice.md'),
      [['notice-incomplete', 'error', ['registration', 'location', 'reason'], 'listed', ['sent', 'says']]],
    ],
  ])('%s', (_, record, expected) => {
    expect(found(duty + spray + record)).toEqual(expected)
  })

  it('lacks once what two groups are to be told', () => {
    const both = own(`
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours, says: [trade-name, reason]')}]
  staff: [${law('to: staff, reach: all, lead: 72 hours, says: [trade-name, location]')}]
`)
    expect(found(both + spray + sent(', says: [date]'))).toEqual([
      ['notice-incomplete', 'error', ['trade-name', 'reason', 'location'], 'listed', ['sent', 'says']],
    ])
  })

  it('is asked of a late notice too', () => {
    expect(told(duty + spray + notice('2026-03-11', 'sent: {to: everyone, says: [date]}'))).toEqual([
      'notice-incomplete error',
      'notice-late error',
    ])
  })

  it('names other dates only for what is done wholly outdoors, and no emergency beforehand', () => {
    const dates = own(
      parentsTold(
        'reach: all, lead: 72 hours, says: [date, rain-dates, emergency-problem, emergency-reason]',
      ),
    )
    const site = `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  yard: {kind: playground}
  dock: {kind: loading-dock}
`
    const record = notice('2026-03-08', 'sent: {to: everyone, says: [date]}')
    const missing = (area: string) =>
      problemsOf(dates + site + record + sprayed('2026-03-12', 'time: 15:40 to 16:05', area)).map(
        ({ args }) => args.missing,
      )
    expect(missing('yard')).toEqual([['rain-dates']])
    expect(missing('kitchen')).toEqual([])
    // A dock may have a roof or not: nothing is concluded.
    expect(missing('dock')).toEqual([])
    expect(missing('yard: {amount: 1 fl oz}, kitchen')).toEqual([])
  })
})

describe('what nobody has to be told of', () => {
  const duty = own(
    parentsTold('reach: all, lead: 72 hours, not-for: [gel]').replace(
      'notices:',
      `
uses:
  gel: [{from: 2026-03-01, kind: law, confidence: read, source: "Invented Pest Act, section 2", any: [{formulation: [gel]}]}]
notices:`,
    ),
  )
  it.each<[string, string, string[]]>([
    ['a spray has to be told of', sprayed('2026-03-12'), ['notice-missing error']],
    ['an exempt use', sprayed('2026-03-12', '', 'kitchen', 'done', 'bait-a'), []],
    ['what is only planned', sprayed('2026-03-12', '', 'kitchen', 'planned'), []],
    ['what was cancelled', sprayed('2026-03-12', '', 'kitchen', 'cancelled'), []],
    ['what was done before the records begin', sprayed('2026-02-27'), []],
    [
      'what is no pesticide',
      `${sprayed('2026-03-12')}=== products/spray-a/product.yaml\nname: Invented Soap\nkind: other-material\n`,
      [],
    ],
    [
      'a product that the register does not have, told by another rule',
      sprayed('2026-03-12', '', 'kitchen', 'done', 'spray-x'),
      [],
    ],
  ])('%s', (_, ledger, expected) => {
    expect(told(duty + ledger)).toEqual(expected)
  })
})

describe('a recess', () => {
  const calendar = '[{from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-09 to 2026-03-13}}]'
  const duty = own(
    `${parentsTold('reach: all, lead: 72 hours, unless-in-recess: yes')}
postings:
  signs: [${law('before: 72 hours, unless-in-recess: yes')}]
`,
    calendar,
  )
  const both = ['notice-missing error', 'posting-missing error']
  it.each<[string, string, string, string[]]>([
    ['nobody in the building', '2026-03-12', 'pupils: none in the building', []],
    ['pupils elsewhere in the building', '2026-03-12', 'pupils: elsewhere in the building', both],
    ['where pupils were is not recorded', '2026-03-12', '', both],
    ['the day after the recess', '2026-03-16', 'pupils: none in the building', both],
    ['a weekend is no recess', '2026-03-07', 'pupils: none in the building', both],
  ])('%s', (_, on, pupils, expected) => {
    expect(told(duty + sprayed(on, pupils))).toEqual(expected)
  })
  it('holds where the rulebook does not say so', () => {
    const always = own(parentsTold('reach: all, lead: 72 hours'), calendar)
    expect(told(always + sprayed('2026-03-12', 'pupils: none in the building'))).toEqual([
      'notice-missing error',
    ])
  })
})

describe('bait in devices', () => {
  const duty = own(parentsTold('reach: all, lead: 72 hours'))
  const visit = (on: string, body: string) => `
=== sites/oak/visits/${on}-okafor.yaml
purpose: follow-up
by: okafor
time: 06:10 to 06:50
${body}
`
  const set = visit(
    '2026-03-10',
    'set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 g}}',
  )
  const refilled = (on: string) =>
    visit(on, 'readings: {B1: {bait-taken: all, bait-added: 1 g, product: bait-a}}')

  it('is told once for each product, with how many more', () => {
    const problems = problemsOf(duty + set + refilled('2026-03-12') + refilled('2026-03-14'))
    expect(problems.map(({ rule, args, at, from }) => [rule, args.more, at.file, from])).toEqual([
      // 2026-03-10 is day 20522.
      ['notice-missing', 2, 'sites/oak/visits/2026-03-10-okafor.yaml', 20522],
    ])
  })

  it('is told again in the next school year', () => {
    const years = own(
      parentsTold('reach: all, lead: 72 hours'),
      '[{from: 2025-09-02, until: 2026-03-11}, {from: 2026-03-12, until: 2026-06-12}]',
    )
    const problems = problemsOf(years + set + refilled('2026-03-12') + refilled('2026-03-14'))
    expect(problems.map(({ args, at }) => [args.more, at.file])).toEqual([
      [0, 'sites/oak/visits/2026-03-10-okafor.yaml'],
      [1, 'sites/oak/visits/2026-03-12-okafor.yaml'],
    ])
  })

  it('counts a notice about an application planned for that day and product', () => {
    const planned = sprayed('2026-03-10', '', 'kitchen', 'planned', 'bait-a')
    // 06:10 on Tuesday the 10th in summer time is 05:10 on Saturday the 7th, 72 hours before.
    const sent = (at: string) => notice('2026-03-07', `sent: {to: everyone, at: ${at}}`, '2026-03-10')
    expect(told(duty + set + planned + sent('05:10'))).toEqual([])
    expect(told(duty + set + planned + sent('05:11'))).toEqual(['notice-late error'])
    expect(told(duty + set + planned)).toEqual(['notice-missing error'])
  })

  it('is judged by the application record where one tells of it too', () => {
    const done = sprayed('2026-03-10', 'time: 06:10 to 06:50', 'kitchen', 'done', 'bait-a')
    const problems = problemsOf(duty + set + done)
    expect(problems.map(({ at }) => at.file)).toEqual(['sites/oak/applications/2026-03-10-okafor.yaml'])
  })
})

it('tells nothing where no rulebook in force asks for notice', () => {
  expect(told(spray + notice('2026-03-09', 'sent: {to: those who asked}'))).toEqual([])
})
