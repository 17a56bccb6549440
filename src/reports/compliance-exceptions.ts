import { covers, isLaw } from '../check/exceptions.js'
import { compareText } from '../ledger/compare-text.js'
import type { DistrictView } from '../ledger/district-view.js'
import type { Loaded } from '../ledger/loaded.js'
import { dayIn } from '../ledger/spans.js'
import { ruleById } from '../rules/all.js'
import type { Day, Problem, Row, Table } from '../types.js'
import { counted } from './outcomes.js'
import type { Period } from './period.js'

type Exception = Loaded<'exception'>

/**
 * Exceptions in force at any time of a period. `problems` are all that any rule found, also those that an exception
 * covers: how many each covers is counted from them. Undefined where no rule was run.
 */
export function exceptionsTable(
  problems: readonly Problem[] | undefined,
  district: DistrictView,
  period: Period,
  asOf: Day,
  site?: string,
): Table {
  const to = Math.min(period.to, asOf)
  const inForce = district.exceptions
    .filter(({ data }) => site === undefined || data.site === undefined || data.site === site)
    .map((exception) => ({ exception, days: daysInForce(exception, { from: period.from, to }) }))
    .filter(({ days }) => days.from <= days.to)
    .sort(
      (a, b) =>
        dayIn(a.exception.data.from) - dayIn(b.exception.data.from) ||
        compareText(a.exception.id, b.exception.id),
    )
  return {
    id: 'exceptions',
    title: 'Exceptions in force within the period',
    columns: [
      { id: 'exception', title: 'exception' },
      { id: 'in-force', title: 'in force', for: 'people' },
      { id: 'what', title: 'what it departs from, and why', for: 'people' },
      { id: 'rule', title: 'rule', for: 'work' },
      { id: 'site', title: 'site', for: 'work' },
      { id: 'record', title: 'record', for: 'work' },
      { id: 'key', title: 'key', for: 'work' },
      { id: 'about', title: 'about', for: 'work' },
      { id: 'why', title: 'why', for: 'work' },
      { id: 'by', title: 'decided by', for: 'work' },
      { id: 'from', title: 'from', for: 'work' },
      { id: 'until', title: 'until', for: 'work' },
      { id: 'covers', title: 'problems covered', for: 'work', decimals: 0 },
      { id: 'law', title: 'problems that rest on law and stand', for: 'work', decimals: 0 },
      { id: 'authority', title: 'rests on a document of an authority', for: 'work' },
    ],
    rows: inForce.map(({ exception, days }) => rowOf(exception, days, problems, district)),
    empty: 'None.',
  }
}

export const exceptionsCautions: readonly string[] = [
  'An exception never excuses law: what rests on law stands, whatever an exception says.',
  'The record of an exception has no place for a document of an authority, so whether it rests on one cannot be checked here.',
]

function daysInForce({ data }: Exception, { from, to }: Period): Period {
  return { from: Math.max(from, dayIn(data.from)), to: Math.min(to, dayIn(data.until)) }
}

function rowOf(
  { id, file, data }: Exception,
  days: Period,
  problems: readonly Problem[] | undefined,
  district: DistrictView,
): Row {
  const named = problems?.filter(
    (problem) =>
      problem.from <= days.to &&
      (problem.until === undefined || problem.until > days.from) &&
      covers({ id, file, data } as Exception, problem),
  )
  const law = named?.filter(isLaw)
  // A file that could not be read is never excused.
  const covered = named?.filter((problem) => !isLaw(problem) && !problem.at.span)
  const person = district.people.get(data.by)
  return {
    cells: {
      exception: id,
      'in-force': `${data.from} to ${data.until}`,
      what: inWords(data, person?.data.name ?? data.by, covered?.length, law?.length),
      rule: data.rule,
      site: data.site ?? null,
      record: data.record ?? null,
      key: data.key ?? null,
      about: data.about ?? null,
      why: data.why,
      by: data.by,
      from: data.from,
      until: data.until,
      covers: covered?.length ?? null,
      law: law?.length ?? null,
      authority: 'cannot be checked',
    },
    records: [file],
  }
}

function inWords(
  { rule, site, record, key, about, why }: Exception['data'],
  by: string,
  covered: number | undefined,
  law: number | undefined,
): string {
  const where = [site ?? (record === undefined ? 'all sites' : undefined), record, key, about].filter(
    (part) => part !== undefined,
  )
  const counts =
    covered === undefined
      ? 'how many problems it covers was not looked at'
      : `covers ${counted(covered, 'problem')} of the period`
  const stands =
    law !== undefined && law > 0
      ? `; ${counted(law, 'more problem')} it names ${law === 1 ? 'rests' : 'rest'} on law and ${law === 1 ? 'stands' : 'stand'}`
      : ''
  const known = ruleById(rule)
  const about_ =
    known === undefined
      ? '; there is no such rule'
      : known.source.kind === 'law'
        ? '; the rule rests on law, which no exception excuses'
        : ''
  return `${rule}, ${where.join(', ')}: ${why} (decided by ${by}); ${counts}${stands}${about_}`
}
