import type { Rule } from '../rule.js'
import { countFell } from './count-fell.js'
import { deviceAreaNotThere } from './device-area-not-there.js'
import { deviceNotStanding } from './device-not-standing.js'
import { deviceReadOutsideItsLife } from './device-read-outside-its-life.js'
import { readingDoesNotFit } from './reading-does-not-fit.js'
import { sprungMoreThanTraps } from './sprung-more-than-traps.js'

export const devicesRules: readonly Rule[] = [
  deviceReadOutsideItsLife,
  deviceNotStanding,
  countFell,
  readingDoesNotFit,
  sprungMoreThanTraps,
  deviceAreaNotThere,
]
