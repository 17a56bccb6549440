import type { Loaded } from '../../ledger/loaded.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day, Row, Table } from '../../types.js'
import { roleWord } from '../application-public-text.js'
import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { pointIf } from './overlooked.js'
import type { Answer } from './review.js'

export type HeldReview = Loaded<'review'>
type Decision = HeldReview['data']['decisions'][string]

/** The meeting before the one of this year, as far as it was held by the as-of day. */
function lastReview({ view, year, options }: YearFacts): HeldReview | undefined {
  return view.reviews
    .filter(({ id, data }) => id < year.record && dayIn(data.held) <= options.asOf)
    .sort((a, b) => (a.id < b.id ? -1 : 1))
    .at(-1)
}

/** What the last meeting decided, and what the records say of each decision on the as-of day. */
export function lastDecisions(facts: YearFacts): Answer {
  const last = lastReview(facts)
  const rows = last
    ? Object.entries(last.data.decisions).map(([name, one]) => decisionRow(facts, last, name, one))
    : []
  const open = rows.filter(({ cells }) => cells.stands !== 'done')
  const overdue = rows.filter(({ cells }) => typeof cells['overdue-days'] === 'number')
  const done = rows.length - open.length
  return answered(facts, {
    id: 'last-review',
    question: 'What did the last review decide, and was it carried out?',
    answer: last
      ? `The review of ${last.id}, held on ${last.data.held}, made ${counted(rows.length, 'decision')}; ${done} ${done === 1 ? 'is' : 'are'} recorded as done${overdue.length === 0 ? '' : `, ${overdue.length} ${overdue.length === 1 ? 'is' : 'are'} past the day set for ${overdue.length === 1 ? 'it' : 'them'}`}.`
      : `No review before that of ${facts.year.record} is on record.`,
    tables: last
      ? [decisionsTable('last-decisions', `Decisions of ${last.id}`, rows), ...findings(facts, last)]
      : [],
    commands: [],
    points: [
      ...pointIf(
        overdue.length,
        1,
        `${counted(overdue.length, 'decision of the last review is', 'decisions of the last review are')} not recorded as done, and past the day set`,
      ),
      ...pointIf(
        open.length - overdue.length,
        2,
        `${counted(open.length - overdue.length, 'decision of the last review is', 'decisions of the last review are')} not recorded as done`,
      ),
    ],
  })
}

export function decisionRow(facts: YearFacts, { file }: HeldReview, name: string, decision: Decision): Row {
  const { asOf } = facts.options
  const by = decision.by === undefined ? undefined : dayIn(decision.by)
  const done = doneBy(decision, asOf)
  const overdue = done === undefined && by !== undefined && by < asOf ? asOf - by : null
  return {
    cells: {
      decision: name,
      what: facts.shown(decision.what),
      who: whoDoes(facts, decision.who),
      by: decision.by ?? null,
      done: done === undefined ? null : isoOf(done),
      stands: done === undefined ? 'not recorded as done' : 'done',
      'overdue-days': overdue,
      'days-after': done === undefined || by === undefined || done <= by ? null : done - by,
    },
    records: [file],
  }
}

/** A day after the as-of day is not known yet. */
function doneBy({ done }: Decision, asOf: Day): Day | undefined {
  return done === undefined || dayIn(done) > asOf ? undefined : dayIn(done)
}

function whoDoes({ view, withParts }: YearFacts, id: string | undefined): string | null {
  if (id === undefined) return null
  const person = view.people.get(id)?.data
  if (withParts.has('names')) return person?.name ?? id
  return person ? roleWord(person.roles) : 'someone not on record'
}

export function decisionsTable(id: string, title: string, rows: readonly Row[]): Table {
  return {
    id,
    title,
    columns: [
      { id: 'decision', title: 'decision' },
      { id: 'what', title: 'what was decided' },
      { id: 'who', title: 'who does it' },
      { id: 'by', title: 'by when' },
      { id: 'stands', title: 'how it stands' },
      { id: 'done', title: 'done on' },
      { id: 'overdue-days', title: 'past its day', unit: 'days', decimals: 0 },
      { id: 'days-after', title: 'done after its day', unit: 'days', decimals: 0, for: 'work' },
    ],
    rows,
    empty: 'No decision is in the record.',
  }
}

function findings({ shown }: YearFacts, { file, data, id }: HeldReview): Table[] {
  const all = Object.entries(data.findings ?? {})
  if (all.length === 0) return []
  return [
    {
      id: 'last-findings',
      title: `What the review of ${id} found`,
      columns: [
        { id: 'finding', title: 'name' },
        { id: 'what', title: 'what was found' },
      ],
      rows: all.map(([name, what]) => ({ cells: { finding: name, what: shown(what) }, records: [file] })),
      empty: '',
    },
  ]
}
