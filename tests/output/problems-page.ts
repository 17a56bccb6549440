import { locateExceptions, locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import type { ProblemsPage } from '../../src/output/problems.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'

/** What a check shows of an overlay on the ledger of the rules' examples, as of 2026-03-20. */
export function pageOf(overlay: string, hidden = 0, asOfIsToday = false): ProblemsPage {
  const source = memorySource(ledgerWith(overlay))
  const asOf = dayOf('2026-03-20') ?? 0
  const result = runCheck(source, { asOf, asOfIsToday })
  return {
    asOf: '2026-03-20',
    source: source.name,
    problems: locateProblems(
      result.problems.filter((problem) => standsOn(problem, asOf)),
      source,
    ),
    excepted: locateExceptions(result.excepted, source),
    notChecked: result.notChecked,
    records: result.records,
    sites: result.sites,
    later: result.later,
    hidden,
  }
}

/** The first visit of the base without a word on the complaint log, and an exception that covers it. */
export const logExcepted = `
=== sites/oak/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
inspected: [kitchen, room-1]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
=== exceptions/log-away.yaml
rule: complaint-log-not-read
by: marsh
why: the log is being bound anew
from: 2026-03-01
until: 2026-04-10
`
