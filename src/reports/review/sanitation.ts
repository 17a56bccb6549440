import type { Row } from '../../types.js'
import { listInWords } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { numberIn, pick, rowsOf } from './pick.js'
import type { Answer, Point } from './review.js'

const columns = [
  'which',
  'put-right-shown',
  'days-shown',
  'in-time-shown',
  'came-back-shown',
  'open',
  'overdue',
  'found',
  'put-right',
]

/** Which kinds of conditions were found, whose they were, what they gave to pests, and how long they took. */
export function sanitation(facts: YearFacts): Answer {
  const rows = rowsOf(facts.reports.conditions, 'time-to-repair')
  const by = (what: string) => rows.filter(({ cells }) => cells.by === what && numberIn(cells.found) > 0)
  return answered(facts, {
    id: 'sanitation',
    question: 'How can sanitation improve?',
    answer: answerOf(by('kind'), by('owner')),
    tables: [
      ...(['kind', 'owner', 'gives'] as const).flatMap((what) =>
        pick(facts, {
          report: 'conditions',
          table: 'time-to-repair',
          title: titles[what],
          columns,
          only: ({ cells }) => cells.by === what,
        }).map((table) => ({ ...table, id: `${table.id}-by-${what}` })),
      ),
      ...(facts.options.site === undefined
        ? pick(facts, {
            report: 'conditions',
            table: 'before-pests',
            columns: ['gives', 'verdict', 'times-shown', 'with-shown', 'without-shown'],
          })
        : []),
    ],
    commands: [commandFor(facts, 'conditions')],
    points: by('owner').flatMap(lateOwner),
  })
}

const titles = {
  kind: 'By kind of condition: how many were put right, and how long it took',
  owner: 'By whose work it is',
  gives: 'By what it gives to a pest',
} as const

function answerOf(kinds: readonly Row[], owners: readonly Row[]): string {
  if (kinds.length === 0)
    return 'No condition was found in this year; that none was written down does not show that there was none.'
  const found = [...kinds]
    .sort((a, b) => numberIn(b.cells.found) - numberIn(a.cells.found))
    .map(({ cells }) => `${cells.found} ${cells.which}`)
  const late = owners
    .filter(({ cells }) => numberIn(cells['in-time-of']) > 0)
    .map(({ cells }) => `${cells.which} ${cells['in-time-count']} of ${cells['in-time-of']}`)
  const inTime =
    late.length === 0
      ? 'none had a day stated that is past by now'
      : `put right in time: ${listInWords(late, 'owners')}`
  return `Conditions found, by kind: ${listInWords(found, 'kinds')}; ${inTime}.`
}

/** Of a single one nothing is to be learnt. */
const fewestLate = 2

function lateOwner({ cells }: Row): Point[] {
  const [done, of] = [numberIn(cells['in-time-count']), numberIn(cells['in-time-of'])]
  if (of - done < fewestLate) return []
  const half = cells['days-shown'] === null ? '' : `, half within ${cells['days-shown']}`
  return [
    {
      rank: 3,
      says: `conditions that are the work of ${cells.which}: ${done} of ${of} put right by the day stated for them${half}; agree on days that can be kept, and on who looks`,
    },
  ]
}
