import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { dayOf, weekdayOf } from '../measure/calendar.js'
import { statementAssessments } from '../rules/notices/assess-emergency-statement.js'
import type { Column, Day, Row, Table } from '../types.js'
import { clauseAlone } from './clause-alone.js'
import type { TextId } from './notice-texts.js'
import { cannotBeSaid, momentColumns, noticeRows, signRows } from './precheck-moments.js'

/** What there is to do, and until or from when; what stands behind it is the table of moments of `precheck`. */
const columns: readonly Column[] = [
  { id: 'moment', title: 'when', for: 'people' },
  { id: 'do', title: 'what to do' },
  { id: 'so-far', title: 'so far' },
  { id: 'clause', title: 'asked by', for: 'people' },
  ...momentColumns.filter(({ id }) => id !== 'so-far').map((column) => ({ ...column, for: 'work' as const })),
]

export function noticeMomentsTable(rows: readonly Row[], empty: string): Table {
  return { id: 'moments', title: 'When', columns, rows, empty }
}

export function momentRows(view: SiteView, treatment: Treatment, today: Day, ids: readonly TextId[]): Row[] {
  return ids.flatMap((id) => {
    if (id === 'sign') return signRows(view, treatment, today).flatMap(upAndDown)
    if (id === 'statement') return statementRows(view, treatment)
    return noticeRows(view, treatment, today, id).map((row) => withMoment(row, 'send', sendBy(row)))
  })
}

/** Whether a moment is missing because it cannot be worked out. */
export function isUncounted({ cells }: Row): boolean {
  return Object.values(cells).some((cell) => String(cell).startsWith(cannotBeSaid))
}

function withMoment({ cells, records }: Row, does: string, moment: string): Row {
  return {
    cells: { moment, do: `${does} ${cells.what}`, clause: clauseOf(cells['asked-by']), ...cells },
    records,
  }
}

/** The clause alone; what it says stands among the columns for machines. */
function clauseOf(source: Row['cells'][string] | undefined): string {
  return clauseAlone(String(source))
}

function sendBy({ cells }: Row): string {
  const latest = by(cells.latest)
  return cells.earliest === null ? latest : `${latest}, ${notBefore(cells.earliest)}`
}

function upAndDown(row: Row): Row[] {
  const { latest, stays } = row.cells
  const up = withMoment(row, 'put up', by(latest))
  if (stays === null) return [up]
  const down = withMoment(row, 'take down', notBefore(stays))
  return [up, { ...down, cells: { ...down.cells, 'so-far': null } }]
}

/** A moment is a date, perhaps with an hour; a term in words, as `afterwards`, stands as it is. */
function by(moment: Row['cells'][string] | undefined): string {
  const text = String(moment)
  return hasDate(text) && !text.startsWith(cannotBeSaid) ? `by ${withWeekday(text)}` : text
}

function notBefore(moment: Row['cells'][string] | undefined): string {
  const text = String(moment)
  return text.startsWith(cannotBeSaid) ? text : `not before ${withWeekday(text)}`
}

const date = /\d{4}-\d{2}-\d{2}/
const hasDate = (text: string) => date.test(text)
const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

/** Nobody sends letters on a Sunday: the day of the week is told with the date. */
function withWeekday(text: string): string {
  return text.replace(date, (iso) => `${weekdays[weekdayOf(dayOf(iso) ?? 0) - 1]} ${iso}`)
}

function statementRows(view: SiteView, treatment: Treatment): Row[] {
  return statementAssessments(view)
    .filter((one) => one.treatment === treatment)
    .map(({ asked, missing }): Row => {
      const isSigned = asked.says.statement === 'signed'
      return {
        cells: {
          moment: null,
          do: `write down${isSigned ? ', and sign,' : ''} what the emergency was`,
          'so-far': missing.length === 0 ? 'recorded' : `not recorded: ${missing.join(', ')}`,
          clause: clauseOf(asked.citation.text),
          'asked-by': asked.citation.text,
          what: 'statement of the emergency',
          latest: null,
          earliest: null,
          stays: null,
          says: null,
          term: null,
          stay: null,
          size: null,
          places: null,
          rulebook: asked.rulebook,
        },
        records: [treatment.record.file],
      }
    })
}
