import type { Answer, Review } from '../reports/review/review.js'
import type { Report, Table } from '../types.js'
import { rowsShown } from './report-text.js'

/** An answer as a report of its own, so that every format of a report is one of an answer. */
export function answerAsReport({ asOf, period }: Pick<Review, 'asOf' | 'period'>, answer: Answer): Report {
  return {
    report: 'review',
    title: answer.question,
    headline: answer.answer,
    asOf,
    period,
    facts: [],
    tables: answer.tables,
    ...(answer.plots.length === 0 ? {} : { plots: answer.plots }),
    cautions: [],
    notExamined: [],
    incomplete: false,
  }
}

/** The same for people: long tables are cut to their first rows, and their titles say so. */
export function answerForPeople(review: Pick<Review, 'asOf' | 'period'>, answer: Answer): Report {
  const report = answerAsReport(review, answer)
  return { ...report, tables: report.tables.map(cut) }
}

function cut({ shownToPeople, ...table }: Table): Table {
  const shown = rowsShown({ ...table, ...(shownToPeople === undefined ? {} : { shownToPeople }) }, false)
  return shown.length === table.rows.length
    ? table
    : { ...table, rows: shown, title: `${table.title} (the first ${shown.length} of ${table.rows.length})` }
}

/** How many records stand behind an answer, and where all of it is told. */
export function recordsLine({ recordCount, records, commands }: Answer): string | undefined {
  if (recordCount === 0) return undefined
  const behind =
    recordCount === 1
      ? 'One record stands behind these tables'
      : `${recordCount} records stand behind these tables`
  if (records.length > 0) return `${behind}:`
  return `${behind}${commands.length === 0 ? '.' : '; which ones, and all rows, is told with --show-work by:'}`
}

export const improveTitle = 'What can improve next year?'
export const blankTitle = 'Decisions of this year'
export const cautionsTitle = 'How to read the numbers'
export const notExaminedTitle = 'Not examined'
export const leftOutTitle = 'Left out, since this page may be published'

export const nothingToImprove = 'By these records nothing stands out; what nobody wrote down is not in them.'

export function morePoints({ morePoints: more }: Review): string | undefined {
  if (more === 0) return undefined
  return more === 1
    ? 'One more point stands in the answers below.'
    : `${more} more points stand in the answers below.`
}

/** `names: names of staff (--with names)` */
export function leftOutLine({ part, says }: Review['leftOut'][number]): string {
  return `${says} (--with ${part})`
}
