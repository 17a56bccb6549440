import { describe, expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { ruleById } from '../../src/rules/all.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { baitA, useOn } from '../../src/rules/products/example-ledgers.js'
import type { Problem } from '../../src/types.js'
import { checkOf } from '../check/checking.js'

/** Everything a rule finds in an overlay, also what stood once and what is to come. */
function found(rule: string, overlay: string, asOf?: string): readonly Problem[] {
  return checkOf(overlay, asOf).problems.filter((problem) => problem.rule === rule)
}

const days = ({ from, until }: Problem) => [isoOf(from), until === undefined ? '' : isoOf(until)] as const
const sheets = (...lines: string[]) => baitA({ sds: lines.map((line) => `\n  - ${line}`).join('') })

const all = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16]
const without = (...numbers: number[]) => all.filter((number) => !numbers.includes(number)).join(', ')

describe('sds-sections-missing', () => {
  const rule = 'sds-sections-missing'
  const sheet = (sections: string, span = 'from: 2026-01-05') =>
    `{${span}, file: sds.txt, sections: [${sections}]}`

  it('is silent with all sixteen, and where nobody looked', () => {
    expect(found(rule, sheets(sheet(without())))).toEqual([])
    expect(found(rule, sheets('{from: 2026-01-05, file: sds.txt}'))).toEqual([])
  })

  // 29 CFR 1910.1200, Appendix D, Table D.1.
  it('names the numbers and headings that are missing, also those OSHA does not enforce', () => {
    const [problem] = found(rule, sheets(sheet(without(4, 12, 16))))
    expect(problem?.args.missing).toEqual([
      '4 First-aid measures',
      '12 Ecological information',
      '16 Other information',
    ])
    expect([problem?.level, problem?.at.path]).toEqual(['warning', ['sds', 0, 'sections']])
  })

  it('says it in the singular for one', () => {
    const [problem] = found(rule, sheets(sheet(without(8))))
    expect(problem && ruleById(rule)?.says(problem.args)).toMatch(
      /without the heading 8 Exposure controls\/personal protection\.$/,
    )
  })

  it('a number given twice is still one', () => {
    expect(found(rule, sheets(sheet(`${without()}, 16`)))).toEqual([])
  })

  it('holds while the sheet is the one in force', () => {
    const newer = sheet(without(), 'from: 2026-03-10')
    expect(found(rule, sheets(sheet(without(1)), newer)).map(days)).toEqual([['2026-03-01', '2026-03-10']])
    const ended = sheet(without(1), 'from: 2026-01-05, until: 2026-03-09')
    expect(found(rule, sheets(ended)).map(days)).toEqual([['2026-03-01', '2026-03-10']])
  })

  it('does not speak of a sheet that was replaced before the records begin', () => {
    const newer = sheet(without(), 'from: 2026-03-01')
    expect(found(rule, sheets(sheet(without(1)), newer))).toEqual([])
  })

  it('speaks again of an older sheet when a newer one has ended', () => {
    const between = sheet(without(), 'from: 2026-03-05, until: 2026-03-09')
    expect(found(rule, sheets(sheet(without(1)), between)).map(days)).toEqual([
      ['2026-03-01', '2026-03-05'],
      ['2026-03-10', ''],
    ])
  })
})

describe('sds-old', () => {
  const rule = 'sds-old'
  const revised = (day: string, span = 'from: 2026-01-05') => `{${span}, file: sds.txt, revised: ${day}}`

  // Common practice, no source: three years. Revised on 2023-03-19, it is three years old on 2026-03-19 and older than
  // that the day after.
  it.each<[string, string | null]>([
    ['2023-03-19', '2026-03-20'],
    ['2023-03-20', '2026-03-21'],
    ['2023-02-28', '2026-03-01'],
    // Older than three years already when the ledger begins.
    ['2019-06-01', '2026-03-01'],
    // 29 February 2024 and three years are 28 February 2027.
    ['2024-02-29', '2027-03-01'],
    // Beyond a year ahead nothing is foretold.
    ['2024-06-01', null],
  ])('revised %s', (day, from) => {
    expect(found(rule, sheets(revised(day))).map((problem) => days(problem)[0])).toEqual(from ? [from] : [])
  })

  it('is a note: no law of the United States lets a sheet expire', () => {
    const problems = found(rule, sheets(revised('2020-01-01')))
    expect(problems.map(({ level, sources }) => [level, sources.map(({ kind }) => kind)])).toEqual([
      ['note', ['practice']],
    ])
  })

  it('asks nothing of a sheet without a date of revision', () => {
    expect(found(rule, sheets('{from: 2010-01-05, file: sds.txt}'))).toEqual([])
  })

  it('ends when a newer one is at hand, and looks only at the newest', () => {
    const newer = revised('2026-02-01', 'from: 2026-03-15')
    expect(found(rule, sheets(revised('2020-01-01'), newer)).map(days)).toEqual([
      ['2026-03-01', '2026-03-15'],
    ])
    expect(found(rule, sheets(revised('2020-01-01'), revised('2026-02-01', 'from: 2026-02-02')))).toEqual([])
  })

  const own = (value: string, from: string) =>
    underOwnRulebook(`
parameters:
  sds.age: [{from: ${from}, value: ${value}, kind: standard, confidence: read, source: board policy}]
`)

  it.each<[string, string, string]>([
    // Two years from 2024-03-09 are over on 2026-03-09.
    ['2 years', '2020-01-01', '2026-03-10'],
    ['24 months', '2020-01-01', '2026-03-10'],
    // Adopted later: older than two years on the first day on which that is asked.
    ['2 years', '2026-03-15', '2026-03-15'],
  ])('the district asks for %s from %s', (value, since, from) => {
    const problems = found(rule, own(value, since) + sheets(revised('2024-03-09')))
    expect(problems.map((problem) => [days(problem)[0], problem.level])).toEqual([[from, 'warning']])
  })

  it('reads an age in days as well', () => {
    // 2024-03-09 and 730 days: 365 to 2025-03-09, 365 to 2026-03-09.
    const alone = own('730 days', '2020-01-01').replace(/.*rulebook: practice.*\n/, '')
    expect(found(rule, alone + sheets(revised('2024-03-09'))).map((problem) => days(problem)[0])).toEqual([
      '2026-03-10',
    ])
  })

  it('keeps to practice where the district asks for less', () => {
    const problems = found(rule, own('4 years', '2020-01-01') + sheets(revised('2023-03-19')))
    expect(problems.map((problem) => days(problem)[0])).toEqual(['2026-03-20'])
  })
})

