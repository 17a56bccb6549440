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
      /** Variance over mean among the others, as used: never below 1. */
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

/**
 * Pearson's dispersion of the others about their rate, as large as it may well be: χ² over the lower tenth of its
 * distribution instead of over its mean, since leaving out the highest device makes the rest look calm.
 */
function dispersionAmong(others: readonly Usable[], count: number, effort: number): number {
  if (count === 0) return 1
  let chiSquare = 0
  for (const one of others) {
    const mean = (count * one.effort) / effort
    chiSquare += (one.count - mean) ** 2 / mean
  }
  const degreesOfFreedom = others.length - 1
  return Math.max(1, chiSquare / (2 * gammaQuantileLower(degreesOfFreedom / 2, DISPERSION_TAIL)))
}

function compare(one: Usable, group: readonly Usable[]) {
  const others = group.filter((other) => other !== one)
  let [count, effort, squares] = [0, 0, 0]
  for (const other of others) {
    count += other.count
    effort += other.effort
    squares += other.effort ** 2
  }
  const expected = (count * one.effort) / effort
  // A device that stood longer than the others clumps more than they do.
  const longer = Math.max(1, (one.effort * effort) / squares)
  const dispersion = 1 + (dispersionAmong(others, count, effort) - 1) * longer
  const ratio = count === 0 ? null : one.count / expected
  if (one.count <= expected) return { expected, ratio, dispersion, p: 1 }
  // With none among the others, half an animal stands for the rate they may have had.
  const rate = Math.max(count / effort, 0.5 / (effort + one.effort))
  const perRate = rate / Math.max(dispersion - 1, NEARLY_NONE)
  const p = betaBinomialTail(one.count, one.count + count, perRate * one.effort, perRate * effort)
  return { expected, ratio, dispersion, p }
}

/**
 * Devices that caught far more than the others of their room or floor. Each is held against the rate of the
 * others, given what the group caught in all (the exact conditional comparison of Przyborowski & Wilenski 1940,
 * with the beta-binomial of Skellam 1948 in place of the binomial, because catches clump), one-sided; p is
 * adjusted over all devices of all groups (Benjamini & Hochberg 1995). How often it is wrong, and what it finds,
 * is measured in README.md.
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
  for (const group of groups.values()) {
    const caught = group.some(({ count }) => count > 0)
    const reason = group.length < Math.max(3, settings.fewestDevices) ? 'too-few-devices' : 'none-caught'
    const comparable = reason === 'none-caught' && caught
    for (const one of group) {
      if (comparable) found[one.at] = compare(one, group)
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
