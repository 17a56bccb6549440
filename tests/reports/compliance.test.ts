import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { reportText } from '../../src/output/report-text.js'
import { complianceReport } from '../../src/reports/compliance.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { baitApplication, sprayApplication } from '../../src/rules/example-applications.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { day } from '../ledger/small-site.js'

interface Asked {
  readonly asOf?: string
  readonly from?: string
  readonly to?: string
  readonly site?: string
  readonly revision?: string
}

function pageOf(overlay: string, { asOf = '2026-03-20', from, to, ...more }: Asked = {}) {
  const report = complianceReport(memorySource(ledgerWith(overlay)), {
    asOf: day(asOf),
    asOfIsToday: false,
    ...(from === undefined ? {} : { from: day(from) }),
    ...(to === undefined ? {} : { to: day(to) }),
    ...more,
  })
  const rows = (id: string) =>
    report.tables.find((table) => table.id === id)?.rows.map(({ cells }) => cells) ?? []
  /** What is told of a duty by its section and name: outcome, absent fields, and why. */
  const told = (section: string, name: string) =>
    rows('duties')
      .filter((cells) => cells.section === section && cells.name === name)
      .map(({ outcome, absent }) => (absent === null ? outcome : `${outcome} [${absent}]`))
  const why = (section: string, name: string) =>
    rows('duties').find((cells) => cells.section === section && cells.name === name)?.why
  const facts = new Map(report.facts.map(({ label, value }) => [label, value]))
  return { ...report, rows, told, why, facts }
}

const law = (section: number) =>
  `source: "Invented Pest Act, section ${section}", kind: law, confidence: read`

/** One duty of every kind that is held against an application, for every use. */
const everyDuty = underOwnRulebook(`
notices:
  parents: [{from: 2026-03-01, to: parents, reach: all, lead: 72 hours, says: [trade-name, date], ${law(1)}}]
postings:
  signs: [{from: 2026-03-01, before: 72 hours, after: 72 hours, size: 8.5 x 11 in, at-the: [treated-area, each-entrance], ${law(2)}}]
emergencies:
  emergency: [{from: 2026-03-01, notice-within: 24 hours, statement: signed, ${law(3)}}]
occupancy:
  away: [{from: 2026-03-01, pupils: none in the building, unless-separated: yes, ${law(4)}}]
reentry:
  wait: [{from: 2026-03-01, wait: 7 h, label: if longer, ${law(5)}}]
  dry: [{from: 2026-03-01, dry: yes, label: if longer, ${law(6)}}]
records:
  record: [{from: 2026-03-01, elements: [amount, lot, start-and-end], within: 5 days, ${law(7)}}]
licences:
  applicator: [{from: 2026-03-01, of: applicator, in-state: yes, ${law(8)}}]
  firm: [{from: 2026-03-01, of: firm, in-state: yes, ${law(9)}}]
registrations:
  state: [{from: 2026-03-01, in-state: yes, ${law(10)}}]
approvals:
  before: [{from: 2026-03-01, by: [coordinator], ${law(11)}}]
training:
  course: [{from: 2026-03-01, who: whoever applies, course: invented-course, every: 1 year, ${law(12)}}]
`)

const notice = (lines: string, date = '2026-03-09') => `
=== sites/oak/notices/${date}-marsh.yaml
by: marsh
application: 2026-03-12-okafor
${lines}
`
const sent = 'sent: {to: everyone, at: 15:40, how: email, says: [trade-name, date]}'
const posted =
  'posted: {places: [kitchen door], at: 15:40, at-the: [treated-area, each-entrance], size: 8.5 x 11 in, taken-down: 2026-03-16, says: [trade-name, date]}'
const met = [
  'on-paper: 2026-03-12',
  'approved: {by: [marsh], on: 2026-03-10}',
  'reopened: {on: 2026-03-13, at: 06:30, by: lind}',
] as const
const course = `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    {number: XX-1, state: OR, kind: commercial applicator, categories: [structural], spans: [{from: 2025-01-01, until: 2026-12-31}]}
training: {spring: {course: invented-course, topic: schools, on: 2026-02-01}}
`
const allMet = everyDuty + sprayApplication('2026-03-12', ...met) + notice(`${sent}\n${posted}`) + course

