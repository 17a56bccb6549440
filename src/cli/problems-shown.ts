import type { LocatedProblem } from '../check/locate-problems.js'
import { isoOf } from '../measure/calendar.js'
import { problemsText } from '../output/problems-text.js'
import type { OpenLedger } from './find-ledger.js'
import type { Here } from './runner.js'

/** Problems as `check` shows them. */
export function problemsShown(problems: readonly LocatedProblem[], ledger: OpenLedger, here: Here): string {
  return problemsText(
    {
      asOf: isoOf(ledger.asOf),
      source: ledger.source.name,
      problems,
      excepted: [],
      notChecked: [],
      records: 1,
      sites: 1,
      later: 0,
      hidden: 0,
    },
    here.painter,
  )
}
