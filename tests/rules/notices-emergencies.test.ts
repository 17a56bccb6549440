import { describe, expect, it } from 'vitest'
import { districtWith, law, notice, problemsOf, sprayed, told } from './notices-checking.js'

const beforehand = `
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours')}]
  staff: [${law('to: staff, reach: all, lead: 72 hours')}]
postings:
  signs: [${law('before: 72 hours, after: 72 hours')}]
`
const emergencies = (facts: string, more = beforehand) =>
  districtWith({ own: `${more}\nemergencies:\n  emergency: [${law(facts)}]\n` })
const stated = (facts = '') =>
  `emergency: {problem: nest opened, why: a pupil was stung, decided-by: marsh${facts}}`
const spray = (facts = '', on = '2026-03-12', time = '15:40 to 16:05') =>
  sprayed(on, `time: ${time}\n${stated(facts)}`)
const sent = (on: string, at = '', to = 'everyone', about = '2026-03-12') =>
  notice(on, `sent: {to: ${to}${at === '' ? '' : `, at: "${at}"`}}`, about)

describe('a stated emergency', () => {
  it('takes no place where the rulebook has no rule for one', () => {
    const problems = problemsOf(districtWith({ own: beforehand }) + spray())
    expect(problems.map(({ rule, args }) => [rule, args.emergency])).toEqual([
      ['notice-missing', 'yes'],
      ['posting-missing', undefined],
    ])
  })

  it('takes the place of notice and signs beforehand in the rulebook that has one, and in no other', () => {
    const rule = `\nemergencies:\n  emergency: [${law('statement: written')}]\n`
    expect(told(districtWith({ act: beforehand + rule }) + spray())).toEqual([])
    expect(told(districtWith({ act: beforehand + rule, local: beforehand }) + spray())).toEqual([
      'notice-missing error',
      'posting-missing error',
    ])
  })

  it('has to be stated: the rule alone takes no place', () => {
    expect(told(emergencies('notice-within: 24 hours') + sprayed('2026-03-12'))).toEqual([
      'notice-missing error',
      'posting-missing error',
    ])
  })

  it('leaves signs that are not for beforehand', () => {
    const marker = `postings:\n  marker: [${law('size: 4 x 5 in')}]\n`
    expect(told(emergencies('statement: written', marker) + spray())).toEqual(['posting-missing error'])
  })

  it('asks for nothing in place of what was not owed', () => {
    const exempt = `
uses:
  sprays: [{from: 2026-03-01, kind: law, confidence: read, source: "Invented Pest Act, section 2", any: [{method: [spot]}]}]
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours, not-for: [sprays]')}]
`
    const strict = 'notice-within: 24 hours, statement: signed, sign-at-start: yes'
    expect(told(emergencies(strict, exempt) + spray())).toEqual([])
    expect(told(emergencies(strict, exempt.replace(', not-for: [sprays]', '')) + spray())).toEqual([
      'emergency-notice-late error',
      'emergency-without-statement error',
      'posting-missing error',
    ])
  })
})

describe('the statement', () => {
  const missing = (duty: string, facts: string) =>
    problemsOf(emergencies(duty) + spray(facts)).map(({ rule, args }) => [rule, args.missing])
  it.each<[string, string, unknown[]]>([
    ['statement: written', '', []],
    ['statement: signed', ', signed: 2026-03-12', []],
    ['statement: signed', '', [['emergency-without-statement', ['signed']]]],
    ['prevention: yes', ', prevention: eaves looked at', []],
    ['prevention: yes', ', signed: 2026-03-12', [['emergency-without-statement', ['prevention']]]],
    ['statement: signed, prevention: yes', '', [['emergency-without-statement', ['signed', 'prevention']]]],
  ])('%s: `%s`', (duty, facts, expected) => {
    expect(missing(duty, facts)).toEqual(expected)
  })
})

