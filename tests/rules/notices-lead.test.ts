import { describe, expect, it } from 'vitest'
import { districtWith, law, notice, parentsTold, problemsOf, sprayed, told } from './notices-checking.js'

const own = (sections: string, calendar?: string) => districtWith({ own: sections }, calendar)
const hours72 = own(parentsTold('reach: all, lead: 72 hours'))
const parents = (on: string, at = '', about = '2026-03-12') =>
  notice(on, `sent: {to: all parents${at === '' ? '' : `, at: "${at}"`}}`, about)

describe('72 hours before 15:40 on Thursday 2026-03-12, which is Monday 2026-03-09 15:40', () => {
  it.each<[string, string, string[]]>([
    ['sent then', parents('2026-03-09', '15:40'), []],
    ['sent a minute later', parents('2026-03-09', '15:41'), ['notice-late error']],
    ['sent that day at an hour that is not recorded', parents('2026-03-09'), ['notice-late warning']],
    ['sent the day before, whatever the hour', parents('2026-03-08'), []],
    ['sent the day after, whatever the hour', parents('2026-03-10'), ['notice-late error']],
    ['sent on the day, before it began', parents('2026-03-12', '06:00'), ['notice-late error']],
    ['sent the day after the application', parents('2026-03-13'), ['notice-late error']],
    ['not sent', '', ['notice-missing error']],
    [
      'sent for another application',
      parents('2026-03-09', '15:40', '2026-03-13') + sprayed('2026-03-13', '', 'kitchen', 'planned'),
      ['notice-missing error'],
    ],
    [
      'sent to staff alone',
      notice('2026-03-09', 'sent: {to: all staff, at: 15:40}'),
      ['notice-missing error'],
    ],
    ['sent to everyone', notice('2026-03-09', 'sent: {to: everyone, at: 15:40}'), []],
    [
      'of two, the one in time counts',
      parents('2026-03-09', '15:40') + notice('2026-03-11', 'sent: {to: all parents}', '2026-03-12', 'lind'),
      [],
    ],
  ])('%s', (_, records, expected) => {
    expect(told(hours72 + sprayed('2026-03-12') + records)).toEqual(expected)
  })

  it('names the last moment, the place and the law, and is true from the day of the application', () => {
    const problems = problemsOf(hours72 + sprayed('2026-03-12') + parents('2026-03-09', '15:41'))
    expect(problems.map(({ args, at, sources, from }) => ({ args, at, sources, from }))).toEqual([
      {
        args: {
          groups: 'parents',
          sent: '2026-03-09 15:41',
          term: '72 hours before',
          latest: '2026-03-09 15:40',
          day: '2026-03-12',
          shown: 'late',
          hour: 'application',
        },
        at: { file: 'sites/oak/notices/2026-03-09-marsh.yaml', path: ['sent', 'at'] },
        sources: [{ kind: 'law', text: 'Invented Pest Act, section 3' }],
        // 2026-03-12 is day 20524: 56 years of 365 days and 14 leap days are 20454; 31 + 28 + 11 days more.
        from: 20524,
      },
    ])
  })

  it('tells a notice dated after the application once, however little it said, at the line of the notice', () => {
    const duty = own(`
notices:
  parents: [${law('to: parents, reach: all, lead: 72 hours, says: [date, location]')}]
  staff: [${law('to: staff, reach: all, lead: 48 hours, says: [date]')}]
`)
    const problems = problemsOf(duty + sprayed('2026-03-12') + notice('2026-03-13', 'sent: {to: everyone}'))
    expect(problems.map(({ rule, at, args }) => [rule, at.file, at.path, args.shown, args.groups])).toEqual([
      [
        'notice-late',
        'sites/oak/notices/2026-03-13-marsh.yaml',
        ['application'],
        'after the application',
        'parents and staff',
      ],
    ])
  })
})

describe('an application whose hour is not recorded', () => {
  const spray = sprayed('2026-03-12', '')
  it.each<[string, string, string[]]>([
    // It may have begun at 00:00 on the 12th: 72 hours before is 00:00 on the 9th.
    ['enough time whenever it began', parents('2026-03-09', '00:00'), []],
    ['enough time only if it began late', parents('2026-03-09', '00:01'), ['notice-late warning']],
    ['too little time whenever it began', parents('2026-03-10'), ['notice-late error']],
  ])('%s', (_, records, expected) => {
    expect(told(hours72 + spray + records)).toEqual(expected)
  })

  it('is left to the rule that asks the record for its hours', () => {
    const asked = own(`${parentsTold('reach: all, lead: 72 hours')}
records:
  applications: [${law('elements: [start-and-end]')}]
`)
    expect(told(asked + spray + parents('2026-03-09', '10:00'))).toEqual([])
    expect(told(asked + spray + parents('2026-03-09'))).toEqual(['notice-late warning'])
    expect(told(asked + spray + parents('2026-03-10'))).toEqual(['notice-late error'])
  })

  it('leaves days to be counted', () => {
    const days = own(parentsTold('reach: all, lead: 3 days'))
    expect(told(days + spray + parents('2026-03-09'))).toEqual([])
    expect(told(days + spray + parents('2026-03-10'))).toEqual(['notice-late error'])
  })
})