describe('every duty held against an application', () => {
  // 15:40 on the 9th is 72 hours before 15:40 on the 12th; clocks changed on the 8th. Opened at 06:30 on the 13th, 14 h
  // 25 min after the end at 16:05. The signs came down on the 16th, after 16:05 on the 15th.
  it('is shown where the record shows it', () => {
    const { told } = pageOf(allMet)
    for (const [section, name] of [
      ['notices', 'parents'],
      ['postings', 'signs'],
      ['occupancy', 'away'],
      ['reentry', 'wait'],
      ['reentry', 'dry'],
      ['records', 'record'],
      ['licences', 'applicator'],
      ['licences', 'firm'],
      ['registrations', 'state'],
      ['approvals', 'before'],
      ['training', 'course'],
    ] as const)
      expect([section, told(section, name)]).toEqual([section, ['shown']])
    expect(told('emergencies', 'emergency')).toEqual(['not applicable'])
  })

  it.each([
    ['notices', 'parents', 'no notice', (text: string) => text.replace(sent, ''), 'not shown [notice]'],
    [
      'notices',
      'parents',
      'a minute late',
      (text: string) => text.replace('at: 15:40, how', 'at: 15:41, how'),
      'not shown',
    ],
    [
      'notices',
      'parents',
      'its hour absent',
      (text: string) => text.replace('at: 15:40, how', 'how'),
      'cannot be checked [sent.at of the notice]',
    ],
    [
      'notices',
      'parents',
      'to those who asked',
      (text: string) => text.replace('to: everyone', 'to: those who asked'),
      'not shown',
    ],
    [
      'notices',
      'parents',
      'without the day',
      (text: string) => text.replace('says: [trade-name, date]}\nposted', 'says: [trade-name]}\nposted'),
      'not shown [says]',
    ],
    ['postings', 'signs', 'no sign', (text: string) => text.replace(posted, ''), 'not shown [posted]'],
    [
      'postings',
      'signs',
      'its size absent',
      (text: string) => text.replace('size: 8.5 x 11 in, taken', 'taken'),
      'cannot be checked [posted.size]',
    ],
    [
      'postings',
      'signs',
      'only at the place',
      (text: string) =>
        text.replace(
          'at-the: [treated-area, each-entrance], size: 8.5 x 11 in, taken',
          'at-the: [treated-area], size: 8.5 x 11 in, taken',
        ),
      'not shown [posted.at-the]',
    ],
    [
      'postings',
      'signs',
      'down on the 14th',
      (text: string) => text.replace('taken-down: 2026-03-16', 'taken-down: 2026-03-14'),
      'not shown',
    ],
    [
      'occupancy',
      'away',
      'pupils in the building',
      (text: string) => text.replace('pupils: none in the building\n', 'pupils: elsewhere in the building\n'),
      'not shown [separated]',
    ],
    [
      'occupancy',
      'away',
      'pupils absent on a school day',
      (text: string) => text.replace('pupils: none in the building\n', ''),
      'cannot be checked [pupils]',
    ],
    [
      'occupancy',
      'away',
      'pupils and time absent',
      (text: string) =>
        text.replace('pupils: none in the building\n', '').replace('time: 15:40 to 16:05\n', ''),
      'cannot be checked [pupils; time]',
    ],
    [
      'reentry',
      'wait',
      'opened after 6 h 59 min',
      (text: string) => text.replace('reopened: {on: 2026-03-13, at: 06:30', 'reopened: {at: 23:04'),
      'not shown',
    ],
    [
      'reentry',
      'wait',
      'opened after 7 h',
      (text: string) => text.replace('reopened: {on: 2026-03-13, at: 06:30', 'reopened: {at: 23:05'),
      'shown',
    ],
    [
      'reentry',
      'wait',
      'opening absent',
      (text: string) => text.replace('reopened: {on: 2026-03-13, at: 06:30, by: lind}\n', ''),
      'cannot be checked [reopened]',
    ],
    [
      'reentry',
      'dry',
      'nobody looked',
      (text: string) => text.replace('dry: {at: 16:05, by: okafor}\n', ''),
      'cannot be checked [dry]',
    ],
    [
      'records',
      'record',
      'lot absent',
      (text: string) => text.replace('lot: L-2211\n', ''),
      'not shown [lot]',
    ],
    [
      'records',
      'record',
      'written on the 17th',
      (text: string) => text.replace('on-paper: 2026-03-12', 'on-paper: 2026-03-17'),
      'shown',
    ],
    [
      'records',
      'record',
      'written on the 18th',
      (text: string) => text.replace('on-paper: 2026-03-12', 'on-paper: 2026-03-18'),
      'not shown',
    ],
    [
      'records',
      'record',
      'day of writing absent',
      (text: string) => text.replace('on-paper: 2026-03-12\n', ''),
      'cannot be checked [on-paper]',
    ],
    [
      'licences',
      'applicator',
      'ended the day before',
      (text: string) => text.replace('until: 2026-12-31}]}\ntraining', 'until: 2026-03-11}]}\ntraining'),
      'not shown',
    ],
    [
      'licences',
      'applicator',
      'another state',
      (text: string) => text.replace('number: XX-1, state: OR', 'number: XX-1, state: WA'),
      'not shown',
    ],
    [
      'licences',
      'applicator',
      'nobody of that name',
      (text: string) => text.replace('by: okafor\nstatus', 'by: nobody\nstatus'),
      'cannot be checked [people/nobody.yaml]',
    ],
    [
      'licences',
      'firm',
      'a firm that is not there',
      (text: string) => text.replace('firm: invented-pest-services\nlicences', 'firm: elsewhere\nlicences'),
      'cannot be checked [firms/elsewhere.yaml]',
    ],
    [
      'approvals',
      'before',
      'approved a day later',
      (text: string) => text.replace('on: 2026-03-10', 'on: 2026-03-13'),
      'not shown',
    ],
    [
      'approvals',
      'before',
      'no approval',
      (text: string) => text.replace('approved: {by: [marsh], on: 2026-03-10}\n', ''),
      'not shown [approved]',
    ],
    [
      'training',
      'course',
      'a year and a day ago',
      (text: string) => text.replace('on: 2026-02-01', 'on: 2025-03-11'),
      'not shown',
    ],
  ] as const)('%s/%s: %s', (section, name, _, change, expected) => {
    const changed = change(allMet)
    expect(changed).not.toBe(allMet)
    const { told, rows } = pageOf(changed)
    expect(told(section, name)).toEqual([expected])
    const row = rows('duties').find((cells) => cells.section === section && cells.name === name)
    expect(row?.clause).toMatch(/^Invented Pest Act, section \d+$/)
  })

  it('names a stated emergency, and what it asks instead', () => {
    const emergency = 'emergency: {problem: wasps at the door, why: a child was stung, decided-by: marsh}'
    const page = pageOf(everyDuty + sprayApplication('2026-03-12', ...met, emergency) + course)
    expect(page.told('notices', 'parents')).toEqual(['not applicable'])
    expect(page.why('notices', 'parents')).toContain('an emergency is stated')
    expect(page.told('emergencies', 'emergency')).toEqual(['not shown [notice; emergency.signed]'])
  })

  it('says why a duty does not apply, with the class', () => {
    const scoped = (facts: string) =>
      underOwnRulebook(`
uses:
  gels: [{from: 2026-03-01, any: [{formulation: [gel]}], ${law(1)}}]
notices:
  parents: [{from: 2026-03-01, to: parents, reach: all, lead: 72 hours, ${facts}, ${law(2)}}]
prohibitions:
  gels: [{from: 2026-03-01, what: use of gels, holds-for: [gels], ${law(3)}}]
`)
    const gel = pageOf(scoped('not-for: [gels]') + baitApplication('2026-03-12'))
    expect(gel.why('notices', 'parents')).toBe('of the class `gels`, which is exempt')
    expect(gel.told('prohibitions', 'gels')).toEqual(['not shown'])
    const spray = pageOf(scoped('holds-for: [gels]') + sprayApplication('2026-03-12'))
    expect(spray.why('notices', 'parents')).toBe('not of the class `gels`, for which it holds')
    expect([spray.told('prohibitions', 'gels'), spray.why('prohibitions', 'gels')]).toEqual([
      ['shown'],
      'not of the class `gels`, which is ruled out',
    ])
  })

  it('says that it fell in a recess', () => {
    const duty = underOwnRulebook(
      `
notices:
  parents: [{from: 2026-03-01, to: parents, reach: all, lead: 72 hours, unless-in-recess: yes, ${law(2)}}]
`,
    ).replace('until: 2026-06-12}', 'until: 2026-06-12, closed: {spring-break: 2026-03-09 to 2026-03-13}}')
    const page = pageOf(duty + baitApplication('2026-03-12'))
    expect(page.why('notices', 'parents')).toBe('in a recess (spring-break), with no pupils in the building')
    const there = pageOf(duty + baitApplication('2026-03-12', 'pupils: elsewhere in the building'))
    expect(there.told('notices', 'parents')).toEqual(['not shown [notice]'])
  })
})

