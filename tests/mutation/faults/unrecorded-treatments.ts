import { addVisit } from '../added.js'
import { addGel } from '../added-applications.js'
import type { Data, Draft } from '../draft.js'
import { copyOf, put } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt } from '../fault.js'
import { sitesOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Visits that tell of a pesticide nobody wrote down. */
export const unrecordedTreatmentFaults: readonly FaultKind[] = [
  {
    name: 'an action was a pesticide, and nothing else is written of it',
    expect: 'treatment-not-recorded',
    at: inVisits,
    make: (draft, random) => actionTold(draft, random, 'pesticide'),
  },
  {
    name: 'an action was bait, and neither a device nor an application tells of it',
    expect: 'treatment-not-recorded',
    at: inVisits,
    make: (draft, random) => actionTold(draft, random, 'bait'),
  },
  {
    name: 'what was seen had been driven out, and nothing is written of with what',
    expect: 'treatment-not-recorded',
    at: inVisits,
    make(draft, random) {
      const seen = { pest: 'american-cockroach', area: 'custodial', evidence: 'dead', count: 1 }
      const visit = addVisit(draft, siteOf(draft, random), draft.lastDay - 9, 'follow-up', {
        found: { seen },
      })
      const before = copyOf(draft)
      put(draft, visit, ['found', 'seen', 'flushed'], 'yes')
      return { ...reportedAt(visit, 'found', 'seen', 'flushed'), before }
    },
  },
  {
    name: 'the application that a visit tells of was cancelled',
    expect: 'treatment-not-recorded',
    at: inVisits,
    make(draft, random) {
      const site = siteOf(draft, random)
      const { application, day } = addGel(draft, site, { area: 'custodial' })
      const visit = addVisit(draft, site, day, 'follow-up', { actions: { gel: action('bait') } }, 'gel')
      const before = copyOf(draft)
      put(draft, application, ['status'], 'cancelled')
      return { ...reportedAt(visit, 'actions', 'gel', 'tactic'), before }
    },
  },
]

const action = (tactic: string): { readonly [key: string]: Data } => ({
  did: 'done at the pipe',
  tactic,
  area: 'custodial',
})

const siteOf = (draft: Draft, random: Random) => random.pick(sitesOf(draft)) ?? ''

function actionTold(draft: Draft, random: Random, tactic: string) {
  const visit = addVisit(draft, siteOf(draft, random), draft.lastDay - 9, 'follow-up', {
    actions: { done: action('vacuuming') },
  })
  const before = copyOf(draft)
  put(draft, visit, ['actions', 'done', 'tactic'], tactic)
  return { ...reportedAt(visit, 'actions', 'done', 'tactic'), before }
}
