import type { Quantity } from '../../measure/quantities.js'
import { convert, parseQuantity } from '../../measure/quantities.js'
import type { RecordOf } from '../../records/kinds.js'
import type { StandingDevice } from './standing-devices.js'

type SiteRecord = RecordOf<'site'>
export type Run = NonNullable<SiteRecord['runs']>[string]

/**
 * How far apart two devices of a run stand, given as places in its list: along the wall where the run states every
 * distance between them, else straight across the diagram, which is never longer. Undefined when neither is known.
 */
export function distanceBetween(
  site: SiteRecord,
  run: Run,
  first: readonly [number, StandingDevice],
  second: readonly [number, StandingDevice],
): Quantity | undefined {
  return (
    alongTheWall(run, first[0], second[0]) ??
    (onOneFloor(site, first[1], second[1]) ? acrossTheDiagram(site, first[1], second[1]) : undefined)
  )
}

function alongTheWall(run: Run, first: number, second: number): Quantity | undefined {
  let sum: Quantity | undefined
  for (let at = first; at < second; at++) {
    const piece = parseQuantity(run.spacing?.[at] ?? '')
    if (!piece) return undefined
    const converted = convert(piece, sum?.unit ?? piece.unit)
    if (!converted) return undefined
    sum = { ...converted, value: rounded((sum?.value ?? 0) + converted.value) }
  }
  return sum
}

/** In one area, or in areas whose floor is stated and the same. */
function onOneFloor(site: SiteRecord, first: StandingDevice, second: StandingDevice): boolean {
  if (first.stand.area === second.stand.area) return true
  const floor = site.areas[first.stand.area]?.floor
  return floor !== undefined && floor === site.areas[second.stand.area]?.floor
}

function acrossTheDiagram(
  site: SiteRecord,
  first: StandingDevice,
  second: StandingDevice,
): Quantity | undefined {
  const [a, b] = [first.stand.facts.at, second.stand.facts.at]
  if (!site.diagram || !a || !b) return undefined
  return {
    value: rounded(Math.hypot(a[0] - b[0], a[1] - b[1])),
    unit: site.diagram.unit,
    dimension: 'length',
  }
}

/** To a millionth, so that 7.2 ft and 7.8 ft are 15 ft. */
function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6
}
