import fc from 'fast-check'
import { expect, it } from 'vitest'
import { shapeOf } from '../../../src/records/shape.js'
import { visit } from '../../../src/records/visit.js'
import { questionOf } from '../../../src/writing/visit/questions.js'
import { answer, begun, resumed } from '../../../src/writing/visit/session.js'
import { oakPlan, said } from './oak-plan.js'

const words = [
  '',
  '-',
  'no',
  'no key',
  'd',
  'all',
  '06:10',
  '06:50',
  'K1 2',
  'K1 -',
  'K3 sprung r',
  'k2 german 4n',
]
const more = [
  'go kitchen',
  'go store',
  'still',
  'holds: dry',
  'closed new trap',
  'note seen: #1',
  'advise "x"',
]
const found = [
  's house-mouse droppings fresh',
  'c gap under door @room-1',
  'water maintenance',
  'entry 2026-05-01',
]
const work = [
  'K1 2 moved',
  'moved K3 store secured',
  'K2 picked up',
  'put-out all',
  'taken-up R1',
  'set',
  'set K9 snap-trap for house-mouse traps 2',
  'snap-trap',
  'plant',
  'plant fern-1 returned window sill',
  'removed gnats, sprayed yard',
  'photo a.jpg the "gap"',
  'photo',
  'supervised-by marsh',
  'with lind',
]
const purposes = ['routine', 'callback', 'trap-check', 'follow-up', 'set-up']

const line = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...words, ...more, ...found, ...work, ...purposes) },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme' }) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary' }) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(
        fc.constantFrom(
          'K1',
          'K1 moved',
          'moved K2',
          'photo',
          'photo x.jpg',
          'plant',
          'plant fern-1',
          'K2 taken-up',
          'with',
          'c',
          's',
          'set K9',
          'up K1',
          'did bait',
          'note',
          'no',
          'fixed',
          'go',
        ),
        fc.string(),
      )
      .map(([word, rest]) => `${word} ${rest}`),
  },
)

it('whatever is typed, the record to be can be read, has its shape, and comes again from its answers', () => {
  const plan = oakPlan()
  fc.assert(
    fc.property(fc.array(line, { maxLength: 25 }), (lines) => {
      let session = begun(plan)
      for (const text of ['06:10', ...lines]) {
        expect(questionOf(session, true).prompt).not.toBe('')
        const next = answer(session, text)
        if ('session' in next) session = next.session
        else expect(next.complaint).not.toBe('')
      }
      expect(resumed(plan, session.answers)).toEqual({ session, unfit: [] })
      if (session.state.draft.purpose === undefined) return
      const shaped = shapeOf(visit, said(session))
      expect([shaped.faults, shaped.usable]).toEqual([[], true])
    }),
    { numRuns: 300 },
  )
})
