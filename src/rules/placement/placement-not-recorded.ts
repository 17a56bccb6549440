import { answeredFor } from '../../ledger/answered-for.js'
import type { DeviceMoved } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { commonPractice, siteRule } from '../rule.js'
import { isRodentDevice, meetsChildren } from './placements.js'
import type { StandingDevice } from './standing-devices.js'
import { standingDevices } from './standing-devices.js'

const factNames = [
  'secured',
  'marked',
  'within-reach',
  'in-doorway',
  'visible-outdoors',
  'above-food',
] as const
type Fact = (typeof factNames)[number]

export const placementNotRecorded = siteRule<{
  readonly lacking: number
  readonly standing: number
  readonly facts: readonly string[]
}>({
  id: 'placement-not-recorded',
  title: 'how devices stand is not recorded',
  level: 'note',
  judgedOn: 'the as-of day, by the devices that stand then',
  why: 'Whether a device is secured, marked or out of reach can be shown only where it was written down when it was set or moved.',
  remedy:
    'On the next visit state how each stands, with all that is known: `moved: {S1: {secured: yes, marked: yes}, K1: {within-reach: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ lacking, standing, facts }) =>
    `${lacking} of ${standing} standing devices ${lacking === 1 ? 'has' : 'have'} facts not recorded: ${facts.join(', ')}.`,
  *check(view) {
    const standing = [...standingDevices(view).values()]
    const lacking = standing
      .map((device) => ({ device, facts: lackingOf(view, device) }))
      .filter(({ facts }) => facts.length > 0)
    if (lacking.length === 0) return
    const from = Math.min(...lacking.map(({ device }) => device.stand.from.day))
    const span = answeredFor(view, { from })
    if (!span) return
    const counts = factNames.map(
      (fact) => [fact, lacking.filter(({ facts }) => facts.includes(fact)).length] as const,
    )
    yield {
      args: {
        lacking: lacking.length,
        standing: standing.length,
        facts: counts.flatMap(([fact, count]) => (count > 0 ? [`${fact} (${count})`] : [])),
      },
      at: { file: view.site.file, path: ['areas'], onKey: true },
      related: lacking.slice(0, 3).map(({ device: { device, stand }, facts }) => ({
        place: { file: stand.from.visit.file, path: stand.from.path, onKey: true },
        says: `${device.id}: ${facts.join(', ')}`,
      })),
      ...span,
    }
  },
  failing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas: # expect: placement-not-recorded
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes}
  S2: {kind: snap-trap, area: kitchen}
`,
  passing: `
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
  S2: {kind: snap-trap, area: kitchen, secured: yes, marked-as: "#2"}
`,
})

/** What is asked of a device and was not said when it was last set or moved. */
function lackingOf(view: SiteView, { device, stand }: StandingDevice): Fact[] {
  const asked: Fact[] = []
  if (isRodentDevice(device)) asked.push('secured')
  // A mark goes along when a device is moved, so that having said it once is enough.
  if (isRodentDevice(device) && device.setFacts['marked-as'] === undefined && !device.stands.some(isMarked))
    asked.push('marked')
  if (meetsChildren({ device, area: view.areas.get(stand.area) })) asked.push('within-reach')
  if (device.kind === 'light-trap') asked.push('in-doorway', 'visible-outdoors')
  if (device.kind === 'glue-board') asked.push('above-food')
  return asked.filter((fact) => stand.facts[fact satisfies keyof DeviceMoved] === undefined)
}

function isMarked({ facts }: StandingDevice['stand']): boolean {
  return facts.marked === 'yes'
}
