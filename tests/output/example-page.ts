import { locateExceptions, locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { workTree } from '../../src/files/work-tree.js'
import { dayOf } from '../../src/measure/calendar.js'
import type { ProblemsPage } from '../../src/output/problems.js'

/** What a check shows of the example district on 2026-06-30: 16 problems and one excepted, by examples/README.md. */
export function examplePage(): ProblemsPage {
  const source = workTree(new URL('../../examples/district/', import.meta.url).pathname)
  const asOf = dayOf('2026-06-30') ?? 0
  const result = runCheck(source, { asOf, asOfIsToday: false })
  return {
    asOf: '2026-06-30',
    source: source.name,
    problems: locateProblems(
      result.problems.filter((problem) => standsOn(problem, asOf)),
      source,
    ),
    excepted: locateExceptions(
      result.excepted.filter(({ problem }) => standsOn(problem, asOf)),
      source,
    ),
    notChecked: result.notChecked,
    records: result.records,
    sites: result.sites,
    later: result.later,
    hidden: 0,
  }
}