describe('the label', () => {
  it('is held aspect by aspect, and what the register leaves out is one row that cannot be checked', () => {
    const page = pageOf(baitApplication('2026-03-12'))
    expect([page.told('label', 'place'), page.told('label', 'pest'), page.told('label', 'method')]).toEqual([
      ['shown'],
      ['shown'],
      ['shown'],
    ])
    expect(page.told('label', 'left-out').join()).toContain('`keep-out`')
    expect(page.told('label', 'left-out')).toHaveLength(1)
  })

  it.each([
    ['no amount', 'rate', ['amount:', 'areas: {kitchen: {placements: 8}}'], 'cannot be checked [amount]'],
    ['no placements', 'rate', ['areas: {kitchen: {amount: 2 g}}'], 'cannot be checked [placements]'],
    // The label of the base has 1 g per placement at most: 8 g in 8 placements are at it, 9 g are above it.
    ['at the rate', 'rate', ['amount: 8 g', 'areas: {kitchen: {amount: 8 g, placements: 8}}'], 'shown'],
    [
      'above the rate',
      'rate',
      ['amount: 9 g', 'areas: {kitchen: {amount: 9 g, placements: 8}}'],
      'not shown',
    ],
    ['another method', 'method', ['method: broadcast'], 'not shown'],
    ['another pest', 'pest', ['pest: silverfish'], 'not shown'],
  ] as const)('%s', (_, name, lines, expected) => {
    expect(pageOf(baitApplication('2026-03-12', ...lines)).told('label', name)).toEqual([expected])
  })

  it('whose facts are not entered cannot be checked', () => {
    const without = `
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
formulation: gel
labels: [{from: 2026-01-05, file: label.txt}]
sds: [{from: 2026-01-05, file: sds.txt}]
`
    const page = pageOf(without + baitApplication('2026-03-12'))
    expect(page.told('label', 'label')).toEqual(['cannot be checked [`says` of the label of bait-a]'])
    const early = pageOf(
      without.replace('from: 2026-01-05, file: label', 'from: 2026-03-13, file: label') +
        baitApplication('2026-03-12'),
    )
    expect(early.told('label', 'label')).toEqual(['cannot be checked [`labels` of bait-a]'])
  })

  it('of a product that is not in the register cannot be checked, nor any duty, and the page is not complete', () => {
    const page = pageOf(everyDuty + baitApplication('2026-03-12', 'product: unheard-of'))
    const outcomes = page.rows('duties').map(({ outcome, section }) => `${section} ${outcome}`)
    expect(outcomes.filter((text) => !text.endsWith('cannot be checked'))).toEqual([
      'federal law not applicable',
    ])
    expect(page.incomplete).toBe(true)
    expect(page.notExamined.join('\n')).toContain('unheard-of: no record in the register')
  })
})

