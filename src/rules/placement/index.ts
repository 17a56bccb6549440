import type { Rule } from '../rule.js'
import { deviceAboveFood } from './device-above-food.js'
import { lightTrapInDoorway } from './light-trap-in-doorway.js'
import { lightTrapSeenOutdoors } from './light-trap-seen-outdoors.js'
import { lightTrapTooHigh } from './light-trap-too-high.js'
import { placementNotRecorded } from './placement-not-recorded.js'
import { rodentDeviceNotMarked } from './rodent-device-not-marked.js'
import { rodentDeviceNotSecured } from './rodent-device-not-secured.js'
import { runSpacing } from './run-spacing.js'
import { trapWithinReach } from './trap-within-reach.js'

export const placementRules: readonly Rule[] = [
  rodentDeviceNotSecured,
  rodentDeviceNotMarked,
  trapWithinReach,
  lightTrapInDoorway,
  lightTrapSeenOutdoors,
  lightTrapTooHigh,
  deviceAboveFood,
  runSpacing,
  placementNotRecorded,
]
