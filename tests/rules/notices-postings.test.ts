import { describe, expect, it } from 'vitest'
import { districtWith, law, notice, problemsOf, sprayed, told } from './notices-checking.js'

const postings = (...duties: string[]) =>
  districtWith({
    own: `postings:\n${duties.map((facts, n) => `  signs-${n}: [${law(facts)}]\n`).join('')}`,
  })
const spray = sprayed('2026-03-12')
const posted = (on: string, facts: string, about?: string, who?: string) =>
  notice(on, `posted: {places: [main entrance]${facts === '' ? '' : `, ${facts}`}}`, about, who)

describe('72 hours before 15:40 on Thursday 2026-03-12', () => {
  const duty = postings('before: 72 hours')
  it.each<[string, string, string[]]>([
    ['put up then', posted('2026-03-09', 'at: 15:40'), []],
    ['put up a minute later', posted('2026-03-09', 'at: 15:41'), ['posting-late error']],
    ['an hour that is not recorded', posted('2026-03-09', ''), ['posting-late warning']],
    ['the day before', posted('2026-03-08', ''), []],
    ['the day after', posted('2026-03-10', ''), ['posting-late error']],
    ['after the application', posted('2026-03-13', ''), ['posting-late error']],
    ['no sign', '', ['posting-missing error']],
    ['a notice is no sign', notice('2026-03-05', 'sent: {to: everyone}'), ['posting-missing error']],
    [
      'signs put up twice: the first counts',
      posted('2026-03-09', 'at: 15:40') + posted('2026-03-11', '', undefined, 'lind'),
      [],
    ],
  ])('%s', (_, records, expected) => {
    expect(told(duty + spray + records)).toEqual(expected)
  })

  it('says when they were due, at the hour of the record', () => {
    const [late] = problemsOf(duty + spray + posted('2026-03-09', 'at: 15:41'))
    expect(late?.at).toEqual({ file: 'sites/oak/notices/2026-03-09-marsh.yaml', path: ['posted', 'at'] })
    expect(late?.args).toMatchObject({ put: '2026-03-09 15:41', latest: '2026-03-09 15:40', shown: 'late' })
    const [missing] = problemsOf(duty + spray)
    expect(missing?.args).toEqual({
      term: '72 hours before',
      latest: '2026-03-09 15:40',
      how: 'application',
      more: 0,
    })
  })

  it('tells signs put up afterwards once, whatever else they lack', () => {
    const strict = postings('before: 72 hours, size: 8.5 x 11 in, says: [date], at-the: [treated-area]')
    expect(
      told(strict + spray + posted('2026-03-13', 'size: 4 x 5 in, says: [time], at-the: [common-area]')),
    ).toEqual(['posting-late error'])
  })
})

describe('signs for which no time beforehand is set', () => {
  const duty = postings('size: 4 x 5 in, at-the: [each-entrance]')
  it.each<[string, string, string[]]>([
    ['put up afterwards', posted('2026-03-12', 'at: 17:00, size: 4 x 5 in, at-the: [each-entrance]'), []],
    ['none', '', ['posting-missing error']],
  ])('%s', (_, records, expected) => {
    expect(told(duty + spray + records)).toEqual(expected)
  })
})

describe('a sheet of 8.5 x 11 in', () => {
  const duty = postings('size: 8.5 x 11 in')
  it.each<[string, string[]]>([
    ['8.5 x 11 in', []],
    ['11 x 8.5 in', []],
    ['8.4 x 14 in', ['posting-too-small error']],
    ['8.5 x 10.9 in', ['posting-too-small error']],
    ['17 x 11 in', []],
    // 8.5 in is 21.59 cm and 11 in is 27.94 cm, at 2.54 cm to the inch.
    ['21.59 x 27.94 cm', []],
    ['27.94 x 21.59 cm', []],
    ['21.58 x 27.94 cm', ['posting-too-small error']],
    // A sheet of 210 by 297 mm is longer, but narrower.
    ['21 x 29.7 cm', ['posting-too-small error']],
    ['29.7 x 42 cm', []],
  ])('%s', (size, expected) => {
    expect(told(duty + spray + posted('2026-03-09', `size: ${size}`))).toEqual(expected)
  })
  it('that was not measured is not shown', () => {
    const problems = problemsOf(duty + spray + posted('2026-03-09', ''))
    expect(problems.map(({ rule, level, args }) => [rule, level, args])).toEqual([
      ['posting-too-small', 'warning', { size: '', asked: ['8.5 x 11 in'] }],
    ])
  })
})

