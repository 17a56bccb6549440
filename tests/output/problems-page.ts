import { locateExceptions, locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import type { ProblemsPage } from '../../src/output/problems.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'

/** What a check shows of an overlay on the ledger of the rules' examples, as of 2026-03-20. */
export function pageOf(overlay: string, hidden = 0): ProblemsPage {
  const source = memorySource(ledgerWith(overlay))
  const asOf = dayOf('2026-03-20') ?? 0
  const result = runCheck(source, { asOf, asOfIsToday: false })
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
