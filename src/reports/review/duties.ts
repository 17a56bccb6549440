import type { Column, Row, Table } from '../../types.js'
import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import { isOfWord } from './channels.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { numberIn, pick, rowsOf, sumOf } from './pick.js'
import type { Answer } from './review.js'

/** A summary of every duty held against every application, and of what is sent or filed for a year. */
export function duties(facts: YearFacts): Answer {
  const { compliance } = facts.reports
  const all = rowsOf(compliance, 'duties')
  const notShown = all.filter(({ cells }) => cells.outcome === 'not shown')
  // Notices and signs are a point of the channels already.
  const others = notShown.filter((duty) => !isOfWord(duty))
  const ofLaw = others.filter(({ cells }) => cells.kind === 'law')
  const unchecked = sumOf(rowsOf(compliance, 'treatments'), 'not-checked')
  const filings = rowsOf(compliance, 'yearly').filter(({ cells }) => cells.outcome === 'not shown')
  const isOpen = ({ cells }: Row) => numberIn(cells['not-shown']) + numberIn(cells['not-checked']) > 0
  return answered(facts, {
    id: 'compliance',
    question: 'What do the records show of every duty?',
    answer: compliance.headline,
    tables: [
      ...pick(facts, {
        report: 'compliance',
        table: 'by-clause',
        title: 'Duties of which something is not shown or cannot be checked, by clause',
        columns: [
          'duty-and-clause',
          'came-of-it',
          'duty',
          'clause',
          'shown',
          'not-shown',
          'not-checked',
          'not-applicable',
        ],
        only: isOpen,
        empty: 'None: whatever applied is shown.',
      }),
      ...pick(facts, {
        report: 'compliance',
        table: 'yearly',
        columns: ['year', 'asked', 'told', 'duty', 'due', 'outcome'],
      }),
      ...treatmentsTable(facts),
    ],
    commands: [commandFor(facts, 'compliance')],
    points: [
      ...pointIf(
        ofLaw.length,
        1,
        `${counted(ofLaw.length, 'duty of law is', 'duties of law are')} not shown`,
      ),
      ...pointIf(
        others.length - ofLaw.length,
        2,
        `${counted(others.length - ofLaw.length, 'duty', 'duties')} of the label, policy or custom ${others.length - ofLaw.length === 1 ? 'is' : 'are'} not shown`,
      ),
      ...pointIf(
        filings.length,
        1,
        `${counted(filings.length, 'yearly filing is', 'yearly filings are')} not shown`,
      ),
      ...pointIf(
        unchecked,
        3,
        `${counted(unchecked, 'duty', 'duties')} cannot be checked for want of a fact in the records`,
      ),
    ],
  })
}

/** Each application; who did it, and in which devices, only where names are asked for. */
function treatmentsTable(facts: YearFacts): Table[] {
  const counts = ['told', 'what-is-not-shown', 'shown', 'not-shown', 'not-checked', 'not-applicable']
  const isNamed = facts.withParts.has('names')
  const own = isNamed ? ['application'] : ['day', 'site', 'product-name', 'how']
  return pick(facts, { report: 'compliance', table: 'treatments', columns: [...own, ...counts] }).map(
    (table) => ({
      ...table,
      columns: table.columns.map((column) => (own.includes(column.id) ? forAll(column) : column)),
    }),
  )
}

function forAll({ for: _, ...column }: Column): Column {
  return column
}
