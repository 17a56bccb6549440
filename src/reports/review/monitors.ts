import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { pick, rowsOf, sumOf } from './pick.js'
import type { Answer } from './review.js'

/** Where a device is missing, and what the present ones could have missed. */
export function monitors(facts: YearFacts): Answer {
  const { coverage } = facts.reports
  const needs = rowsOf(coverage, 'needs')
  const oneIsEnough = needs.filter(({ cells }) => cells.need === 'one is enough, no device')
  const toAdd = sumOf(needs, 'to-add')
  return answered(facts, {
    id: 'monitors',
    question: 'Are more monitors needed, and where?',
    answer: coverage.headline,
    tables: [
      ...['needs-shown', 'needs'].flatMap((table) =>
        pick(facts, {
          report: 'coverage',
          table,
          columns: ['site', 'area', 'pest', 'need', 'last-seen', 'to-add'],
        }),
      ),
      ...pick(facts, {
        report: 'coverage',
        table: 'by-site',
        columns: [
          'site',
          'areas',
          'with-device',
          'seen-no-device',
          'one-is-enough',
          'too-few',
          'to-add-shown',
        ],
      }),
      ...pick(facts, {
        report: 'coverage',
        table: 'chance-to-notice',
        columns: [
          'site',
          'area',
          'pest',
          'threshold',
          'traps',
          'every-shown',
          'chance-shown',
          'more-shown',
          'chance',
        ],
      }),
    ],
    commands: [commandFor(facts, 'coverage')],
    points: [
      ...pointIf(
        oneIsEnough.length,
        2,
        `${counted(oneIsEnough.length, 'area lacks', 'areas lack')} a device for a pest of which one is enough to act`,
      ),
      ...pointIf(
        toAdd,
        3,
        `${counted(toAdd, 'more device')} at the least would close what the monitors leave open`,
      ),
    ],
  })
}
