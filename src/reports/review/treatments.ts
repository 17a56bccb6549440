import { counted } from '../outcomes.js'
import { answered } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { numberIn, pick, plotsOf, rowsOf } from './pick.js'
import type { Answer, Point } from './review.js'

/** Words of `report effect` for a catch that surely did not fall. */
const didNotFall = new Set(['rose', 'about the same'])

const mostPoints = 3

/** What was followed by a catch as high or higher, what else was done, and how much of it cannot be judged. */
export function treatments(facts: YearFacts): Answer {
  const { effect } = facts.reports
  const failed = rowsOf(effect, 'effect').filter(({ cells }) => didNotFall.has(String(cells.answer)))
  const noTrap = rowsOf(effect, 'not-judged').find(({ cells }) => String(cells.why).startsWith('no trap'))
  const withoutTrap = numberIn(noTrap?.cells.things)
  const tables = [
    ...pick(facts, {
      report: 'effect',
      table: 'effect',
      title: 'Followed by a catch as high or higher (+: how many other things were done there in these days)',
      columns: columnsOfEffect,
      only: ({ cells }) => didNotFall.has(String(cells.answer)),
      empty: 'Of nothing that was done is that sure.',
    }),
    ...pick(facts, {
      report: 'effect',
      table: 'tactics',
      columns: [
        'pest',
        'tactic',
        'taken',
        'answer',
        'change-or-why',
        'lower-shown',
        'change',
        'change-low',
        'change-high',
        'cases',
      ],
    }),
    ...pick(facts, { report: 'effect', table: 'not-judged', columns: ['why', 'things'] }),
  ]
  return answered(facts, {
    id: 'treatments',
    question: 'Which treatments did not work?',
    answer: effect.headline,
    tables,
    plots: plotsOf(facts, 'effect', tables),
    commands: [commandFor(facts, 'effect')],
    points: [
      ...failed.slice(0, mostPoints).map(
        ({ cells }): Point => ({
          rank: 2,
          says: `${cells.tactic} against ${cells.pest} in ${cells.site} ${cells.area} on ${cells.day} was followed by a catch ${cells.answer === 'rose' ? 'surely higher' : 'about the same'}, times as many: ${cells['change-or-why']}; ask what the pest still lives on`,
        }),
      ),
      ...pointIf(
        failed.length - mostPoints,
        2,
        `${failed.length - mostPoints} more treatments, repairs and other actions were followed by a catch as high or higher`,
      ),
      ...pointIf(
        withoutTrap,
        3,
        `of ${counted(withoutTrap, 'thing')} done nobody can say whether ${withoutTrap === 1 ? 'it' : 'they'} worked, since no trap that counts the pest stands there`,
      ),
    ],
  })
}

const columnsOfEffect = [
  'answer',
  'day',
  'tactic-shown',
  'site',
  'area',
  'pest',
  'change-or-why',
  'untreated-areas',
  'change',
  'change-low',
  'change-high',
]
