import { describe, expect, it } from 'vitest'
import { inventedAct, ownRulebook } from '../../src/rules/licences/example-ledgers.js'
import { problems } from './licence-checks.js'

describe('records-discarded-too-early', () => {
  // Federal law asks for times of its own, which are not what is tried here.
  const keeping = (duties: string, entry: string, uses = '') =>
    ownRulebook(`${uses}keeping:\n${duties}`, `discarded:\n  - {by: marsh, ${entry}}`).replace(
      '  - {from: 2026-03-01, rulebook: us-federal}\n',
      '',
    )
  const two = `  applications: [{${inventedAct} 9, what: applications, keep: 2 years}]`
  const discarded = (overlay: string) =>
    problems(overlay).map(({ args, at }) => [at.path.join('.'), args.youngest, args.earliest])

  it.each<[string, string, string, string[][]]>([
    // The youngest is of 29 February 2024: two years are over when 1 March 2026 has come.
    ['on the first day it may be', '2026-03-01', '2024-03-01', []],
    ['a day younger', '2026-03-01', '2024-03-02', [['discarded.0.on', '2024-03-01', '2026-03-02']]],
    ['two years and a day', '2026-03-10', '2024-03-10', []],
    ['two years only', '2026-03-10', '2024-03-11', [['discarded.0.on', '2024-03-10', '2026-03-11']]],
  ])('%s', (_, on, before, expected) => {
    expect(discarded(keeping(two, `what: applications, on: ${on}, before: ${before}`))).toEqual(expected)
  })

  it('other records have other times', () => {
    expect(discarded(keeping(two, 'what: sds, on: 2026-03-10, before: 2026-03-01'))).toEqual([])
    // 29 CFR 1910.1020(d)(1)(ii)(B), from memory: thirty years.
    const sheets = `  sheets: [{${inventedAct} 9, what: sds, keep: 30 years}]`
    expect(discarded(keeping(sheets, 'what: sds, on: 2026-03-10, before: 1996-03-10'))).toEqual([])
    expect(discarded(keeping(sheets, 'what: sds, on: 2026-03-10, before: 1996-03-11'))).toHaveLength(1)
  })

  describe('kept longer by what was used', () => {
    // N.J.S.A. 13:1F-24a: three years, five for pesticides against termites.
    const uses = `uses:\n  termite: [{${inventedAct} 1, any: [{pest: [termite]}]}]\n  restricted: [{${inventedAct} 1, any: [{restricted-use: "yes"}]}]\n`
    const longer = `  all: [{${inventedAct} 9, what: applications, keep: 3 years}]
  termite: [{${inventedAct} 10, what: applications, keep: 5 years, holds-for: [termite]}]
  restricted: [{${inventedAct} 11, what: applications, keep: 4 years, holds-for: [restricted]}]`
    const of = (before: string, more = '') =>
      problems(keeping(longer, `what: applications, on: 2026-03-10, before: ${before}${more}`, uses)).map(
        ({ args, sources }) => [args.keep, args.earliest, sources.length],
      )
    it.each<[string, string, string, (string | number)[][]]>([
      ['both can be among them if nothing is said', '2023-03-10', '', [['5 years', '2028-03-10', 2]]],
      ['no termite pesticides', '2023-03-10', ', termite: no', [['4 years', '2027-03-10', 1]]],
      ['no restricted use', '2023-03-10', ', restricted-use: no', [['5 years', '2028-03-10', 1]]],
      ['neither', '2023-03-10', ', termite: no, restricted-use: no', []],
      [
        'neither, but younger',
        '2023-03-11',
        ', termite: no, restricted-use: no',
        [['3 years', '2026-03-11', 1]],
      ],
      ['old enough for all', '2021-03-10', '', []],
      ['termite pesticides said', '2021-03-11', ', termite: yes', [['5 years', '2026-03-11', 1]]],
    ])('%s', (_, before, more, expected) => {
      expect(of(before, more)).toEqual(expected)
    })
  })

  it('is judged by the duties of the day it was done', () => {
    const later = two.replace('from: 2020-01-01', 'from: 2026-03-11')
    expect(discarded(keeping(later, 'what: applications, on: 2026-03-10, before: 2026-01-01'))).toEqual([])
    expect(discarded(keeping(later, 'what: applications, on: 2026-03-11, before: 2026-01-01'))).toHaveLength(
      1,
    )
  })

  it('is not judged before the records begin, though the rulebook was in force', () => {
    const long = (on: string) =>
      keeping(two, `what: applications, on: ${on}, before: 2026-01-01`).replace(
        '{from: 2026-03-01, rulebook: own}',
        '{from: 2020-01-01, rulebook: own}',
      )
    expect(discarded(long('2026-02-28'))).toEqual([])
    expect(discarded(long('2026-03-01'))).toHaveLength(1)
  })
})
