import type { Rule } from '../rule.js'
import { baitWithinReach } from './bait-within-reach.js'
import { labelIntervalTooShort } from './label-interval-too-short.js'
import { labelRateExceeded } from './label-rate-exceeded.js'
import { labelYearlyLimitExceeded } from './label-yearly-limit-exceeded.js'
import { methodNotOnLabel } from './method-not-on-label.js'
import { pestNotOnLabel } from './pest-not-on-label.js'
import { placeNotOnLabel } from './place-not-on-label.js'
import { spotTooLarge } from './spot-too-large.js'
import { weightRateOfALiquid } from './weight-rate-of-a-liquid.js'

export const labelUseRules: readonly Rule[] = [
  placeNotOnLabel,
  pestNotOnLabel,
  methodNotOnLabel,
  labelRateExceeded,
  labelIntervalTooShort,
  labelYearlyLimitExceeded,
  spotTooLarge,
  weightRateOfALiquid,
  baitWithinReach,
]