describe('where signs hang', () => {
  const duty = postings('before: 72 hours, at-the: [treated-area, each-entrance]')
  it.each<[string, string, string[]]>([
    ['at both', posted('2026-03-08', 'at-the: [each-entrance, treated-area]'), []],
    ['at one', posted('2026-03-08', 'at-the: [treated-area]'), ['posting-not-everywhere error']],
    ['at neither', posted('2026-03-08', 'at-the: [common-area]'), ['posting-not-everywhere error']],
    ['not recorded', posted('2026-03-08', ''), ['posting-not-everywhere warning']],
    [
      'one recorded, and one that may be the other',
      posted('2026-03-08', 'at-the: [treated-area]') + posted('2026-03-07', '', undefined, 'lind'),
      ['posting-not-everywhere warning'],
    ],
    [
      'told by two records',
      posted('2026-03-08', 'at-the: [treated-area]') +
        posted('2026-03-07', 'at-the: [each-entrance]', undefined, 'lind'),
      [],
    ],
    [
      'one of two records late',
      posted('2026-03-08', 'at-the: [treated-area]') +
        posted('2026-03-11', 'at-the: [each-entrance]', undefined, 'lind'),
      ['posting-late error'],
    ],
    [
      'late and not everywhere',
      posted('2026-03-11', 'at-the: [treated-area]'),
      ['posting-late error', 'posting-not-everywhere error'],
    ],
  ])('%s', (_, records, expected) => {
    expect(told(duty + spray + records)).toEqual(expected)
  })

  it('holds the best sign of each kind of place against size and words', () => {
    const strict = postings('size: 8.5 x 11 in, says: [date], at-the: [treated-area, each-entrance]')
    const good = posted('2026-03-08', 'at-the: [treated-area], size: 8.5 x 11 in, says: [date]')
    const small = (facts: string) =>
      posted('2026-03-07', `${facts}, size: 4 x 5 in, says: [date]`, undefined, 'lind')
    expect(told(strict + spray + good + small('at-the: [each-entrance]'))).toEqual([
      'posting-too-small error',
    ])
    const more = posted(
      '2026-03-09',
      'at-the: [each-entrance], size: 11 x 17 in, says: [date]',
      undefined,
      'okafor',
    )
    expect(told(strict + spray + good + small('at-the: [each-entrance]') + more)).toEqual([])
  })
})

describe('what a sign says', () => {
  const duty = postings('before: 72 hours', 'says: [trade-name, reason, location]')
  it.each<[string, string, unknown[]]>([
    ['everything', 'says: [location, reason, trade-name]', []],
    ['not everything', 'says: [reason]', [['posting-incomplete', ['trade-name', 'location'], 'listed']]],
    ['not recorded', '', [['posting-incomplete', ['trade-name', 'reason', 'location'], 'nowhere']]],
  ])('%s', (_, facts, expected) => {
    const problems = problemsOf(duty + spray + posted('2026-03-08', facts))
    expect(problems.map(({ rule, args }) => [rule, args.missing, args.recorded])).toEqual(expected)
  })

  it('two duties of one rulebook miss one sign once', () => {
    expect(told(duty + spray)).toEqual(['posting-missing error'])
  })
})

