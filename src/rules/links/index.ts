import type { Rule } from '../rule.js'
import { ambiguousCondition } from './ambiguous-condition.js'
import { clockTimeAmbiguous } from './clock-time-ambiguous.js'
import { clockTimeNotThere } from './clock-time-not-there.js'
import { conditionState } from './condition-state.js'
import { danglingReference } from './dangling-reference.js'
import { duplicateId } from './duplicate-id.js'
import { endsBeforeItStarts } from './ends-before-it-starts.js'
import { inTwoPlaces } from './in-two-places.js'
import { leftToFillIn } from './left-to-fill-in.js'
import { nameAndContentDisagree } from './name-and-content-disagree.js'
import { sightingNamesNoPest } from './sighting-names-no-pest.js'
import { unknownPest } from './unknown-pest.js'
import { unknownTimeZone } from './unknown-time-zone.js'

export const linksRules: readonly Rule[] = [
  danglingReference,
  unknownPest,
  duplicateId,
  nameAndContentDisagree,
  endsBeforeItStarts,
  clockTimeNotThere,
  clockTimeAmbiguous,
  unknownTimeZone,
  inTwoPlaces,
  ambiguousCondition,
  conditionState,
  sightingNamesNoPest,
  leftToFillIn,
]
