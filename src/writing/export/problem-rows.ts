import { fingerprintOf } from '../../check/fingerprint.js'
import type { CheckResult } from '../../check/run-check.js'
import { standsOn } from '../../check/run-check.js'
import { compareText } from '../../ledger/compare-text.js'
import { recordPathOf } from '../../records/paths.js'
import type { Period } from '../../reports/period.js'
import type { Day, Problem } from '../../types.js'
import type { ExportRow } from './table-words.js'

interface Found {
  readonly problem: Problem
  readonly exception: string | undefined
  readonly fingerprint: string
}

/** What `check` found that stood on any day of the period. Neither its sentence nor a text of a record is told. */
export function problemRows(
  { problems, excepted }: Pick<CheckResult, 'problems' | 'excepted'>,
  { from, to }: Period,
  asOf: Day,
): ExportRow[] {
  const found: Found[] = [
    ...problems.map((problem) => ({ problem, exception: undefined })),
    ...excepted.map(({ problem, exception }) => ({ problem, exception })),
  ]
    .filter(({ problem }) => problem.from <= to && (problem.until === undefined || problem.until > from))
    .map((one) => ({ ...one, fingerprint: fingerprintOf(one.problem) }))
  found.sort(
    (a, b) =>
      compareText(a.problem.at.file, b.problem.at.file) ||
      a.problem.from - b.problem.from ||
      compareText(a.fingerprint, b.fingerprint) ||
      compareText(a.exception ?? '', b.exception ?? ''),
  )
  const nths = new Map<string, number>()
  return found.map((one) => {
    const nth = (nths.get(one.fingerprint) ?? 0) + 1
    nths.set(one.fingerprint, nth)
    return problemRow(one, nth, asOf)
  })
}

function problemRow({ problem, exception, fingerprint }: Found, nth: number, asOf: Day): ExportRow {
  const { rule, level, gap, actor, at, from, until } = problem
  const path = recordPathOf(at.file)
  // A file that is no record can bear any name; what it is called is left out.
  const isRecord = path !== null && !('stray' in path)
  const since = from <= 0 ? null : from
  return {
    fingerprint,
    nth,
    site: isRecord ? (path.site ?? null) : null,
    rule,
    level,
    is_gap: gap,
    who_can_mend: actor,
    record: isRecord ? at.file : null,
    since,
    // A later record, or the passing of time, may yet end it: that is not known on the as-of day.
    until_day: until === undefined || until > asOf ? null : until,
    since_or_as_of: since ?? asOf,
    stands: exception === undefined && standsOn(problem, asOf),
    exception: exception ?? null,
  }
}
