import type { Precheck, StillToDo } from '../check/precheck.js'
import type { InstantRange } from '../ledger/instants.js'
import { timesOf } from '../ledger/instants.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import { durationText } from '../measure/reentry.js'
import type { Group } from '../rules/notices/asked-notices.js'
import { noticeAssessments } from '../rules/notices/assess-notice.js'
import { postingAssessments } from '../rules/notices/assess-posting.js'
import { momentText, wallTimeAt } from '../rules/notices/moments.js'
import { groupWords } from '../rules/notices/words.js'
import { askingForDry, staysPut } from '../rules/reentry/dry-not-seen.js'
import { longestOf, requiredWaits } from '../rules/reentry/required-waits.js'
import type { Cell, Column, Day, Row, Table } from '../types.js'
import { notCounted } from './calendar-reach.js'

export const momentColumns: readonly Column[] = [
  { id: 'what', title: 'what' },
  { id: 'latest', title: 'at the latest' },
  { id: 'earliest', title: 'not before' },
  { id: 'stays', title: 'stays until' },
  { id: 'so-far', title: 'so far' },
  { id: 'says', title: 'says' },
  { id: 'asked-by', title: 'asked by' },
  { id: 'term', title: 'term', for: 'work' },
  { id: 'stay', title: 'how long it stays', for: 'work' },
  { id: 'size', title: 'size', for: 'work' },
  { id: 'places', title: 'places', for: 'work' },
  { id: 'rulebook', title: 'rulebook', for: 'work' },
]

/** What is sent and put up, and when at the latest: the earlier moment where the draft leaves the hour open. */
export function momentsTable({ view, treatment }: Pick<Precheck, 'view' | 'treatment'>, today: Day): Table {
  return {
    id: 'moments',
    title: 'Notices and signs',
    columns: columnsInShort,
    rows: view && treatment ? rowsInShort(view, treatment, today) : [],
    empty: !view || !treatment ? 'Not looked at.' : 'The rulebooks in force ask for none, as drafted.',
  }
}

/** The moments on its other days, and when people may come back then. */
export function otherMomentsTable(
  days: readonly ({ readonly day: Day } & { readonly found: Pick<Precheck, 'view' | 'treatment'> })[],
  today: Day,
): Table {
  return {
    id: 'other-days-moments',
    title: 'Notices, signs and re-entry on its other days',
    columns: [{ id: 'day', title: 'day' }, ...columnsInShort],
    rows: days.flatMap(({ day, found: { view, treatment } }) => {
      if (!view || !treatment) return []
      const reentry = earliestReentry(view, treatment)
      const when = reentry === undefined ? undefined : `not earlier than: ${reentry}`
      const back: Row[] =
        when === undefined ? [] : [{ cells: { what: 'people come back', when, earliest: when }, records: [] }]
      return [...rowsInShort(view, treatment, today), ...back].map(({ cells, records }) => ({
        cells: { ...cells, day: isoOf(day) },
        records,
      }))
    }),
    empty: days.some(({ found }) => !found.treatment)
      ? 'Not looked at.'
      : 'The rulebooks in force ask for none, as drafted.',
  }
}

const momentIds: readonly string[] = ['latest', 'earliest', 'stays']

/** For people its moments are one phrase, since a column for each would be empty more often than not. */
const columnsInShort: readonly Column[] = momentColumns.flatMap((column): Column[] => [
  momentIds.includes(column.id) ? { ...column, for: 'work' } : column,
  ...(column.id === 'what' ? [{ id: 'when', title: 'when', for: 'people' } as const] : []),
])

function rowsInShort(view: SiteView, treatment: Treatment, today: Day): Row[] {
  return [...noticeRows(view, treatment, today), ...signRows(view, treatment, today)].map(
    ({ cells, records }) => ({ cells: { ...cells, when: inShort(cells) }, records }),
  )
}

function inShort({ latest, earliest, stays }: Row['cells']): string {
  return [
    // What is no moment is a term in words.
    isMoment(latest) ? `by ${latest}` : String(latest),
    ...(earliest ? [`not before${isMoment(earliest) ? '' : ':'} ${earliest}`] : []),
    ...(stays ? [`stays until${isMoment(stays) ? '' : ':'} ${stays}`] : []),
  ].join('; ')
}

const isMoment = (text: unknown) => /^(?:\d|the end of)/.test(String(text))

/** The last day on which something can still be done in time; that it cannot be said where its moment cannot. */
export function lastDayText({ view, treatment }: Precheck, { problem, lastDay }: StillToDo): string {
  const rowsOf = { 'notice-missing': noticeRows, 'posting-missing': signRows }[problem.rule]
  const rows = view && treatment && rowsOf ? rowsOf(view, treatment, treatment.day) : []
  return rows.some(({ cells }) => whyUnsaid(cells.latest) !== undefined) ? cannotBeSaid : isoOf(lastDay)
}

/** The notices asked of one treatment, or those to one group. */
export function noticeRows(view: SiteView, treatment: Treatment, today: Day, to?: Group): Row[] {
  return noticeAssessments(view)
    .filter((one) => one.treatment === treatment && (to === undefined || one.asked.group === to))
    .map((one): Row => {
      const { asked } = one
      return {
        cells: {
          what: `notice to ${groupWords([asked])}`,
          latest: unlessUncounted(
            notCounted(view, treatment, asked.term, asked.latest),
            asked.latest ? earlyEnd(view, asked.latest) : asked.term,
          ),
          earliest: unlessUncounted(
            notCounted(view, treatment, asked.longest, asked.earliest),
            asked.earliest ? lateEnd(view, asked.earliest) : null,
          ),
          stays: null,
          'so-far':
            one.told === 'nobody'
              ? openOrPassed(view, asked.latest, today, 'none recorded')
              : outcomeWords[one.outcome],
          says: asked.says.join(', ') || null,
          'asked-by': asked.citation.text,
          term: asked.term,
          stay: null,
          size: null,
          places: null,
          rulebook: asked.rulebook,
        },
        records: one.told === 'nobody' ? [] : [one.notice.file],
      }
    })
}

