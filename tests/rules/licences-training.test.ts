import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { gelInCracks, inventedAct, okafor, ownRulebook } from '../../src/rules/licences/example-ledgers.js'
import { baits, days, problems, told } from './licence-checks.js'

describe('training-missing', () => {
  const training = (more: string) =>
    ownRulebook(`training:\n  course: [{${inventedAct} 8, course: own-course, ${more}}]`)
  const trained = (who: string, name: string, ...entries: string[]) => `
=== people/${who}.yaml
name: ${name}
roles: [technician]
training:
${entries.map((entry, n) => `  t${n}: {topic: Schools and pests, ${entry}}`).join('\n')}
`
  const appliers = training('who: whoever applies, every: 1 year')
  const ada = (...entries: string[]) => trained('okafor', 'Ada Okafor', ...entries)

  it.each<[string, string, [string, string, number][]]>([
    ['none', okafor({}), [['2026-03-12', '', 0]]],
    ['a year before to the day', ada('on: 2025-03-12, course: own-course'), []],
    ['a day more', ada('on: 2025-03-11, course: own-course'), [['2026-03-12', '', 0]]],
    ['on the day itself', ada('on: 2026-03-12, course: own-course'), []],
    ['the day after', ada('on: 2026-03-13, course: own-course'), [['2026-03-12', '', 0]]],
    ['another course', ada('on: 2026-03-10, course: other-course'), [['2026-03-12', '', 0]]],
    ['counts through its stated end', ada('on: 2026-02-01, until: 2026-03-12, course: own-course'), []],
    [
      'and not after it',
      ada('on: 2026-02-01, until: 2026-03-11, course: own-course'),
      [['2026-03-12', '', 0]],
    ],
  ])('whoever applies: %s', (_, person, expected) => {
    expect(days(appliers + person + gelInCracks())).toEqual(expected)
  })

  it('is told once for each person and gap', () => {
    const person = ada('on: 2026-03-06, until: 2026-03-08, course: own-course')
    expect(
      days(appliers + person + baits('2026-03-02', '2026-03-04', '2026-03-07', '2026-03-09', '2026-03-10')),
    ).toEqual([
      ['2026-03-02', '', 1],
      ['2026-03-09', '', 1],
    ])
  })

  it('gives those who begin the time that the duty gives', () => {
    const month = training('who: whoever applies, every: 1 year, within: 1 month')
    // A month from the first use on 3 March is over with 3 April.
    expect(days(month + okafor({}) + baits('2026-03-03', '2026-04-03'), '2026-04-20')).toEqual([])
    expect(days(month + okafor({}) + baits('2026-03-03', '2026-04-04'), '2026-04-20')).toEqual([
      ['2026-04-04', '', 0],
    ])
  })

  it('counts that time from the first day of the duty for those who began before it', () => {
    const since = training('who: whoever applies, every: 1 year, within: 1 month').replace(
      'from: 2020-01-01',
      'from: 2026-03-10',
    )
    // A month from 10 March is over with 10 April; one from the first use would be over with 3 April.
    expect(days(since + okafor({}) + baits('2026-03-03', '2026-04-10'), '2026-04-20')).toEqual([])
    expect(days(since + okafor({}) + baits('2026-03-03', '2026-04-11'), '2026-04-20')).toEqual([
      ['2026-04-11', '', 0],
    ])
  })

  const coordinators = (more = '') => training(`who: coordinator, every: 1 year${more}`)
  const ines = (...entries: string[]) => trained('marsh', 'Ines Marsh', ...entries)
  const withCoordinator = (overlay: string, coordinator: string) =>
    overlay.replace('coordinator: [{from: 2026-03-01, who: marsh}]', `coordinator: [${coordinator}]`)

  it.each<[string, string, [string, string, number][]]>([
    // Six months from 1 March 2026 are over with 1 September.
    ['none', '', [['2026-09-02', '', 0]]],
    ['on the last day in time', ines('on: 2026-09-01, course: own-course'), [['2027-09-02', '', 0]]],
    [
      'a day late',
      ines('on: 2026-09-03, course: own-course'),
      [
        ['2026-09-02', '2026-09-03', 0],
        ['2027-09-04', '', 0],
      ],
    ],
    // The one of 2025 counts through 10 October 2026, past the six months.
    ['from before', ines('on: 2025-10-10, course: own-course'), [['2026-10-11', '', 0]]],
    [
      'renewed in time',
      ines('on: 2026-06-01, course: own-course', 'on: 2027-06-01, course: own-course'),
      [['2028-06-02', '', 0]],
    ],
  ])('the coordinator: %s', (_, person, expected) => {
    expect(days(coordinators(', within: 6 months') + person)).toEqual(expected)
  })

  it('points at the coordinator, who may be followed by another', () => {
    const followed = withCoordinator(
      coordinators(', within: 6 months'),
      '{from: 2026-03-01, until: 2026-10-31, who: marsh}, {from: 2026-11-01, who: lind}',
    )
    expect(
      problems(followed).map(({ at, from, until, args }) => [
        at.path.join('.'),
        args.person,
        isoOf(from),
        until === undefined ? '' : isoOf(until),
      ]),
    ).toEqual([
      ['coordinator.0.who', 'Ines Marsh', '2026-09-02', '2026-11-01'],
      // Six months from 1 November 2026 are over with 1 May 2027.
      ['coordinator.1.who', 'Tor Lind', '2027-05-02', ''],
    ])
  })

  it('spans of one coordinator without a break are one time in office', () => {
    const renewed = withCoordinator(
      coordinators(', within: 6 months'),
      '{from: 2026-03-01, until: 2026-06-30, who: marsh}, {from: 2026-07-01, who: marsh}',
    )
    expect(days(renewed)).toEqual([['2026-09-02', '', 0]])
  })

  it('someone long in office is late from the day the records begin, not before', () => {
    expect(
      days(withCoordinator(coordinators(', within: 6 months'), '{from: 2022-01-10, who: marsh}')),
    ).toEqual([['2026-03-01', '', 0]])
  })

  it('without a time of its own the first course falls into the first year', () => {
    expect(days(coordinators())).toEqual([['2027-03-02', '', 0]])
  })

  it('ends with the duty', () => {
    const until = coordinators(', within: 6 months').replace(
      'rulebook: own}',
      'rulebook: own, until: 2026-12-31}',
    )
    expect(days(until)).toEqual([['2026-09-02', '2027-01-01', 0]])
  })

  it('a newer version of a duty gives no new time', () => {
    const two = ownRulebook(`training:
  course:
    - {${inventedAct} 8, until: 2026-10-31, course: own-course, who: coordinator, every: 1 year, within: 6 months}
    - {from: 2026-11-01, kind: law, confidence: read, source: Invented Pest Act section 8a, course: own-course, who: coordinator, every: 1 year, within: 6 months}`)
    expect(days(two, '2026-12-31')).toEqual([
      ['2026-09-02', '2026-11-01', 0],
      ['2026-11-01', '', 0],
    ])
  })

  it('hangs on what is used where the duty says so: then it is asked at the use', () => {
    const some = ownRulebook(`
uses:
  baits: [{${inventedAct} 1, any: [{method: [in-a-station]}]}]
training:
  course: [{${inventedAct} 8, course: own-course, who: coordinator, every: 1 year, within: 1 month, not-for: [baits]}]
`).replace('coordinator: [{from: 2026-03-01, who: marsh}]', 'coordinator: [{from: 2025-03-01, who: marsh}]')
    expect(told(some)).toEqual([])
    expect(told(some + baits('2026-03-12'))).toEqual([])
    expect(told(some + gelInCracks())).toEqual(['training-missing at product'])
  })
})