describe('notice afterwards', () => {
  // Thursday 15:40; 24 hours later is Friday 15:40.
  const within = emergencies('notice-within: 24 hours, notice-to: all')
  it.each<[string, string, string[]]>([
    ['at the last minute', sent('2026-03-13', '15:40'), []],
    ['a minute later', sent('2026-03-13', '15:41'), ['emergency-notice-late error']],
    ['an hour that is not recorded', sent('2026-03-13'), ['emergency-notice-late warning']],
    ['that day', sent('2026-03-12'), []],
    ['beforehand, though not long enough', sent('2026-03-12', '15:00'), []],
    ['two days later', sent('2026-03-14'), ['emergency-notice-late error']],
    ['not at all', '', ['emergency-notice-late error']],
    ['to those who asked', sent('2026-03-13', '08:00', 'those who asked'), ['notice-to-too-few error']],
    ['to parents alone', sent('2026-03-13', '08:00', 'all parents'), ['emergency-notice-late error']],
  ])('%s', (_, record, expected) => {
    expect(told(within + spray() + record)).toEqual(expected)
  })

  it('is missing from the day after the term, and late from the day it is seen to be', () => {
    expect(told(within + spray(), '2026-03-13')).toEqual([])
    expect(told(within + spray(), '2026-03-14')).toEqual(['emergency-notice-late error'])
    expect(told(within + spray() + sent('2026-03-13', '15:41'), '2026-03-13')).toEqual([
      'emergency-notice-late error',
    ])
    const few = sent('2026-03-12', '18:00', 'those who asked')
    expect(told(within + spray() + few, '2026-03-13')).toEqual([])
    expect(told(within + spray() + few, '2026-03-14')).toEqual(['notice-to-too-few error'])
  })

  it('points at the emergency where it is missing, and at its hour where it is late', () => {
    const [missing] = problemsOf(within + spray())
    expect(missing?.at).toEqual({
      file: 'sites/oak/applications/2026-03-12-okafor.yaml',
      path: ['emergency'],
      onKey: true,
    })
    expect(missing?.args).toEqual({
      groups: 'parents and staff',
      term: 'within 24 hours',
      latest: '2026-03-13 15:40',
      sent: '',
      shown: 'missing',
    })
    const [late] = problemsOf(within + spray() + sent('2026-03-13', '15:41'))
    expect(late?.at).toEqual({ file: 'sites/oak/notices/2026-03-13-marsh.yaml', path: ['sent', 'at'] })
  })

  const both = emergencies('notice-within: 24 hours, or-next-school-morning: yes, notice-to: all')
  it.each<[string, string, string, string, string, string]>([
    // Thursday 15:40: Friday 12:00 comes before Friday 15:40.
    ['the morning is earlier', '2026-03-12', '15:40 to 16:05', '2026-03-13', '12:00', '12:01'],
    // Thursday 06:00: Friday 06:00 comes before Friday 12:00.
    ['24 hours are earlier', '2026-03-12', '06:00 to 06:20', '2026-03-13', '06:00', '06:01'],
    // Friday 15:40: the next school day is Monday; Saturday 15:40 comes first.
    ['a weekend', '2026-03-13', '15:40 to 16:05', '2026-03-14', '15:40', '15:41'],
    // Saturday 2026-03-07 15:40 PST is 23:40Z; 24 h later is Sunday 16:40 PDT, before Monday 12:00.
    ['a weekend with a change of the clock', '2026-03-07', '15:40 to 16:05', '2026-03-08', '16:40', '16:41'],
  ])('%s', (_, on, time, day, last, late) => {
    const ledger = both + spray('', on, time)
    expect(told(ledger + sent(day, last, 'everyone', on))).toEqual([])
    expect(told(ledger + sent(day, late, 'everyone', on))).toEqual(['emergency-notice-late error'])
  })

  it('the morning alone, over a weekend', () => {
    const morning = emergencies('or-next-school-morning: yes')
    const ledger = morning + spray('', '2026-03-13')
    expect(told(ledger + sent('2026-03-16', '12:00', 'everyone', '2026-03-13'))).toEqual([])
    expect(told(ledger + sent('2026-03-16', '12:01', 'everyone', '2026-03-13'))).toEqual([
      'emergency-notice-late error',
    ])
  })

  it('without a term is due from the next day until it is sent', () => {
    const soon = emergencies('notice-to: all or those who asked')
    expect(told(soon + spray(), '2026-03-12')).toEqual([])
    expect(told(soon + spray(), '2026-03-13')).toEqual(['emergency-notice-late error'])
    expect(told(soon + spray() + sent('2026-03-16', '', 'those who asked'))).toEqual([])
  })

  it('goes to whom the duty names, else to whoever is told beforehand', () => {
    const groups = (facts: string, more = beforehand) =>
      problemsOf(emergencies(facts, more) + spray()).map(({ args }) => args.groups)
    const parentsOnly = `\nnotices:\n  parents: [${law('to: parents, reach: those who asked, lead: 72 hours')}]\n`
    expect(groups('notice-within: 24 hours')).toEqual(['parents and staff'])
    expect(groups('notice-within: 24 hours', parentsOnly)).toEqual(['parents who asked'])
    expect(groups('notice-within: 24 hours, notice-to: all', parentsOnly)).toEqual(['parents'])
    expect(groups('notice-within: 24 hours, notice-to: all, notice-for: [parents]')).toEqual(['parents'])
    expect(groups('notice-within: 24 hours, notice-to: those who asked', '')).toEqual([
      'parents who asked and staff who asked',
    ])
  })

  it('says what was asked of a notice after an emergency', () => {
    const duty = emergencies(
      'notice-within: 24 hours, says: [trade-name, emergency-problem, emergency-prevention]',
    )
    const record = notice('2026-03-12', 'sent: {to: everyone, says: [trade-name, emergency-problem]}')
    const problems = problemsOf(duty + spray() + record)
    expect(problems.map(({ rule, args }) => [rule, args.missing])).toEqual([
      ['notice-incomplete', ['emergency-prevention']],
    ])
  })
})

