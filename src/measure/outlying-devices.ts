import { benjaminiHochberg } from './false-discovery.js'
import { isCount, isExposure } from './poisson-rate.js'
import { betaKernel, gammaQuantileLower } from './special-functions.js'

/** One device: its room or floor, what it caught in all, and its effort (trap-nights, one unit for all). */
export interface ComparedDevice {
  group: string
  count: number
  effort: number
}

/** Why a device could not be held against the others of its group. */
export type NotComparedReason = 'not-a-count' | 'no-effort' | 'too-few-devices' | 'none-caught'

export type DeviceComparison =
  | { compared: false; reason: NotComparedReason }
  | {
      compared: true
      /** What it would have caught at the rate of the others. */
      expected: number
      /** Its rate over that of the others; null when they caught nothing. */
      ratio: number | null
      /** Variance over mean of what it would catch at the rate of the others, as used: never below 1. */
      dispersion: number
      /** Chance of as much or more, one-sided, for this device alone; 1 when it caught no more than expected. */
      p: number
      /** Adjusted over all devices compared, in all groups (Benjamini & Hochberg 1995). */
      adjustedP: number
      outlying: boolean
    }

export interface OutlyingSettings {
  /** Largest adjusted p of a device that is called outlying. */
  significance: number
  /** Fewest devices with effort in a group, the one judged among them. */
  fewestDevices: number
}

export const outlyingSettings: Readonly<OutlyingSettings> = { significance: 0.05, fewestDevices: 5 }

/** The dispersion is taken as large as nine in ten such estimates would allow. */
const DISPERSION_TAIL = 0.1
/** Dispersion this little above 1 is none. */
const NEARLY_NONE = 1e-6

function logBeta(a: number, b: number): number {
  const total = a + b
  return a * Math.log(a / total) + b * Math.log(b / total) - Math.log(betaKernel(a / total, b / total, a, b))
}

/**
 * P(`least` or more of `trials`) for the beta-binomial with the given parameters (Skellam JG 1948, J. R. Statist.
 * Soc. B 10:257–261): how animals fall to one device when each device's catch is negative binomial with one
 * dispersion and only their total is given. `least` above the mean.
 */
export function betaBinomialTail(least: number, trials: number, own: number, others: number): number {
  if (least <= 0) return 1
  if (least > trials) return 0
  const rest = trials - least
  const logChoose = -Math.log(trials + 1) - logBeta(least + 1, rest + 1)
  let term = Math.exp(logChoose + logBeta(least + own, rest + others) - logBeta(own, others))
  let sum = term
  for (let i = least; i < trials; i += 1) {
    const ratio = ((trials - i) * (i + own)) / ((i + 1) * (trials - i - 1 + others))
    term *= ratio
    sum += term
    if (ratio < 1 && term < 1e-17 * sum * (1 - ratio)) break
  }
  return Math.min(1, sum)
}

interface Usable {
  at: number
  count: number
  effort: number
}

/** How far catches are spread about the rates of their groups. */
interface Spread {
  chiSquare: number
  degreesOfFreedom: number
  /** Σ(1 − h)μ, h being a device's share of its group's effort: what χ² grows by for each unit of clumping. */
  weight: number
}

const none: Spread = { chiSquare: 0, degreesOfFreedom: 0, weight: 0 }

const sumOf = (one: Spread, other: Spread, sign = 1): Spread => ({
  chiSquare: one.chiSquare + sign * other.chiSquare,
  degreesOfFreedom: one.degreesOfFreedom + sign * other.degreesOfFreedom,
  weight: one.weight + sign * other.weight,
})

/** Pearson's χ² of devices about their common rate; nothing is learnt where nothing was caught. */
function spreadOf(devices: readonly Usable[]): Spread {
  let [count, effort] = [0, 0]
  for (const one of devices) {
    count += one.count
    effort += one.effort
  }
  if (count === 0) return none
  let [chiSquare, weight] = [0, 0]
  for (const one of devices) {
    const share = one.effort / effort
    const mean = count * share
    chiSquare += (one.count - mean) ** 2 / mean
    weight += (1 - share) * mean
  }
  return { chiSquare, degreesOfFreedom: devices.length - 1, weight }
}

/**
 * χ² over the lower tenth of its distribution instead of over its mean, as large as the dispersion may well be: leaving
 * out the highest device makes the rest look calm.
 */