const stations = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
time: 16:00 to 16:30
set:
  B1: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
  B2: {kind: bait-station, area: room-1, for: [german-cockroach], within-reach: no, product: bait-a, bait-added: 1 g}
  B3: {kind: bait-station, area: kitchen, for: [german-cockroach], within-reach: no, product: bait-a}
`

describe('bait in devices', () => {
  it('of one product on one visit is one application, and an answer that differs names its devices', () => {
    const page = pageOf(everyDuty + stations)
    expect(page.rows('treatments').map(({ how, devices }) => [how, devices])).toEqual([
      ['bait in a device', 'B1 B2 B3'],
    ])
    const records = page
      .rows('duties')
      .filter(({ section, rulebook }) => section === 'records' && rulebook === 'own')
      .map(({ outcome, devices }) => [outcome, devices])
    // The amount in B3 is not recorded; of the others only when the page was written and the lot are not.
    expect(records).toEqual([
      ['not shown', 'B3'],
      ['cannot be checked', 'B1 B2'],
    ])
  })

  it('has no place for who was there, for opening again, and for an approval; that is said', () => {
    const page = pageOf(everyDuty + stations)
    expect(page.told('occupancy', 'away')).toEqual(['cannot be checked [pupils]'])
    expect(page.told('reentry', 'wait')).toEqual(['cannot be checked [reopened]'])
    expect(page.told('reentry', 'dry')).toEqual(['not applicable'])
    expect(page.told('approvals', 'before')).toEqual(['cannot be checked [approved]'])
  })
})

describe('the page', () => {
  it('counts what its rows tell', () => {
    const page = pageOf(allMet)
    const outcomes = page.rows('duties').map(({ outcome }) => outcome)
    const of = (one: string) => outcomes.filter((outcome) => outcome === one).length
    const held = outcomes.length - of('not applicable')
    expect(held).toBe(of('shown') + of('not shown') + of('cannot be checked'))
    expect(page.headline).toBe(
      `Of ${held} duties held against 1 application, ${of('shown')} are shown by the records, 0 are not, ${of('cannot be checked')} cannot be checked.`,
    )
    const [row] = page.rows('treatments')
    expect([row?.shown, row?.['not-shown'], row?.['not-checked'], row?.['not-applicable']]).toEqual([
      of('shown'),
      0,
      of('cannot be checked'),
      of('not applicable'),
    ])
  })

  it('says how many of what is not shown rest on law', () => {
    const page = pageOf(everyDuty + sprayApplication('2026-03-12', ...met) + course)
    // No notice and no sign: sections 1 and 2 of the invented act.
    expect(page.headline).toContain(', 2 are not (of law), ')
  })

  it('names the rulebooks, when they were read, and what they do not cover', () => {
    const page = pageOf(allMet)
    expect(page.rows('rulebooks').map(({ rulebook, 'read-on': read }) => [rulebook, read])).toContainEqual([
      'own',
      '2026-03-01',
    ])
    expect(page.notExamined).toContain('not covered by the rulebook own: everything else.')
    expect(page.notExamined.join('\n')).toContain('local code')
    expect(page.facts.get('law in force in the ledger')).toContain(
      'Invented rules of the example district (own, read 2026-03-01)',
    )
  })

  it('says so where no law is in force in the ledger', () => {
    const onlyCustom = baitApplication('2026-03-12') + underOwnRulebook('').split('=== rulebooks/own.yaml')[0]
    const page = pageOf(
      onlyCustom
        .replace('  - {from: 2026-03-01, rulebook: us-federal}\n', '')
        .replace('  - {from: 2026-03-01, rulebook: own}\n', ''),
    )
    expect(page.facts.get('law in force in the ledger')).toMatch(/^none: /)
    expect(page.headline).toMatch(/no law is in force in the ledger\.$/)
    // The label and the federal act are held all the same.
    expect(page.told('federal law', 'registration')).toEqual(['shown'])
  })

  it('says so where a rulebook that is listed is not there', () => {
    const page = pageOf(
      everyDuty.replace('rulebook: own}', 'rulebook: lost}') + baitApplication('2026-03-12'),
    )
    expect(page.incomplete).toBe(true)
    expect(page.notExamined.join('\n')).toContain('the rulebook lost: there is none of that name')
    expect(page.headline).toContain('part of what was asked could not be examined')
  })

  it('of a period without applications still lists every duty', () => {
    const page = pageOf(everyDuty, { from: '2026-03-05', to: '2026-03-06' })
    expect(page.headline).toBe('No use of a pesticide is recorded in this period.')
    const clauses = page.rows('by-clause').filter(({ rulebook }) => rulebook === 'own')
    expect(clauses.map(({ clause, shown }) => [clause, shown])).toEqual(
      [1, 2, 5, 6, 4, 3, 7, 8, 9, 10, 11, 12].map((section) => [`Invented Pest Act, section ${section}`, 0]),
    )
  })

  it('of a period before the records says that nothing can be said', () => {
    const page = pageOf(everyDuty, { from: '2025-01-01', to: '2025-12-31' })
    expect(page.headline).toMatch(/^The records begin after this period, so nothing can be said of it/)
    const part = pageOf(everyDuty, { from: '2026-02-01', to: '2026-03-05' })
    expect(part.headline).toContain('which the records cover only in part')
  })

  it('counts what was not held: before the records, planned, cancelled, no pesticide', () => {
    const other = (name: string, status: string) =>
      baitApplication('2026-03-12', `status: ${status}`).replace(
        '2026-03-12-okafor',
        `2026-03-${name}-okafor`,
      )
    const talc = '\n=== products/talc/product.yaml\nname: Invented Talc\nkind: other-material\n'
    const page = pageOf(
      baitApplication('2026-02-20') +
        other('13', 'planned') +
        other('14', 'cancelled') +
        talc +
        other('15', 'done').replace('product: bait-a', 'product: talc'),
      { from: '2026-01-01' },
    )
    const lines = page.notExamined.join('\n')
    expect(lines).toContain('oak: 1 use before the records begin there on 2026-03-01.')
    expect(lines).toContain('oak: 1 application planned and not recorded as done.')
    expect(lines).toContain('oak: 1 application cancelled.')
    expect(lines).toContain('oak: 1 use of what the register does not have as a pesticide.')
    expect(page.rows('duties')).toEqual([])
  })

  it('tells of a visit that tells of a pesticide without its record', () => {
    const visit = `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
