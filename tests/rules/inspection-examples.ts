import { describe, expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { linksRules } from '../../src/rules/links/index.js'
import { readingRules } from '../../src/rules/reading/index.js'
import type { Problem } from '../../src/types.js'

/** A record that is badly read is not judged, which would make a silent test of any. */
const badlyRead = new Set([...readingRules, ...linksRules].map((rule) => rule.id))

/** Problems of one rule over the base ledger, standing, ended and to come. */
export function problemsOf(rule: string, example: string, asOf: string): Problem[] {
  const source = memorySource(ledgerWith(example))
  const result = runCheck(source, { asOf: dayOf(asOf) ?? 0, asOfIsToday: true })
  expect(result.notChecked).toEqual([])
  expect(result.problems.filter((problem) => badlyRead.has(problem.rule))).toEqual([])
  return result.problems.filter((problem) => problem.rule === rule)
}

/** As `first day..first day no longer`, with nothing after the dots while it stands. */
export function lapses(rule: string, example: string, asOf: string): string[] {
  return problemsOf(rule, example, asOf)
    .map(({ from, until }) => `${isoOf(from)}..${until === undefined ? '' : isoOf(until)}`)
    .sort()
}

export function visit(id: string, purpose: string, ...lines: string[]): string {
  const routine =
    purpose === 'routine'
      ? ['time: 06:10 to 06:50', 'site-manager: lind', 'complaint-log: read', 'inspected: [kitchen, room-1]']
      : []
  const keys = new Set(lines.map((line) => line.split(':')[0]))
  const own = routine.filter((line) => !keys.has(line.split(':')[0]))
  const text = [`purpose: ${purpose}`, `by: ${id.slice(11)}`, ...own, ...lines]
  return `=== sites/oak/visits/${id}.yaml\n${text.join('\n')}\n`
}

export const read = 'readings: {none: [K1]}'
export const routine = (date: string, ...lines: string[]) =>
  visit(`${date}-okafor`, 'routine', ...(lines.length > 0 ? lines : [read]))

export function site(contract: string, ...more: string[]): string {
  return `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [${contract}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
${more.join('\n')}
`
}

export const terms = (asked: string, from = '2026-03-01') =>
  `{from: ${from}, contractor: Invented Pest Services, ${asked}}`
export const monthly = 'routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}'

/** Two school years with a spring break, and rules of the district's own if given. */
export function district(own = '', begins = '2026-03-01', more = ''): string {
  return `
=== district.yaml
format: 1
name: Example District
time-zone: America/Los_Angeles
records-begin: ${begins}
coordinator: [{from: ${begins}, who: marsh}]
rulebooks: [{from: ${begins}, rulebook: practice}${own === '' ? '' : `, {from: ${begins}, rulebook: own}`}]
calendar:
  - {from: 2025-09-02, until: 2026-06-12, closed: {spring-break: 2026-03-30 to 2026-04-03}}
  - {from: 2026-09-08, until: 2027-06-11}
${more}
${
  own === ''
    ? ''
    : `=== rulebooks/own.yaml
title: Rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: what the test asks
does-not-cover: [everything else]
parameters:
  ${own.split(': ')[0]}: [{from: 2026-03-01, value: ${own.split(': ')[1]}, kind: standard, confidence: read, source: invented}]
`
}`
}

export type Case = readonly [title: string, example: string, asOf: string, expected: readonly string[]]

export function holds(rule: string, cases: readonly Case[]): void {
  describe(rule, () => {
    it.each(cases)('%s', (_title, example, asOf, expected) => {
      expect(lapses(rule, example, asOf)).toEqual(expected)
    })
  })
}

/** The base ledger without the visit it begins with. */
export const noVisit = '=== sites/oak/visits/2026-03-05-okafor.yaml (delete)\n'

export const check = (date: string, ...lines: string[]) => visit(`${date}-lind`, 'trap-check', ...lines)
export const refused = 'no-entry: {room-1: no key}'
export const kitchenOnly = 'inspected: [kitchen]'
