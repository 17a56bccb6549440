import type { LoadedEvent } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { clockText, isoOf, weekdayOf } from '../measure/calendar.js'
import { pestTable } from '../records/tables.js'
import { wallTimeAt } from '../rules/notices/moments.js'
import type { Day, Row, Table } from '../types.js'
import type { PublicText } from './application-public-text.js'

/** How far it got: carried out; planned for a day to come, or for one that has passed; given up. */
export type Status = 'done' | 'planned' | 'passed' | 'cancelled'

/** What the page of one application is made of. */
export interface Page {
  /** The site as of the day of the application or the as-of day, the later one; a planned one is in it as carried out. */
  readonly view: SiteView
  readonly record: LoadedEvent<'application'>
  /** Undefined for one that was cancelled. */
  readonly treatment: Treatment | undefined
  readonly status: Status
  /** The as-of day asked for: what is dated later is not told. */
  readonly known: Day
  readonly withNames: boolean
  readonly text: PublicText
}

/** A question a reader has, and what the record answers. */
export function answer(question: string, says: string, records: readonly string[]): Row {
  return { cells: { question, answer: says }, records }
}

export function answers(id: string, title: string, rows: readonly Row[]): Table {
  return {
    id,
    title,
    columns: [
      { id: 'question', title: 'about' },
      { id: 'answer', title: 'what the record shows' },
    ],
    rows,
    empty: 'The record shows nothing of this.',
  }
}

const weekdays = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

export function dayWords(day: Day): string {
  return `${weekdays[weekdayOf(day) - 1]} ${isoOf(day)}`
}

/** A day with its hour, or with the words that none is recorded. */
export function hourWords(day: Day, time: string | undefined): string {
  return `${dayWords(day)}, ${time ?? 'hour not recorded'}`
}

/** A moment on the clocks of the district, never earlier than it is. */
export function momentWords(view: SiteView, instant: number): string {
  const { day, minutes } = wallTimeAt(view.district, Math.ceil(instant))
  return `${dayWords(day)}, ${clockText(minutes)}`
}

/** An area as people call it; the words of its id where it has no name. */
export function publicAreaName(view: SiteView, area: string): string {
  return view.areas.get(area)?.facts.name ?? area.replaceAll('-', ' ')
}

export function areaNames(view: SiteView, areas: Iterable<string>): string {
  return [...new Set([...areas].map((area) => publicAreaName(view, area)))].join(', ')
}

/** A pest as people call it; the words of its id where the table of pests does not have it. */
export function pestWords(id: string): string {
  const pest = pestTable().get(id)
  if (pest?.group === 'unidentified') return 'a pest that was not identified'
  return pest?.name ?? id.replaceAll('-', ' ')
}