actions: {flushed: {did: flushed the voids, tactic: flushing, area: kitchen}}
`
    expect(pageOf(visit).notExamined).toContain(
      'oak: a visit of 2026-03-12 tells of a pesticide, and no application of it is recorded.',
    )
  })

  it('keeps to the period and to the site that is asked for, both days counted', () => {
    const both = baitApplication('2026-03-06') + baitApplication('2026-03-12')
    const days = (asked: Asked) =>
      pageOf(both, asked)
        .rows('treatments')
        .map((cells) => cells.day)
    expect(days({})).toEqual(['2026-03-06', '2026-03-12'])
    expect(days({ from: '2026-03-06', to: '2026-03-11' })).toEqual(['2026-03-06'])
    expect(days({ from: '2026-03-07', to: '2026-03-12' })).toEqual(['2026-03-12'])
    expect(pageOf(both, { site: 'oak' }).headline).toContain('applications at oak,')
  })

  it('leaves out records after the as-of day, and says so', () => {
    const page = pageOf(baitApplication('2026-03-12'), { asOf: '2026-03-11', to: '2026-03-31' })
    expect(page.rows('treatments')).toEqual([])
    expect(page.notExamined).toContain('One record dated after the as-of day was not looked at.')
    expect(page.period?.to).toBe('2026-03-11')
  })

  it('bears the revision and the day, and lines to sign on', () => {
    const page = pageOf(allMet, { revision: 'git commit abc' })
    expect(page.facts.get('records')).toBe('as of 2026-03-20, git commit abc')
    expect(page.rows('signature').map(({ what }) => what)).toEqual([
      'records',
      'period',
      'read by',
      'date',
      'signature',
    ])
    expect(reportMarkdown({ ...page, facts: [] }, { showWork: false })).toContain('Read and signed')
  })

  it('gives every duty as a row to machines, and no table that only repeats', () => {
    const report = complianceReport(memorySource(ledgerWith(allMet)), {
      asOf: day('2026-03-20'),
      asOfIsToday: false,
    })
    const json = JSON.parse(reportJson(report)) as { tables: { id: string; rows: unknown[] }[] }
    const ids = json.tables.map(({ id }) => id)
    expect(ids).toContain('duties')
    expect(ids).not.toContain('shown')
    const csv = reportCsv(report, 'duties').trimEnd().split('\r\n').join('\n')
    expect(csv).toContain('Invented Pest Act, section 1')
    expect(json.tables.find(({ id }) => id === 'duties')?.rows).toHaveLength(
      report.tables.find(({ id }) => id === 'duties')?.rows.length ?? 0,
    )
  })

  it('fits 80 columns', () => {
    const report = complianceReport(memorySource(ledgerWith(allMet + stations)), {
      asOf: day('2026-03-20'),
      asOfIsToday: false,
    })
    const lines = reportText(report, { paint: plainPainter, showWork: false, width: 80 }).split('\n')
    expect(lines.length).toBeGreaterThan(100)
    expect(lines.filter((line) => line.length > 80)).toEqual([])
  })

  it('a ledger without a district says that nothing could be examined', () => {
    const files = ledgerWith('')
    files.delete('district.yaml')
    const report = complianceReport(memorySource(files), { asOf: day('2026-03-20'), asOfIsToday: false })
    expect([report.headline, report.incomplete]).toEqual(['Nothing could be examined.', true])
  })
})

describe('what is filed for a year', () => {
  const yearly = (facts: string, filing = '') =>
    underOwnRulebook(
      `
