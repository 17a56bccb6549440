import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { pick, plotsOf, rowsOf, sumOf } from './pick.js'
import type { Answer } from './review.js'

const amounts = [
  'applications',
  'baits',
  'amount',
  'active',
  'weight',
  'volume',
  'active-weight',
  'without-amount',
]

/** What was put to use, held against the year before. */
export function pesticideUse(facts: YearFacts): Answer {
  const withoutAmount = sumOf(rowsOf(facts.reports.use, 'products'), 'without-amount')
  const tables = [
    ...pick(facts, {
      report: 'use',
      table: 'before',
      columns: ['period', 'from', 'to', 'covered', ...amounts],
    }),
    ...pick(facts, { report: 'use', table: 'products', columns: ['product', 'registration', ...amounts] }),
    ...pick(facts, { report: 'use', table: 'pests', columns: ['pest', ...amounts] }),
    ...pick(facts, { report: 'use', table: 'hazards', columns: ['signal-word', ...amounts] }),
    ...pick(facts, { report: 'use', table: 'over-time', columns: ['when', ...amounts] }),
  ]
  return answered(facts, {
    id: 'use',
    question: 'Which pesticides were used, against the year before?',
    answer: facts.reports.use.headline,
    tables,
    plots: plotsOf(facts, 'use', tables),
    commands: [commandFor(facts, 'use')],
    points: pointIf(
      withoutAmount,
      2,
      `${counted(withoutAmount, 'use of a pesticide is', 'uses of pesticides are')} without an amount, so the sums are too low`,
    ),
  })
}