describe('72 hours after 16:05 on Thursday 2026-03-12, which is Sunday 2026-03-15 16:05', () => {
  const duty = postings('after: 72 hours')
  const down = (day: string, at = '') =>
    posted('2026-03-09', `taken-down: ${day}${at === '' ? '' : `, taken-down-at: "${at}"`}`)
  it.each<[string, string, string[]]>([
    ['taken down then', down('2026-03-15', '16:05'), []],
    ['taken down a minute before', down('2026-03-15', '16:04'), ['posting-removed-early error']],
    ['an hour that is not recorded', down('2026-03-15'), ['posting-removed-early warning']],
    ['the day before', down('2026-03-14'), ['posting-removed-early error']],
    ['the day after', down('2026-03-16'), []],
    ['before the application', down('2026-03-11'), ['posting-removed-early error']],
    ['still up', posted('2026-03-09', ''), []],
    [
      'put up again in time',
      down('2026-03-13', '10:00') + posted('2026-03-13', 'at: 09:00', undefined, 'lind'),
      [],
    ],
    [
      'put up again an hour after the others came down',
      down('2026-03-13', '10:00') + posted('2026-03-13', 'at: 11:00', undefined, 'lind'),
      ['posting-removed-early error'],
    ],
    [
      'put up again when the time was over',
      down('2026-03-13', '10:00') + posted('2026-03-16', 'at: 09:00', undefined, 'lind'),
      ['posting-removed-early error'],
    ],
    [
      'twice put up again in time',
      down('2026-03-13', '10:00') +
        posted('2026-03-13', 'at: 09:00, taken-down: 2026-03-14, taken-down-at: "10:00"', undefined, 'lind') +
        posted('2026-03-14', 'at: 09:30', undefined, 'marsh'),
      [],
    ],
  ])('%s', (_, records, expected) => {
    expect(told(duty + spray + records)).toEqual(expected)
  })

  it('is true from the day they were taken down', () => {
    // 2026-03-14 is day 20526.
    expect(problemsOf(duty + spray + down('2026-03-14')).map(({ from }) => from)).toEqual([20526])
    expect(told(duty + spray + down('2026-03-14'), '2026-03-13')).toEqual([])
  })

  it('counts from the end of the day at the latest where the hours are not recorded', () => {
    // The end may be 00:00 or 23:59 on the 12th: 72 hours later is between 00:00 and 23:59 on the 15th.
    const untimed = sprayed('2026-03-12', '')
    expect(told(duty + untimed + down('2026-03-14', '23:59'))).toEqual(['posting-removed-early error'])
    expect(told(duty + untimed + down('2026-03-15', '00:00'))).toEqual(['posting-removed-early warning'])
    expect(told(duty + untimed + down('2026-03-15', '23:58'))).toEqual(['posting-removed-early warning'])
    expect(told(duty + untimed + down('2026-03-16'))).toEqual([])
  })
})

describe('after a change of the clock', () => {
  // Friday 2026-03-06 16:05 PST is 2026-03-07 00:05Z; 72 h or 3 days later is Monday 03-09 17:05 PDT.
  it.each(['72 hours', '3 days'])('%s', (after) => {
    const ledger = postings(`after: ${after}`) + sprayed('2026-03-06')
    const down = (at: string) =>
      posted('2026-03-05', `taken-down: 2026-03-09, taken-down-at: ${at}`, '2026-03-06')
    expect(told(ledger + down('17:05'))).toEqual([])
    expect(told(ledger + down('17:04'))).toEqual(['posting-removed-early error'])
    expect(problemsOf(ledger + down('17:04'))[0]?.args.until).toBe('2026-03-09 17:05')
  })

  it('an hour shown twice is said not to be clear: no rule of clock times looks at it', () => {
    // Thursday 2026-10-29 01:20 PDT is 08:20Z; 72 h later is Sunday 2026-11-01 08:20Z, the first 01:20.
    const ledger = postings('after: 72 hours') + sprayed('2026-10-29', 'time: 01:00 to 01:20')
    const down = (at: string) =>
      posted('2026-10-26', `taken-down: 2026-11-01, taken-down-at: "${at}"`, '2026-10-29')
    expect(told(ledger + down('01:10'), '2026-11-10')).toEqual(['posting-removed-early warning'])
    expect(told(ledger + down('01:10-07:00'), '2026-11-10')).toEqual(['posting-removed-early error'])
    expect(told(ledger + down('01:10-08:00'), '2026-11-10')).toEqual([])
    expect(told(ledger + down('01:20'), '2026-11-10')).toEqual([])
  })
})

it('several rulebooks: one problem, as strict as the strictest', () => {
  const both = districtWith({
    act: `postings:\n  signs: [${law('before: 24 hours')}]\n`,
    policy: `
postings:
  signs: [{from: 2026-03-01, kind: standard, confidence: read, source: board policy, before: 72 hours}]
`,
  })
  const found = (records: string) =>
    problemsOf(both + spray + records).map(({ level, args, sources }) => [level, args.term, sources.length])
  expect(found(posted('2026-03-10', ''))).toEqual([['warning', '72 hours before', 1]])
  expect(found(posted('2026-03-12', 'at: 08:00'))).toEqual([['error', '72 hours before', 2]])
  expect(found('')).toEqual([['error', '72 hours before', 2]])
})
