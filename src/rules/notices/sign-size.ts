import type { Quantity } from '../../measure/quantities.js'
import { compareQuantities, parseQuantity } from '../../measure/quantities.js'
import type { Outcome } from './outcome.js'

/** Whether a sign is at least as large as asked, both sides, whichever way it hangs; compared exactly. */
export function sizeShown(size: string | undefined, asked: string): Outcome {
  const least = sidesOf(asked)
  if (!least) return 'shown'
  const sides = size === undefined ? null : sidesOf(size)
  if (!sides) return 'not recorded'
  const isEnough = (side: Quantity, wanted: Quantity) => compareQuantities(side, wanted) !== -1
  return isEnough(sides.long, least.long) && isEnough(sides.short, least.short) ? 'shown' : 'not shown'
}

function sidesOf(text: string): { long: Quantity; short: Quantity } | null {
  const match = /^(\S+) x (\S+) (in|cm)$/.exec(text)
  const [first, second] = [
    parseQuantity(`${match?.[1]} ${match?.[3]}`),
    parseQuantity(`${match?.[2]} ${match?.[3]}`),
  ]
  if (!first || !second) return null
  return compareQuantities(first, second) === -1
    ? { long: second, short: first }
    : { long: first, short: second }
}
