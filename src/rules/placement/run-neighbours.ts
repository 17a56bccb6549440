import type { DeviceHistory } from '../../ledger/device-history.js'
import type { Quantity } from '../../measure/quantities.js'
import { compareQuantities, parseQuantity } from '../../measure/quantities.js'
import { isRodentDevice } from './placements.js'
import type { Run } from './run-distance.js'
import type { StandingDevice } from './standing-devices.js'

export type RodentKind = 'mice' | 'rats'

/** Pests by the distance that is asked for between devices against them. */
const pestsOf = {
  mice: new Set(['house-mouse', 'deer-mouse']),
  rats: new Set(['norway-rat', 'roof-rat', 'rat']),
} as const

/** Whether a device is set against mice or against rats. */
export function isAgainst(device: DeviceHistory, against: RodentKind): boolean {
  return isRodentDevice(device) && device.for.some((pest) => pestsOf[against].has(pest))
}

/** Two devices of a run with their places in its list, and nothing between them that stands and is for the same. */
export interface Pair {
  readonly first: readonly [number, StandingDevice]
  readonly second: readonly [number, StandingDevice]
}

/** Neighbours of a run that stand and are for the same, in order along the wall. */
export function* neighbours(
  run: Run,
  standing: ReadonlyMap<string, StandingDevice>,
  against: RodentKind,
): Iterable<Pair> {
  let first: Pair['first'] | undefined
  for (const [at, id] of run.devices.entries()) {
    const here = standing.get(id)
    if (!here || !isAgainst(here.device, against)) continue
    const second = [at, here] as const
    if (first && first[1] !== here) yield { first, second }
    first = second
  }
}

/** The most that may lie between neighbours: what the parameters ask, the stricter of them last. */
export const spacingParameters: Readonly<Record<RodentKind, readonly string[]>> = {
  mice: ['run.mouse-spacing'],
  rats: ['run.rat-spacing-limit', 'run.rat-spacing'],
}

export function isBeyond(distance: Quantity, limit: string): boolean {
  const most = parseQuantity(limit)
  return most !== null && compareQuantities(distance, most) === 1
}
