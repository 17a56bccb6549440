import type { Rule } from '../rule.js'
import { dateInFuture } from './date-in-future.js'
import { duplicateKey } from './duplicate-key.js'
import { impossibleCount } from './impossible-count.js'
import { impossibleDate } from './impossible-date.js'
import { notPlainYaml } from './not-plain-yaml.js'
import { shape } from './shape.js'
import { strayFile } from './stray-file.js'
import { textYamlChanges } from './text-yaml-changes.js'
import { unknownKey } from './unknown-key.js'
import { unreadableFile } from './unreadable-file.js'

export const readingRules: readonly Rule[] = [
  unreadableFile,
  notPlainYaml,
  duplicateKey,
  textYamlChanges,
  unknownKey,
  shape,
  impossibleCount,
  impossibleDate,
  strayFile,
  dateInFuture,
]
