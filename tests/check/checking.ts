import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { day } from '../ledger/small-site.js'

/** Checks an overlay on the ledger of the rules' examples, in which nothing is wrong on 2026-03-20. */
export function checkOf(overlay: string, asOf = '2026-03-20') {
  const result = runCheck(memorySource(ledgerWith(overlay)), { asOf: day(asOf), asOfIsToday: false })
  const standing = result.problems.filter((problem) => standsOn(problem, day(asOf)))
  return {
    ...result,
    standing,
    rules: standing.map(({ rule }) => rule).sort(),
    exceptedRules: result.excepted.map(({ problem }) => problem.rule).sort(),
  }
}

/** The first visit of the base without a word on the complaint log. */
export const noLog = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`

/** A short visit on 2026-03-10. */
export const callback = (body: string) =>
  `\n=== sites/oak/visits/2026-03-10-okafor.yaml\npurpose: callback\nby: okafor\n${body}\n`
