import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { KeyPath } from '../../types.js'
import { baitApplication } from '../example-applications.js'
import { commonPractice, siteRule } from '../rule.js'

type Told = 'pesticide' | 'flushing' | 'bait' | 'flushed'

/** A visit that tells of a pesticide and no record that says which, where and how much. */
export const treatmentNotRecorded = siteRule<{ told: Told }>({
  id: 'treatment-not-recorded',
  title: 'a visit tells of a pesticide, and no application of that day is recorded',
  level: 'warning',
  judgedOn: 'the day of the visit',
  why: 'Without its record nobody can say what was used, how much, where and why, nor who was told. A flushing agent is a pesticide like any other.',
  remedy:
    'Write the application: `doorsweep new application --site oak --by okafor --on 2026-03-10`. Bait put into a device is written in its reading instead: `K11: {bait-added: 1 block, product: block-x}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ told }) => `${words[told]}, and no application at this site on that day is recorded.`,
  *check(view) {
    for (const visit of view.visits) {
      if (visit.day < view.begins) continue
      const found = tellings(visit).find((telling) => !isRecorded(view, visit, telling))
      if (found)
        yield { args: { told: found.told }, at: { file: visit.file, path: found.path }, from: visit.day }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 15:00 to 16:20
inspected: [kitchen]
actions:
  flushed-range:
    did: flushed the voids of the range to see what is in them
    tactic: flushing # expect: treatment-not-recorded
    area: kitchen
`,
  passing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
time: 15:00 to 16:20
inspected: [kitchen]
actions:
  baited-range:
    did: gel put into the voids of the range
    tactic: bait
    area: kitchen
${baitApplication('2026-03-12')}`,
})

const words: Readonly<Record<Told, string>> = {
  pesticide: 'This visit tells of a pesticide as its action',
  flushing: 'This visit tells of a flushing agent as its action',
  bait: 'This visit tells of bait as its action',
  flushed: 'This visit tells of what was driven out with a flushing agent',
}

interface Telling {
  readonly told: Told
  readonly path: KeyPath
  /** Where, if the visit says. */
  readonly area: string | undefined
}

function tellings({ data }: LoadedEvent<'visit'>): Telling[] {
  const found: Telling[] = []
  for (const [name, action] of Object.entries(data.actions ?? {})) {
    const { tactic } = action
    if (action.did !== undefined && (tactic === 'pesticide' || tactic === 'flushing' || tactic === 'bait'))
      found.push({ told: tactic, path: ['actions', name, 'tactic'], area: action.area })
  }
  for (const [name, sighting] of Object.entries(data.found ?? {}))
    if (sighting.flushed === 'yes')
      found.push({ told: 'flushed', path: ['found', name, 'flushed'], area: sighting.area })
  for (const name in data.readings) {
    const reading = data.readings[name]
    if (reading !== undefined && 'after-flush' in reading && reading['after-flush'] === 'yes')
      found.push({ told: 'flushed', path: ['readings', name, 'after-flush'], area: undefined })
  }
  return found
}

/** Told by an application of the day in that area, or, for bait, by a device that was filled there. */
function isRecorded(view: SiteView, visit: LoadedEvent<'visit'>, { told, area }: Telling): boolean {
  return view.treatments.some(
    ({ how, day, areas }) =>
      day === visit.day &&
      (how === 'application' || told === 'bait') &&
      // An area that the site does not have is told by its own rule, and may be this one misspelt.
      (area === undefined || areas.some((treated) => treated.id === area || treated.area === undefined)),
  )
}
