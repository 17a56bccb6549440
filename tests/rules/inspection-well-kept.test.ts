import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { addMonths, dayOf, isoOf, lastOfMonth, weekdayOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { inspectionRules } from '../../src/rules/inspection/index.js'
import type { Day, Problem } from '../../src/types.js'

/** Two school years and the recess after each, of a school where everything is done when it should be. */
const begins = day('2024-09-03')
const asOf = day('2026-08-31')
const closures: readonly (readonly [Day, Day])[] = [
  ['2024-11-28', '2024-11-29'],
  ['2024-12-23', '2025-01-03'],
  ['2025-03-24', '2025-03-28'],
  ['2025-06-13', '2025-09-01'],
  ['2025-11-27', '2025-11-28'],
  ['2025-12-22', '2026-01-02'],
  ['2026-03-30', '2026-04-03'],
  ['2026-06-12', '2026-09-07'],
].map(([first = '', last = '']) => [day(first), day(last)] as const)

function day(text: string): Day {
  return dayOf(text) ?? 0
}

const isSchoolDay = (on: Day) =>
  weekdayOf(on) <= 5 && !closures.some(([first, last]) => first <= on && on <= last)

function district(): string {
  return `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: 2024-09-03
coordinator: [{from: 2024-09-03, who: marsh}]
rulebooks: [{from: 2024-09-03, rulebook: practice}, {from: 2024-09-03, rulebook: us-federal}]
calendar:
  - {from: 2024-09-03, until: 2025-06-12, closed: {autumn: 2024-11-28 to 2024-11-29, winter: 2024-12-23 to 2025-01-03, spring: 2025-03-24 to 2025-03-28}}
  - {from: 2025-09-02, until: 2026-06-11, closed: {autumn: 2025-11-27 to 2025-11-28, winter: 2025-12-22 to 2026-01-02, spring: 2026-03-30 to 2026-04-03}}
  - {from: 2026-09-08, until: 2027-06-11}
=== sites/oak/visits/2026-03-05-okafor.yaml (delete)
=== reviews/2025.yaml
held: 2025-06-30
by: marsh
present: [IPM coordinator]
decisions: {}
=== reviews/2026.yaml
held: 2026-06-01
by: marsh
present: [IPM coordinator]
decisions: {}
`
}

function site(contract: string): string {
  return `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2024-09-03, who: lind}]
complaint-log: front office
contract: [{from: 2024-09-03, contractor: Invented Pest Services, ${contract}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
`
}

const setUp = `
=== sites/oak/visits/2024-09-03-okafor.yaml
purpose: set-up
by: okafor
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
  R1: {kind: sticky-trap, area: room-1, within-reach: no}
  L1: {kind: light-trap, area: kitchen, within-reach: no, in-doorway: no, visible-outdoors: no, above-food: no, height: 4 ft}
`

function routineVisit(on: Day, devices = 'K1, R1, L1'): string {
  return `
=== sites/oak/visits/${isoOf(on)}-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
readings: {none: [${devices}]}
`
}

/** The day of each month from September 2024 on which the school is visited, chosen among its school days. */
function monthlyVisits(choose: (days: readonly Day[]) => Day | undefined, inRecess = false): Day[] {
  const days: Day[] = []
  for (let month = day('2024-09-01'); month <= asOf; month = addMonths(month, 1)) {
    const open: Day[] = []
    for (let on = Math.max(month, begins + 1); on <= lastOfMonth(month); on++)
      if (isSchoolDay(on) || (inRecess && weekdayOf(on) <= 5)) open.push(on)
    const chosen = choose(open)
    if (chosen !== undefined) days.push(chosen)
  }
  return days
}

/** Everything the family found up to the as-of day: standing, ended, and late by a single day. */
function told(example: string): string[] {
  return problems(example)
    .filter((problem) => problem.from <= asOf)
    .map(({ rule, from, until, args }) =>
      [rule, isoOf(from), until === undefined ? '' : isoOf(until), args.device ?? args.about ?? ''].join(' '),
    )
    .sort()
}

const own = new Set(inspectionRules.map((rule) => rule.id))

function problems(example: string): Problem[] {
  const result = runCheck(memorySource(ledgerWith(example)), { asOf, asOfIsToday: true })
  expect(result.notChecked).toEqual([])
  return result.problems.filter((problem) => own.has(problem.rule))
}

const monthly = 'routine-visits: monthly, grace: 5 days'
const checks = 'checks: {sticky-trap: monthly, light-trap: monthly}'

describe('a well-kept ledger of two school years is silent', () => {
  it.each([
    ['on the first school day of each month', (days: readonly Day[]) => days[0]],
    ['on the last', (days: readonly Day[]) => days.at(-1)],
    ['in the middle', (days: readonly Day[]) => days[days.length >> 1]],
    ['early and late by turns', (days: readonly Day[]) => ((days[0] ?? 0) % 2 === 0 ? days[0] : days.at(-1))],
  ])('monthly %s', (_title, choose) => {
    const visits = monthlyVisits(choose).map((on) => routineVisit(on))
    expect(visits.length).toBe(20)
    expect(told(district() + site(`${monthly}, ${checks}`) + setUp + visits.join(''))).toEqual([])
    // Neither where the contract says nothing of checks, and only published advice is left.
    expect(told(district() + site(monthly) + setUp + visits.join(''))).toEqual([])
  })

  it('monthly in recess too', () => {
    const visits = monthlyVisits((days) => days[days.length >> 1], true).map((on) => routineVisit(on))
    expect(visits.length).toBe(24)
    expect(
      told(district() + site(`${monthly}, in-recess: yes, ${checks}`) + setUp + visits.join('')),
    ).toEqual([])
  })

  it('in the days of grace after each month', () => {
    // The visit of each month is made on the 5th of the next one; that of the last month before recess as well.
    const visits: string[] = []
    for (let month = day('2024-10-01'); month <= asOf; month = addMonths(month, 1))
      if (!/-0[89]-/.test(isoOf(month))) visits.push(routineVisit(month + 4))
    expect(told(district() + site(`${monthly}, ${checks}`) + setUp + visits.join(''))).toEqual([])
  })

  it('every week, on Wednesdays, and on the first school day after a closure', () => {
    const visits: string[] = []
    let last = begins
    for (let on = begins + 1; on <= asOf; on++) {
      if (!isSchoolDay(on) || (weekdayOf(on) !== 3 && on - last < 8)) continue
      visits.push(routineVisit(on))
      last = on
    }
    const contract = 'routine-visits: weekly, grace: 1 day'
    expect(told(district() + site(`${contract}, ${checks}`) + setUp + visits.join(''))).toEqual([])
    // Boards that the contract lets stand for a month are not missed on the visits between.
    const sparing = visits.map((visit, at) =>
      at % 3 === 0 ? visit : visit.replace('readings: {none: [K1, R1, L1]}\n', ''),
    )
    expect(told(district() + site(`${contract}, ${checks}`) + setUp + sparing.join(''))).toEqual([])
  })

  it('with snap traps looked at every morning and picked up before every closure and weekend', () => {
    const visits = monthlyVisits((days) => days[5]).map((on) => routineVisit(on))
    const trapChecks: string[] = []
    let out = false
    for (let on = day('2025-03-03'); on <= day('2025-06-12'); on++) {
      const tomorrow = isSchoolDay(on + 1)
      const lines = [
        ...(out ? ['readings: {none: [S1]}'] : []),
        ...(out && !tomorrow ? ['picked-up: [S1]'] : []),
        ...(!out && tomorrow && isSchoolDay(on)
          ? [
              trapChecks.length === 0
                ? 'set: {S1: {kind: snap-trap, area: kitchen, within-reach: no, secured: yes, marked: yes}}'
                : 'put-out: [S1]',
            ]
          : []),
      ]
      if (lines.length === 0) continue
      out = tomorrow
      trapChecks.push(
        `=== sites/oak/visits/${isoOf(on)}-lind.yaml\npurpose: trap-check\nby: lind\n${lines.join('\n')}\n`,
      )
    }
    expect(trapChecks.length).toBeGreaterThan(50)
    const ledger = district() + site(`${monthly}, ${checks}`) + setUp + visits.join('')
    expect(told(ledger + trapChecks.join(''))).toEqual([])
    // The trap check of Tuesday 18 March is not made: on Wednesday it is a day late.
    const missed = trapChecks.filter((check) => !check.includes('2025-03-18'))
    expect(told(ledger + missed.join(''))).toEqual(['device-overdue 2025-03-19 2025-03-19 S1'])
  })
})

describe('one thing left out of it is told once, with its days', () => {
  const days = monthlyVisits((open) => open[5])
  const ledger = (visits: readonly string[]) =>
    district() + site(`${monthly}, ${checks}`) + setUp + visits.join('')
  const november = days.find((on) => isoOf(on).startsWith('2025-11')) ?? 0
  const december = days.find((on) => isoOf(on).startsWith('2025-12')) ?? 0

  it('a routine visit: the monthly readings that fell out with it are not told again', () => {
    const visits = days.filter((on) => on !== november).map((on) => routineVisit(on))
    const end = isoOf(december)
    expect(end > '2025-12-06').toBe(true)
    expect(told(ledger(visits))).toEqual([`visit-overdue 2025-12-06 ${end} 2025-11`])
  })

  it('the reading of a device: told by the visit that passed it by', () => {
    const visits = days.map((on) => routineVisit(on, on === november ? 'K1, R1' : 'K1, R1, L1'))
    expect(told(ledger(visits))).toEqual([`device-not-read ${isoOf(november)} ${isoOf(december)} `])
  })

  it('foretells the next of each kind only', () => {
    const ahead = problems(ledger(days.map((on) => routineVisit(on)))).filter(({ from }) => from > asOf)
    expect(ahead.map(({ rule, from, args }) => `${rule} ${isoOf(from)} ${args.device ?? ''}`).sort()).toEqual(
      [
        'device-overdue 2026-10-06 K1',
        'device-overdue 2026-10-06 L1',
        'device-overdue 2026-10-06 R1',
        'review-not-held 2027-07-01 ',
        'visit-overdue 2026-10-06 ',
      ],
    )
  })
})
