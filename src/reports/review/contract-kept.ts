import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { pick, rowsOf, sumOf } from './pick.js'
import type { Answer } from './review.js'

const counts = ['due', 'in-time', 'late', 'no-record', 'days-late-shown', 'share-in-time-shown']

/** What the contract asks for against what is on record. */
export function contractKept(facts: YearFacts): Answer {
  const { contract } = facts.reports
  const visits = rowsOf(contract, 'visits')
  const checks = rowsOf(contract, 'device-checks')
  const [late, none] = [sumOf(visits, 'late'), sumOf(visits, 'no-record')]
  const checksOpen = sumOf(checks, 'late') + sumOf(checks, 'no-record')
  return answered(facts, {
    id: 'contract',
    question: 'Was the contract kept?',
    answer: contract.headline,
    tables: [
      ...pick(facts, {
        report: 'contract',
        table: 'district',
        columns: ['what', 'cannot-be-told', ...counts],
      }),
      ...pick(facts, {
        report: 'contract',
        table: 'visits',
        columns: ['site', 'asked', 'cannot-be-told', ...counts],
      }),
      ...pick(facts, {
        report: 'contract',
        table: 'device-checks',
        columns: ['site', 'asked-by', 'interval', 'no-access', ...counts],
      }),
      ...pick(facts, {
        report: 'contract',
        table: 'contracts',
        columns: ['sites-shown', 'contractor', 'since', 'until', 'visits', 'complaint-days', 'sites'],
      }),
    ],
    commands: [commandFor(facts, 'contract')],
    points: [
      ...pointIf(none, 2, `${counted(none, 'routine visit has', 'routine visits have')} no record`),
      ...pointIf(late, 2, `${counted(late, 'routine visit was', 'routine visits were')} late`),
      ...pointIf(
        checksOpen,
        2,
        `${counted(checksOpen, 'check of a device was', 'checks of devices were')} late or without a record`,
      ),
    ],
  })
}
