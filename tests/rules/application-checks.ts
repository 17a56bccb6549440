import { expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { allRules } from '../../src/rules/all.js'
import { baitApplication } from '../../src/rules/example-applications.js'
import type { Problem } from '../../src/types.js'
import { checkOf } from '../check/checking.js'

/** What one rule says of an overlay, standing on the day or not. */
export function problemsOf(rule: string, overlay: string, asOf = '2026-03-20'): readonly Problem[] {
  const { problems, faults } = checkOf(overlay, asOf)
  // A slip in the records of a test is not to pass for silence.
  if (faults.length > 0) throw new Error(`the ledger of this test cannot be read: ${JSON.stringify(faults)}`)
  return problems.filter((problem) => problem.rule === rule)
}

/** Each as `key path, level, from, until`. */
export function told(rule: string, overlay: string, asOf?: string): string[] {
  return problemsOf(rule, overlay, asOf).map(({ at, level, from, until }) =>
    [at.path.join('.'), level, isoOf(from), ...(until === undefined ? [] : [isoOf(until)])].join(' '),
  )
}

/** Whether a rule speaks at all. */
export const isTold = (rule: string, overlay: string, asOf?: string) => told(rule, overlay, asOf).length > 0

export function sentences(rule: string, overlay: string, asOf?: string): string[] {
  const { says } = allRules.find(({ id }) => id === rule) ?? {}
  return problemsOf(rule, overlay, asOf).map(({ args }) => says?.(args) ?? '')
}

/** A follow-up visit by okafor. */
export const visit = (day: string, ...lines: readonly string[]) =>
  `\n=== sites/oak/visits/${day}-okafor.yaml\npurpose: follow-up\nby: okafor\n${lines.join('\n')}\n`

/** The site of the base with more areas, or other ones; `more` are lines of the site itself. */
export const siteWith = (areas: readonly string[], ...more: readonly string[]) => `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
${more.join('\n')}
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
${areas.map((area) => `  ${area}\n`).join('')}`

/** The district of the base under these rulebooks; `own` is one of its own, with the sections given. */
export const underRulebooks = (rulebooks: readonly string[], own = '') => `
=== district.yaml
format: 1
name: Example District
state: OR
address: 1 Example Square
time-zone: America/Los_Angeles
records-begin: 2024-08-01
coordinator: [{from: 2024-08-01, who: marsh}]
rulebooks: [${rulebooks.map((rulebook) => `{from: 2024-08-01, rulebook: ${rulebook}}`).join(', ')}]
calendar: []
${
  own === ''
    ? ''
    : `=== rulebooks/own.yaml
title: Invented rules of the example district
jurisdiction: Example District
read-on: 2026-03-01
covers: what this test shows
does-not-cover: [everything else]
${own.trim()}
`
}`

/** A product with a few facts in place of those of the base. */
export const product = (id: string, ...facts: readonly string[]) =>
  `\n=== products/${id}/product.yaml\nname: Invented ${id}\n${facts.join('\n')}\n`

export const bait = baitApplication

/** A follow-up visit that saw one thing. */
export const found = (day: string, facts: string) => visit(day, `found: {seen: {${facts}}}`)

export const law = (section: number) =>
  `kind: law, confidence: read, source: "Invented Pest Act, section ${section}"`

/** Under an invented act that asks this of every record of an application. */
export const asking = (facts: string) =>
  underRulebooks(['practice', 'own'], `records:\n  application: [{from: 2024-08-01, ${facts}, ${law(5)}}]\n`)

/** Which applications a rule of the family `need` asks about; `without` are the facts that keep it silent. */
export const isAskedOf = (rule: string, ...without: string[]) => {
  it.each(['instruction', 'public-health-order'])('what is applied for %s is not asked', (purpose) => {
    expect(told(rule, bait('2026-03-12', ...without, `purpose: ${purpose}`))).toEqual([])
    expect(told(rule, bait('2026-03-12', ...without, 'purpose: pest-control'))).toHaveLength(1)
  })

  it.each<[string, boolean]>([
    ['kind: pesticide\nregistration: 99999-1', true],
    ['kind: minimum-risk', true],
    ['kind: antimicrobial\nregistration: 99999-1', false],
    ['kind: living-agent', false],
  ])('a product of %s is asked: %s', (facts, expected) => {
    expect(isTold(rule, product('bait-a', facts) + bait('2026-03-12', ...without))).toBe(expected)
  })

  it('bait in a device, a planned application and one before the records begin are not asked', () => {
    const set = 'set: {B1: {kind: bait-station, area: kitchen, product: bait-a, bait-added: 1 g}}'
    expect(told(rule, visit('2026-03-12', set))).toEqual([])
    expect(told(rule, bait('2026-03-12', ...without, 'status: planned'))).toEqual([])
    expect(told(rule, bait('2026-02-28', ...without))).toEqual([])
    expect(told(rule, bait('2026-03-01', ...without))).toHaveLength(1)
  })

  it('without a rulebook that says how far back, nothing is asked', () => {
    expect(told(rule, underRulebooks(['us-federal']) + bait('2026-03-12', ...without))).toEqual([])
  })
}
