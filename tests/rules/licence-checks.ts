import { expect } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf, isoOf } from '../../src/measure/calendar.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { inventedAct, ownRulebook } from '../../src/rules/licences/example-ledgers.js'
import { licencesRules } from '../../src/rules/licences/index.js'
import type { Problem } from '../../src/types.js'

const family = new Set(licencesRules.map(({ id }) => id))

/** What the rules of this family find in an overlay, also what is true only later; others have their own tests. */
export function problems(overlay: string, asOf = '2026-03-20'): readonly Problem[] {
  const { problems: all } = runCheck(memorySource(ledgerWith(overlay)), {
    asOf: dayOf(asOf) ?? 0,
    asOfIsToday: false,
  })
  return all.filter(({ rule }) => family.has(rule))
}

/** As `rule at key`. A slip in a test is not to pass for a ledger without problems. */
export function told(overlay: string, asOf?: string): string[] {
  expectUsable(overlay)
  return problems(overlay, asOf).map(({ rule, at }) => `${rule} at ${at.path.join('.')}`)
}

/** From when, until when, and how many later uses. */
export function days(overlay: string, asOf?: string) {
  expectUsable(overlay)
  return problems(overlay, asOf).map(({ from, until, args }) => [
    isoOf(from),
    until === undefined ? '' : isoOf(until),
    args.more,
  ])
}

function expectUsable(overlay: string): void {
  const result = runCheck(memorySource(ledgerWith(overlay)), {
    asOf: dayOf('2026-03-20') ?? 0,
    asOfIsToday: false,
  })
  expect(result.faults).toEqual([])
}

/** One duty of an invented law about licences. */
export const duty = (more: string) => ownRulebook(`licences:\n  applicator: [{${inventedAct} 3, ${more}}]`)

/** Visits on which bait is put into a station; the first one sets it. */
export const baits = (...dates: string[]) =>
  dates
    .map(
      (date, n) => `
=== sites/oak/visits/${date}-okafor.yaml
purpose: follow-up
by: okafor
${n === 0 ? 'set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 station}}' : 'readings: {B1: {bait-taken: all, bait-added: 1 station, product: bait-a}}'}
`,
    )
    .join('')
