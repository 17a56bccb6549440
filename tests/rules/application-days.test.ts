import { describe, expect, it } from 'vitest'
import { checkOf } from '../check/checking.js'
import {
  asking,
  bait,
  law,
  problemsOf,
  product,
  sentences,
  siteWith,
  told,
  underRulebooks,
  visit,
} from './application-checks.js'

describe('application-record-late', () => {
  const rule = 'application-record-late'
  const restricted = product('bait-a', 'kind: pesticide', 'registration: 99999-1', 'restricted-use: yes')
  const federal = (day: string, written: string) =>
    underRulebooks(['us-federal']) + restricted + bait(day, `on-paper: ${written}`)

  // 7 CFR 110.3(c), in force until 2025-07-10 (90 FR 20083): within 14 days of the application; 1 + 14 = 15.
  it.each<[string, string, string[]]>([
    ['2025-03-01', '2025-03-15', []],
    ['2025-03-01', '2025-03-16', ['on-paper error 2025-03-16']],
    ['2025-07-10', '2025-07-25', ['on-paper error 2025-07-25']],
    ['2025-07-11', '2025-08-30', []],
  ])('restricted use, applied on %s and written on %s', (day, written, expected) => {
    expect(told(rule, federal(day, written))).toEqual(expected)
  })

  const within = (days: string) => asking(`within: ${days}`)

  it.each<[string, string[]]>([
    ['2026-03-15', []],
    ['2026-03-16', ['on-paper error 2026-03-16']],
  ])('14 days from 2026-03-01 end on 2026-03-15: written on %s', (written, expected) => {
    expect(told(rule, within('14 days') + bait('2026-03-01', `on-paper: ${written}`))).toEqual(expected)
  })

  it('says what was due', () => {
    expect(sentences(rule, within('1 days') + bait('2026-03-01', 'on-paper: 2026-03-03'))).toEqual([
      'The record says that it was written on 2026-03-03; it was to be written within 1 day, by 2026-03-02.',
    ])
  })

  it('a record that does not say when it was written is not judged', () => {
    expect(told(rule, within('1 days') + bait('2026-03-01'))).toEqual([])
    expect(told(rule, within('1 days') + bait('2026-03-01', 'entered-by: marsh'))).toEqual([])
  })

  it('the shortest of several terms is told, and those that are broken are cited', () => {
    const own = underRulebooks(
      ['own'],
      `
records:
  act: [{from: 2024-08-01, within: 14 days, ${law(6)}}]
  board: [{from: 2024-08-01, within: 3 days, kind: standard, confidence: read, source: Invented policy}]
`,
    )
    const of = (written: string) => own + bait('2026-03-01', `on-paper: ${written}`)
    expect(told(rule, of('2026-03-04'))).toEqual([])
    expect(told(rule, of('2026-03-05'))).toEqual(['on-paper warning 2026-03-05'])
    expect(told(rule, of('2026-03-15'))).toEqual(['on-paper warning 2026-03-05'])
    expect(told(rule, of('2026-03-16'))).toEqual(['on-paper error 2026-03-05'])
    expect(problemsOf(rule, of('2026-03-15'))[0]?.sources).toHaveLength(1)
    expect(problemsOf(rule, of('2026-03-16'))[0]?.sources).toHaveLength(2)
  })

  it('a visit that put out bait is judged once; one that put out none is not', () => {
    const station = 'kind: bait-station, area: kitchen, product: bait-a, bait-added: 1 g'
    const late = (devices: string) => within('5 days') + visit('2026-03-06', 'on-paper: 2026-03-12', devices)
    expect(told(rule, late(`set: {B1: {${station}}, B2: {${station}}}`))).toEqual([
      'on-paper error 2026-03-12',
    ])
    expect(told(rule, late('inspected: [kitchen]'))).toEqual([])
  })
})

describe('planned-day-passed', () => {
  const rule = 'planned-day-passed'
  const planned = (...lines: string[]) => bait('2026-03-12', 'status: planned', ...lines)

  it('stands from the day after', () => {
    expect(told(rule, planned())).toEqual(['status warning 2026-03-13'])
    expect(checkOf(planned(), '2026-03-12').rules).not.toContain(rule)
    expect(checkOf(planned(), '2026-03-13').rules).toContain(rule)
  })

  it('waits for the last of its other days', () => {
    const ledger = planned('rain-dates: [2026-03-18, 2026-03-16]')
    expect(told(rule, ledger)).toEqual(['status warning 2026-03-19'])
    expect(sentences(rule, ledger)[0]).toContain('2026-03-18, the last of its other days, at the latest')
  })

  it('is not told of what was done or cancelled, nor of a site that was closed by then', () => {
    expect(told(rule, bait('2026-03-12'))).toEqual([])
    expect(told(rule, bait('2026-03-12', 'status: cancelled', 'cancelled: source removed'))).toEqual([])
    expect(told(rule, siteWith([], 'until: 2026-03-12') + planned())).toEqual([])
    expect(told(rule, siteWith([], 'until: 2026-03-13') + planned())).toEqual([
      'status warning 2026-03-13 2026-03-14',
    ])
  })

  it('whatever the product is, and only since the records begin', () => {
    expect(told(rule, planned('product: bait-b'))).toHaveLength(1)
    expect(told(rule, bait('2026-02-28', 'status: planned'))).toEqual([])
  })
})
