import { describe, expect, it } from 'vitest'
import { sprayApplication } from '../../src/rules/example-applications.js'
import { checkOf } from '../check/checking.js'
import {
  bait,
  found,
  isAskedOf,
  isTold,
  problemsOf,
  sentences,
  told,
  underRulebooks,
  visit,
} from './application-checks.js'

describe('pest-not-identified', () => {
  const rule = 'pest-not-identified'
  const without = 'identified:'
  const live = 'pest: german-cockroach, area: room-1, evidence: live'

  isAskedOf(rule, without)

  // 92 days before 2026-06-12: 12 in June, 31 in May, 30 in April, 19 in March after the 12th.
  it.each<[string, string, boolean]>([
    ['on the day itself', '2026-06-12', false],
    ['92 days before', '2026-03-12', false],
    ['93 days before', '2026-03-11', true],
    ['the day after', '2026-06-13', true],
  ])('a sighting %s', (_, day, expected) => {
    expect(isTold(rule, found(day, live) + bait('2026-06-12', without), '2026-06-14')).toBe(expected)
  })

  it.each<[string, string, boolean]>([
    ['nothing at all', '', true],
    ['sure', found('2026-03-10', `${live}, identified: sure`), false],
    ['likely', found('2026-03-10', `${live}, identified: likely`), false],
    ['tentative', found('2026-03-10', `${live}, identified: tentative`), true],
    ['another pest', found('2026-03-10', 'pest: silverfish, area: kitchen, evidence: live'), true],
    ['an old trace tells which one it is', found('2026-03-10', `${live}, age: old`), false],
    [
      'cockroaches whose kind was not told',
      found('2026-03-10', 'pest: cockroach, area: room-1, evidence: live'),
      true,
    ],
    ['a count', visit('2026-03-10', 'readings: {K1: {german-cockroach: 2}}'), false],
    ['only egg cases', visit('2026-03-10', 'readings: {K1: {german-cockroach: {egg-cases: 1}}}'), false],
    ['a zero', visit('2026-03-10', 'readings: {K1: {german-cockroach: 0}}'), true],
    ['nothing on the device', visit('2026-03-10', 'readings: {none: [K1]}'), true],
    [
      'a complaint',
      `
=== sites/oak/complaints/2026-03-10-lind.yaml
by: lind
from: staff
area: kitchen
pest: german-cockroach
says: roaches by the range
`,
      true,
    ],
    [
      'a tentative sighting that a later one resolves in time',
      found('2026-03-09', `${live}, identified: tentative`) +
        found('2026-03-11', `${live}, resolves: 2026-03-09-okafor/seen`),
      false,
    ],
  ])('shown by %s', (_, records, expected) => {
    expect(isTold(rule, records + bait('2026-03-12', without))).toBe(expected)
  })

  it.each<[string, boolean]>([
    ['2026-03-12', false],
    ['2026-03-13', true],
  ])('a specimen shows it from the day of the answer: %s', (answered, expected) => {
    const specimen = `
=== sites/oak/specimens/2026-03-06-okafor.yaml
by: okafor
area: kitchen
kept: vial 1
determined: {as: german-cockroach, by: county extension office, on: ${answered}, sure: likely}
`
    expect(isTold(rule, specimen + bait('2026-03-12', without))).toBe(expected)
  })

  it('a word for the whole is met by any kind of it', () => {
    const application = bait('2026-03-12', without, 'pest: cockroach')
    expect(isTold(rule, application)).toBe(true)
    expect(isTold(rule, found('2026-03-10', live) + application)).toBe(false)
  })

  it('each target is asked for, and pointed at where it stands', () => {
    const two = (...lines: string[]) =>
      found('2026-03-10', live) +
      bait('2026-03-12', without, 'also-against: [german-cockroach, silverfish]', ...lines)
    expect(told(rule, two())).toEqual(['also-against.1 warning 2026-03-12'])
    expect(told(rule, two('pest: odorous-house-ant'))).toEqual(['pest warning 2026-03-12'])
    expect(sentences(rule, two('pest: odorous-house-ant'))[0]).toContain(
      'who identified odorous house ant, silverfish: neither',
    )
  })

  it('a target that is not identified is told whatever else is written', () => {
    const application = bait('2026-03-12', 'pest: unidentified')
    expect(told(rule, application)).toEqual(['pest warning 2026-03-12'])
    expect(told(rule, underRulebooks(['us-federal']) + application)).toHaveLength(1)
    expect(told(rule, bait('2026-03-12', 'also-against: [unidentified]'))).toEqual([
      'also-against.0 warning 2026-03-12',
    ])
  })

  it('a name that is none of a pest is told once, as that', () => {
    const { standing } = checkOf(bait('2026-03-12', without, 'pest: german-cockroch'))
    expect(standing.map(({ rule: said }) => said)).toEqual(['unknown-pest'])
  })

  it('is a warning although custom asks, and the shortest time of several rulebooks wins', () => {
    const own = `
parameters:
  evidence.days: [{from: 2024-08-01, value: 1 week, kind: standard, confidence: read, source: Invented policy}]
`
    const seen = (day: string) =>
      underRulebooks(['practice', 'own'], own) + found(day, live) + bait('2026-03-12', without)
    expect(told(rule, bait('2026-03-12', without))).toEqual(['pest warning 2026-03-12'])
    expect(told(rule, seen('2026-03-05'))).toEqual([])
    expect(told(rule, seen('2026-03-04'))).toEqual(['pest warning 2026-03-12'])
    expect(problemsOf(rule, seen('2026-03-04'))[0]?.sources.map(({ kind }) => kind)).toEqual([
      'practice',
      'standard',
    ])
  })

  it('stinging insects in an emergency are identified like any other', () => {
    const emergency =
      'emergency: {problem: nest beside the ramp, why: a pupil was stung, decided-by: marsh, signed: 2026-03-12}'
    expect(isTold(rule, sprayApplication('2026-03-12', without, 'pest: yellowjacket', emergency))).toBe(true)
  })
})

