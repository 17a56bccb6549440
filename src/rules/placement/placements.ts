import { answeredFor } from '../../ledger/answered-for.js'
import type { DeviceHistory, DeviceMoved, DeviceSet, Stand } from '../../ledger/device-history.js'
import type { Area, SiteView } from '../../ledger/site-view.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import { deviceTable, pestTable } from '../../records/tables.js'
import type { Args, Day } from '../../types.js'
import type { Finding } from '../rule.js'

/** One stay of a device at one place: what was recorded of it when it was set or moved there, and how long it held. */
export interface Placement {
  readonly device: DeviceHistory
  readonly facts: DeviceSet | DeviceMoved
  readonly area: Area | undefined
  readonly stand: Stand
  readonly from: Day
  readonly until?: Day
}

/** Every stay of every device of a site. A stay ends when the device is moved, taken up, or picked up and not put out. */
export function* placementsOf(view: SiteView): Iterable<Placement> {
  for (const device of view.devices) {
    for (const [at, stand] of device.stands.entries()) {
      const ends = device.stands[at + 1]?.from.day ?? device.takenUp?.day
      const out = device.out.findLast((span) => ends === undefined || span.from < ends)
      const span = answeredFor(view, { from: stand.from.day, until: earlier(ends, out?.until) })
      if (span) yield { device, facts: stand.facts, area: view.areas.get(stand.area), stand, ...span }
    }
  }
}

function earlier(a: Day | undefined, b: Day | undefined): Day | undefined {
  return a === undefined || b === undefined ? (a ?? b) : Math.min(a, b)
}

type PlacementFact = keyof DeviceMoved

/** A finding at one fact of a stay; it ends with the stay. */
export function findingAt<A extends Args>(
  { device, stand, from, until }: Placement,
  fact: PlacementFact,
  args: A,
): Finding<A> {
  return {
    args,
    at: { file: stand.from.visit.file, path: [...stand.from.path, fact] },
    from,
    ...(until === undefined ? {} : { until }),
    identity: [device.id],
  }
}

/** What every sentence of this family needs: which device, what it is, and where it stands. */
export type DeviceArgs = { readonly device: string; readonly kind: string; readonly area: string }

export function deviceArgs({ device, stand }: Placement): DeviceArgs {
  return { device: device.id, kind: deviceTable()[device.kind].name, area: stand.area }
}

/** A trap or station for rodents; a bait station only when it is for one, since some are for ants or cockroaches. */
export function isRodentDevice(device: DeviceHistory): boolean {
  if (deviceTable()[device.kind].rodent !== 'yes') return false
  return (
    device.kind !== 'bait-station' || device.for.some((pest) => pestTable().get(pest)?.group === 'rodent')
  )
}

/** Whether it must be recorded that children cannot reach it: a sticky trap out while they are, where they may be. */
export function meetsChildren({ device, area }: Pick<Placement, 'device' | 'area'>): boolean {
  return device.kind === 'sticky-trap' && isAmongChildren({ device, area })
}

/** Traps that hurt or hold whoever touches them. */
const harmful: ReadonlySet<DeviceKind> = new Set(['sticky-trap', 'snap-trap', 'glue-board'])

/** Whether a child who can reach it could be hurt or stuck. */
export function couldHurtChildren({ device, area }: Pick<Placement, 'device' | 'area'>): boolean {
  return harmful.has(device.kind) && isAmongChildren({ device, area })
}

function isAmongChildren({ device, area }: Pick<Placement, 'device' | 'area'>): boolean {
  return device.setFacts['while-pupils-away'] !== 'yes' && area !== undefined && area.facts.children !== 'no'
}
