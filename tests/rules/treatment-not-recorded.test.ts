import { expect, it } from 'vitest'
import { baitApplication } from '../../src/rules/example-applications.js'
import { checkOf } from '../check/checking.js'

const rule = 'treatment-not-recorded'
const visit = (body: string) => `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 15:00 to 16:20
inspected: [kitchen, room-1]
${body}
`
const action = (tactic: string, more = ', area: kitchen') =>
  visit(`actions: {done: {did: done at the range, tactic: ${tactic}${more}}}`)
const told = (overlay: string) =>
  checkOf(overlay)
    .standing.filter((problem) => problem.rule === rule)
    .map(({ at }) => at.path.join('.'))

it.each<[string, string, string[]]>([
  ['a pesticide', action('pesticide'), ['actions.done.tactic']],
  ['a flushing agent', action('flushing'), ['actions.done.tactic']],
  ['bait', action('bait'), ['actions.done.tactic']],
  ['vacuuming', action('vacuuming'), []],
  ['a pesticide with its record', action('pesticide') + baitApplication('2026-03-12'), []],
  [
    'one that names no area, with a record of the day',
    action('pesticide', '') + baitApplication('2026-03-12'),
    [],
  ],
  [
    'a pesticide in another room than the record tells',
    action('pesticide', ', area: room-1') + baitApplication('2026-03-12'),
    ['actions.done.tactic'],
  ],
  [
    'a record of the day before',
    action('pesticide') + baitApplication('2026-03-11'),
    ['actions.done.tactic'],
  ],
  [
    'a record that was cancelled',
    action('pesticide') + baitApplication('2026-03-12', 'status: cancelled'),
    ['actions.done.tactic'],
  ],
  [
    'bait that was put into a station',
    visit(`set: {B1: {kind: bait-station, area: kitchen, for: [german-cockroach], product: bait-a, bait-added: 1 g}}
actions: {done: {did: station filled, tactic: bait, area: kitchen}}`),
    [],
  ],
  [
    'cockroaches that were driven out',
    visit('found: {out: {pest: german-cockroach, area: kitchen, evidence: live, count: 3, flushed: yes}}'),
    ['found.out.flushed'],
  ],
  [
    'a board read after flushing',
    visit('readings: {K1: {german-cockroach: 3, after-flush: yes}}'),
    ['readings.K1.after-flush'],
  ],
])('%s', (_, overlay, expected) => {
  expect(told(overlay)).toEqual(expected)
})
