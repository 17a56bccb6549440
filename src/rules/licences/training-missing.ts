import { siteRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { gelInCracks, inventedAct, ownRulebook } from './example-ledgers.js'
import type { TrainingArgs } from './training-gaps.js'
import { trainingGapsAtUses, trainingGapsOfCoordinators } from './training-gaps.js'

const own = ownRulebook(`
training:
  appliers: [{${inventedAct} 8, who: whoever applies, course: own-course, every: 1 year}]
`)

const trainedOn = (day: string) => `
=== people/okafor.yaml
name: Ada Okafor
roles: [technician, applicator]
firm: invented-pest-services
licences:
  or-applicator:
    number: XX-1
    state: OR
    kind: commercial applicator
    categories: [structural]
    spans: [{from: 2025-01-01, until: 2026-12-31}]
training:
  course-2025: {on: ${day}, topic: Schools and pests, course: own-course}
`

export const trainingMissing = siteRule<TrainingArgs>({
  id: 'training-missing',
  title: 'a training that is asked for is not recorded',
  level: 'error',
  judgedOn: 'the day of the use; for the coordinator, the day after the last one in time',
  why: 'What applies to schools differs from other work; whoever decides or applies there learns it before, and again while it changes.',
  remedy:
    'If the course was taken, enter it in the record of the person with the name the rulebook has for it: `training: {course-2026: {on: 2026-02-03, topic: Schools and pests, course: own-course}}`. If not, it is taken before the next use.',
  source: askedByRulebooks('training'),
  actor: 'coordinator',
  gap: true,
  asks: ({ course, person }) => `course ${course} for ${person}`,
  says: ({ person, course, every, coordinator, last, due, more }) => {
    const lastWords = last === '' ? '' : ` The last one recorded is of ${last}.`
    if (due !== '')
      return `No course \`${course}\` of ${person}, the coordinator, is recorded that still counts after ${due} (asked for: every ${every}).${lastWords}`
    const uses = more === 0 ? '' : `, nor before ${more} later ${more === 1 ? 'use' : 'uses'}`
    return `No course \`${course}\` of ${person}${coordinator ? ', the coordinator,' : ''} is recorded within ${every} before this use${uses}.${lastWords}`
  },
  check: (view) => trainingGapsAtUses(view),
  checkDistrict: (view) => trainingGapsOfCoordinators(view),
  failing: own + trainedOn('2025-03-11') + gelInCracks('okafor # expect: training-missing'),
  passing: own + trainedOn('2025-03-12') + gelInCracks(),
})
