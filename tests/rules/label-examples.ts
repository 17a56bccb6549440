import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import { ruleById } from '../../src/rules/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import type { Problem } from '../../src/types.js'
import { day } from '../ledger/small-site.js'

/** What one rule finds standing in the base with something laid over it. */
export function problemsOf(rule: string, overlay: string, asOf = '2026-03-20'): readonly Problem[] {
  const result = runCheck(memorySource(ledgerWith(overlay)), { asOf: day(asOf), asOfIsToday: false })
  if (result.faults.length > 0) throw new Error(JSON.stringify(result.faults))
  return result.problems.filter((problem) => problem.rule === rule && standsOn(problem, day(asOf)))
}

/** The same in short: `2026-03-19-okafor areas.kitchen.amount error` and the like. */
export function inShort(rule: string, overlay: string, asOf?: string): string[] {
  return problemsOf(rule, overlay, asOf).map(({ at, level }) => {
    const file = at.file.split('/').at(-1)?.replace('.yaml', '')
    return `${file} ${at.path.join('.')} ${level}`
  })
}

/** The sentence a rule makes of its first finding. */
export function sentence(rule: string, overlay: string, asOf?: string): string {
  const [problem] = problemsOf(rule, overlay, asOf)
  return problem ? (ruleById(rule)?.says(problem.args) ?? '') : ''
}

export const firstDays = (rule: string, overlay: string, asOf?: string) =>
  problemsOf(rule, overlay, asOf).map(({ from }) => isoOf(from))

/** Product bait-a of the base, with lines of its own about what it is and what its label says. */
export const baitLabel = (facts: string, says: string) => `
=== products/bait-a/product.yaml
name: Invented Bait A
registration: 99999-1
states: {OR: [{from: 2025-01-01}]}
active-ingredients: {boric-acid: {strength: 5 %}}
signal-word: caution
restricted-use: no
${facts}
labels:
  - from: 2026-01-05
    file: label.txt
    says: ${says}
sds: [{from: 2026-01-05, file: sds.txt}]
`

/** Oak School with these areas beside its own. */
export const areas = (...more: string[]) => `
=== sites/oak/site.yaml
name: Oak School
address: 2 Example Lane
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, firm: invented-pest-services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
${more.map((line) => `  ${line}\n`).join('')}`

/** A visit that sets or reads devices. */
export const visit = (on: string, ...lines: string[]) => `
=== sites/oak/visits/${on}-okafor.yaml
purpose: follow-up
by: okafor
${lines.join('\n')}
`

/** A product of the register beside those of the base. */
export const product = (id: string, facts: string, says: string) => `
=== products/${id}/product.yaml
name: Invented ${id}
kind: pesticide
registration: 99999-9
restricted-use: no
${facts}
labels: [{from: 2026-01-05, file: label.txt, says: ${says}}]
sds: [{from: 2026-01-05, file: sds.txt}]
=== products/${id}/label.txt
An invented label.
=== products/${id}/sds.txt
An invented safety data sheet.
`

/** The district adopts a value of its own. */
export const adopted = (parameter: string, value: string) => `
=== district.yaml
format: 1
name: Example District
state: OR
time-zone: America/Los_Angeles
records-begin: 2026-03-01
coordinator: [{from: 2026-03-01, who: marsh}]
rulebooks: [{from: 2026-03-01, rulebook: own}, {from: 2026-03-01, rulebook: practice}]
calendar: [{from: 2025-09-02, until: 2026-06-12}]
=== rulebooks/own.yaml
title: Invented policy
jurisdiction: Example District
read-on: 2026-03-01
covers: what is asked of a choice
does-not-cover: [everything else]
parameters: {${parameter}: [{from: 2026-03-01, value: ${value}, source: Invented policy, kind: standard, confidence: read}]}
`
