import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { numberIn, pick, plotsOf, rowsOf } from './pick.js'
import type { Answer } from './review.js'

/** What of the building still waits to be put right, month by month, and what is overdue. */
export function fixed(facts: YearFacts): Answer {
  const { conditions } = facts.reports
  const open = rowsOf(conditions, 'open')
  const overdue = open.filter(({ cells }) => numberIn(cells['overdue-days']) > 0)
  const ofNobody = open.filter(({ cells }) => cells.owner === 'nobody named')
  const longest = Math.max(0, ...overdue.map(({ cells }) => numberIn(cells['overdue-days'])))
  const tables = [
    ...pick(facts, {
      report: 'conditions',
      table: 'time-to-repair',
      title: 'Of those found in the year',
      columns: [
        'put-right-shown',
        'days-shown',
        'in-time-shown',
        'came-back-shown',
        'open',
        'overdue',
        'found',
        'put-right',
      ],
      only: ({ cells }) => cells.by === 'all',
    }),
    ...pick(facts, {
      report: 'conditions',
      table: 'open',
      columns: [
        'site',
        'area',
        'what',
        'gives',
        'owner',
        'open-days',
        'due-shown',
        'due',
        'overdue-days',
        'since',
      ],
    }),
    ...pick(facts, {
      report: 'conditions',
      table: 'months',
      title: 'Month by month',
      columns: ['month', 'found', 'put-right', 'open', 'overdue'],
      only: ({ cells }) => cells.site === (facts.options.site ?? 'all sites'),
    }).map(({ for: _, ...table }) => table),
  ]
  return answered(facts, {
    id: 'fixed',
    question: 'Were correctable conditions fixed?',
    answer: conditions.headline,
    tables,
    plots: plotsOf(facts, 'conditions', tables),
    commands: [commandFor(facts, 'conditions')],
    points: [
      ...pointIf(
        overdue.length,
        2,
        overdue.length === 1
          ? `one condition is open ${counted(longest, 'day')} past the day stated for it`
          : `${overdue.length} conditions are open past the day stated for them, the longest by ${counted(longest, 'day')}`,
      ),
      ...pointIf(
        ofNobody.length,
        2,
        `${counted(ofNobody.length, 'open condition has', 'open conditions have')} nobody named to put ${ofNobody.length === 1 ? 'it' : 'them'} right`,
      ),
    ],
  })
}
