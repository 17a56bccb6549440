import { fingerprintOf } from '../check/fingerprint.js'
import { locator } from '../check/locate-problems.js'
import type { CheckResult } from '../check/run-check.js'
import { runCheck, standsOn } from '../check/run-check.js'
import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import type { DistrictView } from '../ledger/district-view.js'
import { dayIn } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import { unknownKey } from '../rules/reading/unknown-key.js'
import type { Day, ExceptedProblem, Problem, Report, Row } from '../types.js'
import { notExaminedOf, unknownKeyLines } from './not-examined.js'
import type { ReportOptions } from './options.js'

/**
 * What should be there and is not: by site and by who can mend it, the oldest first. Without a period, what stands
 * on the as-of day; with one, everything that stood at any time in it, also what was made good since.
 */
export function gapsReport(source: Source, options: ReportOptions): Report {
  const result = runCheck(source, options)
  const hasPeriod = options.from !== undefined || options.to !== undefined
  const from = options.from ?? result.district?.recordsBegin ?? options.asOf
  const to = Math.min(options.to ?? options.asOf, options.asOf)
  const notExcused = result.excepted
    .filter((excepted) => hasPeriod && !isExcusedAllAlong(excepted, result.district, from, to))
    .map(({ problem }) => problem)
  const gaps = [...result.problems, ...notExcused]
    .filter((problem) => problem.gap && isAsked(problem, options))
    .filter((problem) =>
      hasPeriod
        ? problem.from <= to && (problem.until ?? Number.POSITIVE_INFINITY) > from
        : standsOn(problem, options.asOf),
    )
    .sort(bySiteActorAge)
  const locate = locator(source)
  const standing = gaps.filter((gap) => standsOn(gap, options.asOf))
  return {
    report: 'gaps',
    title: 'What should be there and is not',
    headline: headlineOf(standing, gaps.length - standing.length),
    asOf: isoOf(options.asOf),
    ...(hasPeriod ? { period: { from: isoOf(from), to: isoOf(to) } } : {}),
    facts: [],
    tables: [
      {
        id: 'gaps',
        title: hasPeriod ? 'Gaps that stood in the period' : 'Gaps that stand',
        columns: [
          { id: 'site', title: 'site' },
          { id: 'who', title: 'who can mend it' },
          { id: 'since', title: 'since' },
          { id: 'days', title: 'for', unit: 'days', decimals: 0 },
          ...(hasPeriod ? [{ id: 'ended', title: 'made good' }] : []),
          { id: 'level', title: 'level' },
          { id: 'gap', title: 'gap' },
          { id: 'where', title: 'where' },
          { id: 'rule', title: 'rule', for: 'work' },
          { id: 'fingerprint', title: 'fingerprint', for: 'work' },
        ],
        rows: gaps.map((gap): Row => {
          const location = locate(gap.at)
          return {
            cells: {
              site: gap.site ?? 'district',
              who: gap.actor,
              since: isoOf(gap.from),
              days: Math.min(gap.until ?? options.asOf, options.asOf) - gap.from,
              ended: gap.until === undefined || gap.until > options.asOf ? null : isoOf(gap.until),
              level: gap.level,
              gap: ruleById(gap.rule)?.says(gap.args) ?? gap.rule,
              where: location ? `${gap.at.file}:${location.line}` : gap.at.file,
              rule: gap.rule,
              fingerprint: fingerprintOf(gap),
            },
            records: [...new Set([gap.at.file, ...gap.related.map((related) => related.place.file)])],
          }
        }),
        empty: 'Nothing that should be there is missing.',
      },
    ],
    cautions: [
      'A gap is something the records do not show; it may still have been done. What an exception in force excuses is left out and listed by `doorsweep check`.',
    ],
    notExamined: [...notExaminedOf(result), ...withUnknownKeys(result, options)],
    incomplete: result.notChecked.length > 0,
  }
}

/** A gap of such a record may only be its misspelt key, so it is not told; that must be said. */
function withUnknownKeys(result: CheckResult, { site }: ReportOptions): string[] {
  const files = result.problems
    .filter((problem) => problem.rule === unknownKey.id && (site === undefined || problem.site === site))
    .map((problem) => problem.at.file)
  return unknownKeyLines(files)
}

/** Whether an exception held on every day of the period on which the gap stood: a later one excuses no earlier day. */
function isExcusedAllAlong(
  { problem, exception }: ExceptedProblem,
  district: DistrictView | null,
  from: Day,
  to: Day,
): boolean {
  const held = district?.exceptions.find(({ file }) => file === exception)?.data
  if (!held) return false
  const last = Math.min(to, (problem.until ?? Number.POSITIVE_INFINITY) - 1)
  return dayIn(held.from) <= Math.max(from, problem.from) && last <= dayIn(held.until)
}

function isAsked(problem: Problem, options: ReportOptions): boolean {
  if (options.site !== undefined && problem.site !== options.site) return false
  const { pest } = options
  return (
    pest === undefined ||
    problem.at.path.includes(pest) ||
    problem.identity.includes(pest) ||
    Object.values(problem.args).some((arg) => arg === pest || (Array.isArray(arg) && arg.includes(pest)))
  )
}

function bySiteActorAge(a: Problem, b: Problem): number {
  return (
    compareText(a.site ?? '', b.site ?? '') ||
    compareText(a.actor, b.actor) ||
    a.from - b.from ||
    compareText(a.at.file, b.at.file) ||
    compareText(a.rule, b.rule) ||
    compareText(fingerprintOf(a), fingerprintOf(b))
  )
}

function headlineOf(standing: readonly Problem[], ended: number): string {
  const oldest = [...standing].sort((a, b) => a.from - b.from)[0]
  const since = oldest ? `, the oldest since ${isoOf(oldest.from)}` : ''
  const count = ended === 1 ? 'one' : String(ended)
  const made =
    ended > 0
      ? `; ${count}${standing.length > 0 ? ' more' : ''} stood in the period and ${ended === 1 ? 'was' : 'were'} made good`
      : ''
  return standing.length === 0
    ? `No gap stands${made}.`
    : `${standing.length === 1 ? 'One gap stands' : `${standing.length} gaps stand`}${since}${made}.`
}