describe('label-not-in-data', () => {
  const rule = 'label-not-in-data'
  const labels = (text: string) => baitA({ labels: text })
  const bare = '{from: 2026-01-05, file: label.txt}'
  const station = `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: set-up
by: okafor
set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
readings: {B1: {bait-taken: all, bait-added: 1 station, product: bait-a}}
`

  it.each<[string, string, (readonly [string, number])[]]>([
    ['an application', labels(`[${bare}]`) + useOn('12'), [['2026-03-12', 0]]],
    ['several', labels(`[${bare}]`) + useOn('10') + useOn('12') + useOn('13'), [['2026-03-10', 2]]],
    ['bait in a station, however often it was topped up', labels(`[${bare}]`) + station, [['2026-03-10', 1]]],
    ['bait and an application', labels(`[${bare}]`) + useOn('13') + station, [['2026-03-10', 2]]],
    ['not used', labels(`[${bare}]`), []],
    ['in data', baitA({}) + useOn('12'), []],
    [
      'in data from a later label on',
      labels(`[${bare}, {from: 2026-03-12, file: label.txt, says: {places: [indoors]}}]`) +
        useOn('11') +
        useOn('12'),
      [['2026-03-11', 0]],
    ],
    // product-without-label says that there is none; one cause is told once.
    ['no label in force', labels('[{from: 2026-03-13, file: label.txt}]') + useOn('12'), []],
    ['no pesticide', baitA({ kind: 'lure', registration: null, labels: `[${bare}]` }) + useOn('12'), []],
    [
      'minimum risk',
      baitA({ kind: 'minimum-risk', registration: null, labels: `[${bare}]` }) + useOn('12'),
      [['2026-03-12', 0]],
    ],
  ])('%s', (_, overlay, expected) => {
    expect(found(rule, overlay).map((problem) => [isoOf(problem.from), problem.args.more])).toEqual(expected)
  })

  it('points at the label whose facts are not entered', () => {
    const later = '{from: 2026-03-11, file: label.txt}'
    const [problem] = found(rule, labels(`[${bare}, ${later}]`) + useOn('12'))
    expect(problem?.level).toBe('note')
    expect(problem?.related.map(({ place }) => place.path)).toEqual([['labels', 1]])
  })
})

// 40 CFR 156.64 (read) with the categories of 156.62.
describe('signal-word-below-toxicity', () => {
  const rule = 'signal-word-below-toxicity'
  it.each<[string, string, boolean]>([
    ['danger-poison', '{oral: I}', false],
    ['danger', '{oral: I}', true],
    ['danger', '{dermal: I, eye: I}', true],
    ['danger', '{inhalation: I}', true],
    ['danger', '{eye: I}', false],
    ['danger', '{skin: I, oral: II}', false],
    ['warning', '{skin: I}', true],
    ['warning', '{oral: II}', false],
    ['caution', '{oral: III, eye: II}', true],
    ['caution', '{oral: III}', false],
    ['none', '{oral: III}', true],
    ['none', '{oral: IV}', false],
    // A higher word may be one that EPA asked for.
    ['danger', '{oral: IV}', false],
    ['caution', '{oral: IV}', false],
  ])('%s with %s', (word, toxicity, speaks) => {
    const problems = found(rule, baitA({ 'signal-word': word, toxicity }))
    expect(problems.map(({ at, level }) => [at.path, level])).toEqual(
      speaks ? [[['signal-word'], 'warning']] : [],
    )
  })

  it('is silent without categories, without a word, and for what bears none by law', () => {
    expect(found(rule, baitA({ 'signal-word': 'none' }))).toEqual([])
    expect(found(rule, baitA({ 'signal-word': null, toxicity: '{oral: I}' }))).toEqual([])
    const exempt = { kind: 'minimum-risk', registration: null, 'signal-word': 'none', toxicity: '{eye: III}' }
    expect(found(rule, baitA(exempt))).toEqual([])
  })

  it('names the table and the categories', () => {
    const [problem] = found(rule, baitA({ 'signal-word': 'caution', toxicity: '{oral: III, eye: II}' }))
    const sentence = problem && ruleById(rule)?.says(problem.args)
    expect(sentence).toMatch(/oral III, eye II/)
    expect(sentence).toMatch(/at least "warning".*156\.64.*156\.62/)
  })
})