yearly:
  annual: [{from: 2025-09-02, what: annual-notice, year: school, ${facts}, ${law(13)}}]
`,
      { begins: '2025-09-02' },
    ) + filing
  const filed = (on: string, facts: string) =>
    `\n=== filings/${on}-marsh.yaml\nby: marsh\nwhat: annual-notice\nyear: 2025-2026\n${facts}\n`
  const outcome = (overlay: string, asked: Asked = {}) => {
    const [row] = pageOf(overlay, { from: '2025-09-02', ...asked }).rows('yearly')
    return row ? [row.due, row.outcome, row.absent] : undefined
  }

  // 30 days from 2025-09-02 end on 2025-10-02.
  it.each([
    ['in time', filed('2025-10-02', 'to: everyone'), ['2025-10-02', 'shown', null]],
    ['a day late', filed('2025-10-03', 'to: everyone'), ['2025-10-02', 'not shown', null]],
    ['never', '', ['2025-10-02', 'not shown', 'filing']],
    ['only to parents', filed('2025-10-02', 'to: all parents'), ['2025-10-02', 'not shown', 'to']],
  ] as const)('%s', (_, filing, expected) => {
    expect(outcome(yearly('days-from-start: 30, to: everyone', filing))).toEqual(expected)
  })

  it('is not due yet where its day lies after the as-of day', () => {
    // By the last day of the school year, 2026-06-12.
    expect(outcome(yearly('to: everyone'))).toEqual(['2026-06-12', 'not applicable', null])
  })

  it('has to name what was used', () => {
    const list = filed('2025-09-04', 'to: everyone\nproducts: [spray-a]')
    const duty = yearly('days-from-start: 30, to: everyone, lists-products: yes', list)
    expect(outcome(duty)).toEqual(['2025-10-02', 'shown', null])
    expect(outcome(duty + baitApplication('2026-03-12'))).toEqual(['2025-10-02', 'not shown', 'products'])
  })

  it('stands in the headline', () => {
    const page = pageOf(yearly('days-from-start: 30, to: everyone'), { from: '2025-09-02' })
    expect(page.headline).toContain('of 1 yearly filing asked, 0 are shown')
  })
})
