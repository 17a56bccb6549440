import type { ThingDone } from '../ledger/things-done.js'
import { isoOf } from '../measure/calendar.js'
import type { NoPooledReason } from '../measure/pooled-effect.js'
import type { Basis, EffectReason } from './effect-judge.js'
import { fewestAnimals } from './effect-judge.js'
import type { Measured } from './measured.js'

/** A reason in few words, for where there is no room. */
export const reasonInShort: Readonly<Record<EffectReason | NoPooledReason, string>> = {
  'interval-below-no-change': 'surely lower',
  'interval-above-no-change': 'surely higher',
  'interval-tight-around-no-change': 'surely alike',
  'interval-includes-no-change': 'may be chance',
  'not-significant-among-all': 'one of many',
  'too-few-animals': 'too few caught',
  'none-caught': 'none caught',
  'no-readings-before': 'no reading before',
  'no-readings-after': 'no reading after',
  'no-effort-before': 'no reading before',
  'no-effort-after': 'no reading after',
  'no-shared-device': 'other traps before',
  'too-few-readings': 'too few readings',
  'too-few-events': 'too few cases',
  'not-a-count': 'a count is no number',
  'out-of-range': 'beyond computing',
}

export const reasonInWords: Readonly<Record<EffectReason | NoPooledReason, string>> = {
  'interval-below-no-change': 'the whole interval is below no change',
  'interval-above-no-change': 'the whole interval is above no change',
  'interval-tight-around-no-change': 'the interval is tight around no change',
  'interval-includes-no-change': 'the interval includes no change',
  'not-significant-among-all': 'not sure enough among so many comparisons',
  'too-few-animals': `fewer than ${fewestAnimals} animals caught on both sides together`,
  'none-caught': 'nothing was caught before or after',
  'no-readings-before': 'no trap reading lies wholly in the days before',
  'no-readings-after': 'no trap reading lies wholly in the days after',
  'no-effort-before': 'no trap reading lies wholly in the days before',
  'no-effort-after': 'no trap reading lies wholly in the days after',
  'no-shared-device': 'no trap was read both before and after',
  'too-few-readings': 'too few readings to know how catches clump',
  'too-few-events': 'fewer than three cases with a catch and with the reading that led to them left out',
  'not-a-count': 'a count is not a number that can be computed with',
  'out-of-range': 'the numbers are beyond what can be computed',
}

export const methodOf: Readonly<Record<Basis, string>> = {
  before:
    'rate after over rate before; exact conditional interval (Przyborowski & Wilenski 1940), counts divided by their dispersion',
  untreated:
    'change of the rate over its change in untreated areas; exact conditional odds ratio (Fisher 1935, Cornfield 1956), counts divided by their dispersion',
}

export const pooledMethod =
  'Mantel & Haenszel 1959, the wider of Fieller 1954 between cases and the exact conditional interval, counts divided by their dispersion'

/** `bait 2026-04-28 (2026-04-28-okafor)`. */
export function thingInWords({ tactic, day, id }: ThingDone): string {
  return `${tactic} ${isoOf(day)} (${id})`
}

/** `0.25 (0.11 to 0.43)`; a limit so high that its figures mean nothing is told as being over it. */
export function timesInWords({ value, low, high }: Measured): string {
  const words = (number: number) =>
    number > mostTimes ? `over ${mostTimes}` : number.toFixed(number >= 10 ? 0 : 2)
  const interval =
    high !== null
      ? `${words(low ?? 0)} to ${words(high)}`
      : low !== null && low >= 0.01
        ? `${words(low)} or more`
        : 'anything'
  return value === null ? interval : `${words(value)} (${interval})`
}

const mostTimes = 100
