import { dayIn, inForce } from '../../ledger/spans.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { decisionRow, decisionsTable } from './last-review.js'
import type { Answer, Blank } from './review.js'

/** The decisions of this year, where the meeting was held and written down by the as-of day. */
export function thisReview(facts: YearFacts): Answer[] {
  const { view, year, options } = facts
  const held = view.reviews.find(({ id, data }) => id === year.record && dayIn(data.held) <= options.asOf)
  if (!held) return []
  const rows = Object.entries(held.data.decisions).map(([name, one]) => decisionRow(facts, held, name, one))
  return [
    answered(facts, {
      id: 'this-review',
      question: 'What did the review of this year decide?',
      answer: `The review of ${held.id} was held on ${held.data.held}; ${rows.length === 1 ? 'one decision is' : `${rows.length} decisions are`} on record.`,
      tables: [decisionsTable('this-decisions', `Decisions of ${held.id}`, rows)],
      commands: [],
      points: [],
    }),
  ]
}

/** The lines to write on. Their words are those of the record, so that what is written goes straight into it. */
export function blankOf({ view, year, options, withParts }: YearFacts): Blank {
  const file = `reviews/${year.record}.yaml`
  // Also one that cannot be used, or is of a day still to come: nothing is ever written over it.
  const isThere =
    view.reviews.some(({ id }) => id === year.record) || view.broken.has(`review ${year.record}`)
  const coordinator = inForce(view.district.data.coordinator, options.asOf)?.who
  const by = withParts.has('names') && coordinator !== undefined ? ` --by ${coordinator}` : ''
  const command = isThere ? undefined : `doorsweep new review ${year.record}${by}`
  return {
    file,
    command,
    says: isThere
      ? `${file} is in the ledger: open it to add what is decided, or set \`done\` where something was carried out.`
      : `It writes ${file}, with these lines to fill in; then \`doorsweep check\`.`,
    asks: [
      { key: 'held', says: 'Day it was held' },
      { key: 'by', says: 'Who led it' },
      { key: 'present', says: 'Who took part, by role' },
      { key: 'findings', says: 'What the year showed' },
    ],
    ofDecision: [
      { key: '', says: 'Short name' },
      { key: 'what', says: 'What was decided' },
      { key: 'who', says: 'Who does it' },
      { key: 'by', says: 'By when' },
      { key: 'done', says: 'Day it was done' },
    ],
  }
}