describe('the sign of an emergency', () => {
  const duty = emergencies('sign-at-start: yes, sign-after: 72 hours')
  const posted = (on: string, facts: string) => notice(on, `posted: {places: [gate]${facts}}`)
  it.each<[string, string, string[]]>([
    ['when it began', posted('2026-03-12', ', at: 15:40'), []],
    ['a minute later', posted('2026-03-12', ', at: 15:41'), ['posting-late error']],
    ['that day, at an hour that is not recorded', posted('2026-03-12', ''), []],
    ['the day after', posted('2026-03-13', ''), ['posting-late error']],
    ['none', '', ['posting-missing error']],
    // 16:05 on the 12th and 72 hours is 16:05 on the 15th.
    [
      'taken down early',
      posted('2026-03-12', ', at: 15:40, taken-down: 2026-03-15, taken-down-at: 16:04'),
      ['posting-removed-early error'],
    ],
    [
      'taken down then',
      posted('2026-03-12', ', at: 15:40, taken-down: 2026-03-15, taken-down-at: 16:05'),
      [],
    ],
  ])('%s', (_, record, expected) => {
    expect(told(duty + spray() + record)).toEqual(expected)
  })

  it('is judged by the day where the application has no hour', () => {
    const untimed = sprayed('2026-03-12', stated())
    expect(told(duty + untimed + posted('2026-03-12', ', at: 20:00'))).toEqual([])
    expect(told(duty + untimed + posted('2026-03-13', ''))).toEqual(['posting-late error'])
  })
})

it('a recess in which nothing is owed asks for nothing after an emergency either', () => {
  const own = `
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours, unless-in-recess: yes')}]
emergencies:
  emergency: [${law('notice-within: 24 hours, notice-to: all, statement: signed')}]
`
  const ledger = districtWith(
    { own },
    '[{from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-09 to 2026-03-13}}]',
  )
  const treated = (pupils: string) => sprayed('2026-03-12', `pupils: ${pupils}\n${stated()}`)
  expect(told(ledger + treated('none in the building'))).toEqual([])
  expect(told(ledger + treated('elsewhere in the building'))).toEqual([
    'emergency-notice-late error',
    'emergency-without-statement error',
  ])
})
