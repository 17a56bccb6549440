import type { Rule } from '../rule.js'
import { effectNotLookedAt } from './effect-not-looked-at.js'
import { milderProductOnRegister } from './milder-product-on-register.js'
import { needNotShown } from './need-not-shown.js'
import { nothingTriedFirst } from './nothing-tried-first.js'
import { pestNotIdentified } from './pest-not-identified.js'
import { repellentNearBait } from './repellent-near-bait.js'
import { repellentOnPharaohAnts } from './repellent-on-pharaoh-ants.js'
import { sameModeOfAction } from './same-mode-of-action.js'
import { sprayedWidelyIndoors } from './sprayed-widely-indoors.js'

export const needRules: readonly Rule[] = [
  pestNotIdentified,
  needNotShown,
  nothingTriedFirst,
  effectNotLookedAt,
  sameModeOfAction,
  milderProductOnRegister,
  repellentNearBait,
  repellentOnPharaohAnts,
  sprayedWidelyIndoors,
]