function dispersionOf({ chiSquare, degreesOfFreedom }: Spread): number {
  if (degreesOfFreedom < 1) return 1
  return Math.max(1, chiSquare / (2 * gammaQuantileLower(degreesOfFreedom / 2, DISPERSION_TAIL)))
}

/** The 1/k of: variance = mean + mean²/k. By moments (Breslow NE 1984, Appl. Statist. 33:38–44, first step). */
function clumpingOf(spread: Spread): number {
  if (!(spread.weight > 0)) return 0
  return ((dispersionOf(spread) - 1) * spread.degreesOfFreedom) / spread.weight
}

function compare(one: Usable, group: readonly Usable[], elsewhere: Spread) {
  const others = group.filter((other) => other !== one)
  let [count, effort, squares] = [0, 0, 0]
  for (const other of others) {
    count += other.count
    effort += other.effort
    squares += other.effort ** 2
  }
  const expected = (count * one.effort) / effort
  const ratio = count === 0 ? null : one.count / expected
  // With none among the others, half an animal stands for the rate they may have had.
  const rate = Math.max(count / effort, 0.5 / (effort + one.effort))
  const amongOthers = spreadOf(others)
  // A device that stood longer than the others clumps more than they do.
  const longer = Math.max(1, (one.effort * effort) / squares)
  // A few devices seldom show how much they clump, least of all where they caught nothing: all groups together do.
  const asElsewhere = clumpingOf(sumOf(elsewhere, amongOthers)) * rate * one.effort
  const dispersion = 1 + Math.max((dispersionOf(amongOthers) - 1) * longer, asElsewhere)
  if (one.count <= expected) return { expected, ratio, dispersion, p: 1 }
  const perRate = rate / Math.max(dispersion - 1, NEARLY_NONE)
  const p = betaBinomialTail(one.count, one.count + count, perRate * one.effort, perRate * effort)
  return { expected, ratio, dispersion, p }
}

/**
 * Devices that caught far more than the others of their room or floor. Each is held against the rate of the
 * others, given what the group caught in all (the exact conditional comparison of Przyborowski & Wilenski 1940,
 * with the beta-binomial of Skellam 1948 in place of the binomial, because catches clump), one-sided; p is
 * adjusted over all devices of all groups (Benjamini & Hochberg 1995). They clump as much as the others of the group
 * show, or as all groups given show together where that is more: among many groups of a few devices some look calm by
 * chance, and one high catch there would pass for an outlier. How often it is wrong, and what it finds, is measured
 * in README.md.
 *
 * One entry a device, in the order given. Not compared, with the reason: a count that is no whole number from
 * zero up, no effort, fewer than five devices with effort in the group, nothing caught in the group.
 */
export function outlyingDevices(
  devices: readonly ComparedDevice[],
  options: Partial<OutlyingSettings> = {},
): DeviceComparison[] {
  const settings = { ...outlyingSettings, ...options }
  const groups = new Map<string, Usable[]>()
  const results: (DeviceComparison | null)[] = devices.map(() => null)
  devices.forEach(({ group, count, effort }, at) => {
    if (!isCount(count)) results[at] = { compared: false, reason: 'not-a-count' }
    else if (!isExposure(effort)) results[at] = { compared: false, reason: 'no-effort' }
    else groups.set(group, [...(groups.get(group) ?? []), { at, count, effort }])
  })
  const found: (ReturnType<typeof compare> | null)[] = devices.map(() => null)
  const everywhere = [...groups.values()].map(spreadOf).reduce((sum, one) => sumOf(sum, one), none)
  for (const group of groups.values()) {
    const elsewhere = sumOf(everywhere, spreadOf(group), -1)
    const caught = group.some(({ count }) => count > 0)
    const reason = group.length < Math.max(3, settings.fewestDevices) ? 'too-few-devices' : 'none-caught'
    const comparable = reason === 'none-caught' && caught
    for (const one of group) {
      if (comparable) found[one.at] = compare(one, group, elsewhere)
      else results[one.at] = { compared: false, reason }
    }
  }
  const adjusted = benjaminiHochberg(found.map((one) => one?.p ?? null))
  return results.map((result, at) => {
    const one = found[at]
    if (result !== null) return result
    if (one === null || one === undefined) return { compared: false, reason: 'none-caught' }
    const adjustedP = adjusted[at] ?? 1
    return { compared: true, ...one, adjustedP, outlying: adjustedP <= settings.significance }
  })
}