describe('hours over a change of the clock', () => {
  // Forward on Sunday 2026-03-08: Tuesday 07:00 PDT is 14:00Z; 72 h before is Saturday 14:00Z, 06:00 PST.
  const spray = sprayed('2026-03-10', 'time: 07:00 to 07:20')
  it.each<[string, string[]]>([
    ['06:00', []],
    ['06:01', ['notice-late error']],
    ['07:00', ['notice-late error']],
  ])('%s', (at, expected) => {
    expect(told(hours72 + spray + parents('2026-03-07', at, '2026-03-10'))).toEqual(expected)
  })

  it('says the last moment on the clock of that day', () => {
    const [problem] = problemsOf(hours72 + spray + parents('2026-03-07', '06:01', '2026-03-10'))
    expect(problem?.args.latest).toBe('2026-03-07 06:00')
  })

  it('gives an hour that the clock shows twice the benefit of the doubt', () => {
    // Back on Sunday 2026-11-01. Wednesday 2026-11-04 01:30 PST is 09:30Z; 72 h before is Sunday 09:30Z: the second
    // 01:30. An hour shown twice is told by the rule on clock times.
    const autumn = (at: string) => parents('2026-11-01', at, '2026-11-04')
    const treated = sprayed('2026-11-04', 'time: 01:30 to 01:50')
    expect(told(hours72 + treated + autumn('01:30'), '2026-11-10')).toEqual([])
    expect(told(hours72 + treated + autumn('01:31'), '2026-11-10')).toEqual([])
    expect(told(hours72 + treated + autumn('01:31-08:00'), '2026-11-10')).toEqual(['notice-late error'])
    expect(told(hours72 + treated + autumn('01:59-07:00'), '2026-11-10')).toEqual([])
  })
})

describe('days that count', () => {
  it.each<[string, string, string, string, string[]]>([
    // Monday 2026-03-16: Friday the 13th is one business day back, Thursday the 12th two.
    ['2 business days', '2 business days', '2026-03-16', '2026-03-12', []],
    ['2 business days, one missed', '2 business days', '2026-03-16', '2026-03-13', ['notice-late error']],
    ['2 business days, at the weekend', '2 business days', '2026-03-16', '2026-03-14', ['notice-late error']],
    // The 16th is closed below: for Tuesday the 17th, Friday the 13th is one school day back, Thursday the 12th two.
    ['2 school days', '2 school days', '2026-03-17', '2026-03-12', []],
    ['2 school days, one missed', '2 school days', '2026-03-17', '2026-03-13', ['notice-late error']],
    // The 16th is no federal holiday: Monday the 16th is one business day back, Friday the 13th two.
    ['2 business days over a closed day', '2 business days', '2026-03-17', '2026-03-13', []],
  ])('%s', (_, lead, on, sent, expected) => {
    const calendar = '[{from: 2025-09-02, until: 2026-06-12, closed: {teachers-meet: 2026-03-16}}]'
    const duty = own(parentsTold(`reach: all, lead: ${lead}`), calendar)
    expect(told(duty + sprayed(on) + parents(sent, '23:59', on))).toEqual(expected)
  })
})

describe('a longest time before', () => {
  const duty = (longest: string) =>
    own(parentsTold(`reach: all, lead: 2 business days, not-before: ${longest}`))
  it.each<[string, string, string, string, string[]]>([
    ['7 days, on the first of them', '7 days', '2026-03-05', '00:00', []],
    ['7 days, a minute before', '7 days', '2026-03-04', '23:59', ['notice-too-early error']],
    ['7 days, an hour that is not recorded', '7 days', '2026-03-05', '', []],
    // 96 hours before 15:40 on the 12th is 15:40 on Sunday the 8th, after the change of the clock.
    ['96 hours', '96 hours', '2026-03-08', '15:40', []],
    ['96 hours, a minute before', '96 hours', '2026-03-08', '15:39', ['notice-too-early error']],
    ['96 hours, an hour that is not recorded', '96 hours', '2026-03-08', '', ['notice-too-early warning']],
    ['too late is not too early', '96 hours', '2026-03-11', '', ['notice-late error']],
  ])('%s', (_, longest, on, at, expected) => {
    expect(told(duty(longest) + sprayed('2026-03-12') + parents(on, at))).toEqual(expected)
  })
})

describe('several rulebooks', () => {
  const policy = `
notices:
  parents: [{from: 2026-03-01, kind: standard, confidence: read, source: board policy, to: parents, reach: all, lead: 5 days}]
`
  const both = districtWith({ act: parentsTold('reach: all, lead: 72 hours'), policy })
  const found = (records: string) =>
    problemsOf(both + sprayed('2026-03-12') + records).map(({ level, args, sources }) => [
      level,
      args.term,
      args.latest,
      sources.map(({ text }) => text),
    ])

  it('breaking the one of the district alone', () => {
    expect(found(parents('2026-03-08'))).toEqual([
      ['warning', '5 days before', 'the end of 2026-03-07', ['board policy']],
    ])
  })
  it('breaking both: one problem, as strict as the strictest, as grave as the gravest', () => {
    expect(found(parents('2026-03-11'))).toEqual([
      ['error', '5 days before', 'the end of 2026-03-07', ['Invented Pest Act, section 3', 'board policy']],
    ])
    expect(found('')).toEqual([
      ['error', '5 days before', 'the end of 2026-03-07', ['Invented Pest Act, section 3', 'board policy']],
    ])
  })
  it('one broken for certain and one in doubt: the certain one is told', () => {
    expect(found(parents('2026-03-09'))).toEqual([
      ['warning', '5 days before', 'the end of 2026-03-07', ['board policy']],
    ])
  })
})

describe('a change of the rules', () => {
  const duty = own(`
notices:
  parents:
    - ${law('to: parents, reach: all, lead: 24 hours, until: 2026-03-11')}
    - ${law('to: parents, reach: all, lead: 72 hours', '2026-03-12')}
`)
  it.each<[string, string, string[]]>([
    ['2026-03-11', '2026-03-10', []],
    ['2026-03-12', '2026-03-11', ['notice-late error']],
  ])('an application of %s is judged by the rules of that day', (on, sent, expected) => {
    expect(told(duty + sprayed(on) + parents(sent, '15:40', on))).toEqual(expected)
  })
})
