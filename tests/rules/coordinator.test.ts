import { expect, it } from 'vitest'
import { isoOf } from '../../src/measure/calendar.js'
import { underOwnRulebook } from '../../src/rules/own-rulebook.js'
import { checkOf } from '../check/checking.js'

const named = (spans: string, sections = '') =>
  underOwnRulebook(sections).replace(
    'coordinator: [{from: 2026-03-01, who: marsh}]',
    `coordinator: [${spans}]`,
  )
const gaps = (overlay: string, asOf = '2026-03-20') =>
  checkOf(overlay, asOf)
    .problems.filter(({ rule }) => rule === 'no-coordinator')
    .map(({ from, until, level, at }) => [
      isoOf(from),
      until === undefined ? '' : isoOf(until),
      level,
      at.path.join('.'),
    ])

it.each<[string, string, unknown[]]>([
  ['one without an end', '{from: 2026-03-01, who: marsh}', []],
  [
    'one after the other without a break',
    '{from: 2026-03-01, until: 2026-03-14, who: marsh}, {from: 2026-03-15, who: lind}',
    [],
  ],
  [
    'written the other way round',
    '{from: 2026-03-15, who: lind}, {from: 2026-03-01, until: 2026-03-14, who: marsh}',
    [],
  ],
  [
    'two at once, of whom the first stays longer',
    '{from: 2026-03-01, until: 2026-03-31, who: marsh}, {from: 2026-03-05, until: 2026-03-10, who: lind}, {from: 2026-04-01, who: lind}',
    [],
  ],
  [
    'a day between',
    '{from: 2026-03-01, until: 2026-03-13, who: marsh}, {from: 2026-03-15, who: lind}',
    [['2026-03-14', '2026-03-15', 'warning', 'coordinator.0']],
  ],
  [
    'nobody from a day on, also one to come',
    '{from: 2026-03-01, until: 2026-04-30, who: marsh}',
    [['2026-05-01', '', 'warning', 'coordinator.0']],
  ],
  [
    'nobody in the first days of the records',
    '{from: 2026-03-04, who: marsh}',
    [['2026-03-01', '2026-03-04', 'warning', 'coordinator.0']],
  ],
])('%s', (_, spans, expected) => {
  expect(gaps(named(spans))).toEqual(expected)
})

it('is as grave as the law that asks for one', () => {
  const law =
    'parameters: {coordinator.named: [{from: 2026-03-10, value: "yes", kind: law, confidence: read, source: Invented Pest Act}]}'
  const over = '{from: 2026-03-01, until: 2026-03-14, who: marsh}'
  expect(gaps(named(over, law))).toEqual([['2026-03-15', '', 'error', 'coordinator.0']])
  expect(gaps(named(over.replace('14', '05'), law))).toEqual([['2026-03-06', '', 'warning', 'coordinator.0']])
})