/** The signs asked of one treatment. */
export function signRows(view: SiteView, treatment: Treatment, today: Day): Row[] {
  return postingAssessments(view)
    .filter((one) => one.treatment === treatment)
    .map(({ asked, outcome, signs }): Row => {
      // Where no time beforehand is asked, a sign hangs when it begins.
      const latest = asked.latest ?? timesOf(view.district, treatment).start
      return {
        cells: {
          what: ['sign', asked.size, asked.places.length > 0 ? `at: ${asked.places.join(', ')}` : undefined]
            .filter((part) => part !== undefined)
            .join(', '),
          latest: unlessUncounted(notCounted(view, treatment, asked.term, latest), earlyEnd(view, latest)),
          earliest: null,
          stays: unlessUncounted(
            notCounted(view, treatment, asked.stay, asked.staysUntil),
            asked.staysUntil ? lateEnd(view, asked.staysUntil) : null,
          ),
          'so-far':
            signs.length === 0
              ? openOrPassed(view, latest, today, 'none recorded')
              : outcome === 'shown'
                ? 'recorded; it stays up until then'
                : outcomeWords[outcome],
          says: asked.says.join(', ') || null,
          'asked-by': asked.citation.text,
          term: asked.term || 'when it begins',
          stay: asked.stay || null,
          size: asked.size ?? null,
          places: asked.places.join(', ') || null,
          rulebook: asked.rulebook,
        },
        records: signs.map(({ posting }) => posting.file),
      }
    })
}

const outcomeWords = {
  shown: 'recorded',
  'not shown': 'recorded, not as asked',
  'not recorded': 'recorded; whether as asked is not shown',
} as const

function openOrPassed(view: SiteView, latest: InstantRange | undefined, today: Day, none: string): string {
  if (!latest) return none
  return wallTimeAt(view.district, latest.earliest).day < today ? `${none}, and the moment has passed` : none
}

/** A moment that hangs on days the school calendar does not tell of is not made up. */
function unlessUncounted(why: string | undefined, moment: string | null): string | null {
  return why === undefined ? moment : `${cannotBeSaid}: ${why}`
}

/** What stands where a moment cannot be worked out. */
export const cannotBeSaid = 'cannot be said'

/** Why a moment cannot be said; undefined for one that is. */
export function whyUnsaid(cell: Cell | undefined): string | undefined {
  const start = `${cannotBeSaid}: `
  return typeof cell === 'string' && cell.startsWith(start) ? cell.slice(start.length) : undefined
}

/** Of a range, the moment that is in time whatever the hour was. */
function earlyEnd(view: SiteView, { earliest }: InstantRange): string {
  return momentText(view.district, { earliest, latest: earliest })
}

function lateEnd(view: SiteView, { latest }: InstantRange): string {
  return momentText(view.district, { earliest: latest, latest })
}

/** When people may come back at the earliest, by each that asks for a time, the longest first. */
export function reentryTable({ view, treatment }: Precheck): Table {
  return {
    id: 'reentry',
    title: 'Nobody comes back earlier than',
    columns: [
      { id: 'earliest', title: 'earliest' },
      { id: 'wait', title: 'after the end' },
      { id: 'asked-by', title: 'asked by' },
      { id: 'longest', title: 'longest', for: 'work' },
    ],
    rows: view && treatment && isPesticide(treatment) ? reentryRows(view, treatment) : [],
    empty:
      !view || !treatment
        ? 'Not looked at.'
        : 'Neither the rulebooks in force nor the label as far as it is entered state a time; the label on the container may.',
  }
}

function reentryRows(view: SiteView, treatment: Treatment): Row[] {
  const waits = requiredWaits(view, treatment)
  const longest = longestOf(waits)
  const { end } = timesOf(view.district, treatment)
  const timed = [...waits]
    .sort((a, b) => b.minutes - a.minutes)
    .map(
      (wait): Row => ({
        cells: {
          earliest: lateEnd(view, { ...end, latest: end.latest + wait.minutes }),
          wait: durationText(wait.minutes),
          'asked-by': wait.by === 'label' ? 'the label as entered' : wait.citation.text,
          longest: wait === longest ? 'yes' : 'no',
        },
        records: [],
      }),
    )
  const { application } = treatment
  const applied = application ? { ...treatment, application } : undefined
  const dry = applied && !staysPut(applied) ? askingForDry(view, applied) : []
  if (dry.length === 0) return timed
  const seen: Row = {
    cells: {
      earliest: 'seen dry or settled',
      wait: null,
      'asked-by': dry.map(({ text }) => text).join('; '),
      longest: null,
    },
    records: [],
  }
  return [...timed, seen]
}

/** The earliest moment in one phrase; undefined where nothing asks for a time. */
export function earliestReentry(view: SiteView, treatment: Treatment): string | undefined {
  const rows = isPesticide(treatment) ? reentryRows(view, treatment) : []
  const timed = rows.find(({ cells }) => cells.wait !== null)
  const seen = rows.find(({ cells }) => cells.wait === null)
  const parts = [timed, seen].flatMap((row) => (row ? [String(row.cells.earliest)] : []))
  return parts.length === 0 ? undefined : parts.join(', and ')
}