describe('need-not-shown', () => {
  const rule = 'need-not-shown'
  const without = ['threshold:', 'reason:']
  const live = 'pest: german-cockroach, area: kitchen, evidence: live'

  isAskedOf(rule, ...without)

  it.each<[string, string[], boolean]>([
    ['neither', without, true],
    ['a reason alone', ['threshold:'], false],
    ['a threshold alone', ['reason:'], false],
    [
      'the statement of an emergency',
      [...without, 'emergency: {problem: nest beside the ramp, why: a pupil was stung, decided-by: marsh}'],
      false,
    ],
  ])('written down: %s', (_, lines, expected) => {
    expect(isTold(rule, bait('2026-03-12', ...lines))).toBe(expected)
  })

  it.each<[string, string, boolean]>([
    ['a sighting in the treated area', found('2026-03-10', live), false],
    ['a tentative one', found('2026-03-10', `${live}, identified: tentative`), false],
    ['one in another area', found('2026-03-10', live.replace('kitchen', 'room-1')), true],
    ['an old trace', found('2026-03-10', `${live.replace('live', 'droppings')}, age: old`), true],
    [
      'a trace of unknown age',
      found('2026-03-10', `${live.replace('live', 'droppings')}, age: unknown`),
      false,
    ],
    ['cockroaches whose kind was not told', found('2026-03-10', live.replace('german-', '')), false],
    ['another pest', found('2026-03-10', live.replace('german-cockroach', 'silverfish')), true],
    ['a catch', visit('2026-03-10', 'readings: {K1: {german-cockroach: 1}}'), false],
    ['an empty board', visit('2026-03-10', 'readings: {none: [K1]}'), true],
    ['after the application', found('2026-03-13', live), true],
  ])('shown by %s', (_, records, expected) => {
    expect(isTold(rule, records + bait('2026-03-12', ...without))).toBe(expected)
  })

  it.each<[string, boolean]>([
    ['2026-03-12', false],
    ['2026-03-11', true],
  ])('92 days before 2026-06-12 count, 93 do not: %s', (day, expected) => {
    expect(isTold(rule, found(day, live) + bait('2026-06-12', ...without), '2026-06-12')).toBe(expected)
  })

  it('tracks, and a loose block pushed aside, show a need without naming the pest', () => {
    const mice = (kind: string, reading: string) =>
      `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: set-up
by: okafor
set: {P1: {kind: ${kind}, area: kitchen, for: [house-mouse]}}
${visit('2026-03-10', `readings: {P1: {${reading}}}`)}${bait('2026-03-12', 'pest: house-mouse', 'identified:', ...without)}`
    const rules = (kind: string, reading: string) =>
      [rule, 'pest-not-identified'].filter((id) => isTold(id, mice(kind, reading)))
    expect(rules('tracking-patch', 'tracks: some')).toEqual(['pest-not-identified'])
    expect(rules('tracking-patch', 'tracks: none')).toEqual([rule, 'pest-not-identified'])
    expect(rules('blocked-entrance', 'block: moved')).toEqual(['pest-not-identified'])
    expect(rules('blocked-entrance', 'block: in-place')).toEqual([rule, 'pest-not-identified'])
  })

  it.each<[string, string, boolean]>([
    ['the treated area', 'area: kitchen', false],
    ['another area', 'area: room-1', true],
    ['a device in it', 'device: K1', false],
    ['a sighting in it', 'sighting: 2026-03-06-okafor/seen', false],
    ['a sighting by its short name', 'sighting: seen', false],
    ['nowhere that is told', 'sent-to: county extension office', true],
  ])('a specimen from %s', (_, from, expected) => {
    const specimen = `
=== sites/oak/specimens/2026-03-06-okafor.yaml
by: okafor
${from}
kept: vial 1
determined: {as: german-cockroach, by: county extension office, on: 2026-03-10, sure: sure}
`
    const seen = found('2026-03-06', 'pest: unidentified, area: kitchen, evidence: live, looks: brown')
    expect(isTold(rule, seen + specimen + bait('2026-03-12', ...without))).toBe(expected)
  })

  it('an abandoned nest shows no need', () => {
    const nest = (state: string) =>
      found('2026-03-10', `pest: paper-wasp, area: kitchen, evidence: nest, nest-state: ${state}`) +
      sprayApplication('2026-03-12', 'pest: paper-wasp', ...without)
    expect(isTold(rule, nest('active'))).toBe(false)
    expect(isTold(rule, nest('abandoned'))).toBe(true)
  })

  it('where a rulebook asks every record for the reason, it is told once, by the record', () => {
    const own = `
records:
  application: [{from: 2024-08-01, elements: [reason], kind: law, confidence: read, source: "Invented Pest Act, section 5"}]
`
    const ledger = underRulebooks(['practice', 'own'], own) + bait('2026-03-12', ...without)
    expect(told(rule, ledger)).toEqual([])
    expect(told('application-record-incomplete', ledger)).toEqual(['status error 2026-03-12'])
  })
})
