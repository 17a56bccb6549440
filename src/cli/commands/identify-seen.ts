import { convert } from '../../measure/quantities.js'
import { identificationTable, measuredFeatures, wordFeatures } from '../../records/identification.js'
import { nearest } from '../../records/nearest.js'
import type { Seen } from '../../reports/identify-compare.js'
import { lengthOption } from '../length-option.js'
import { UsageError } from '../usage-error.js'

/** Longest animal anyone would measure here, in millimetres: a longer one is a slip of the unit. */
const longest = 1000

/** What was seen, from the options; undefined where nothing was said. */
export function seenIn(flags: Readonly<Record<string, unknown>>): Seen | undefined {
  const measured: Record<string, number> = {}
  for (const feature of measuredFeatures) {
    const text = flags[flagOf(feature)]
    if (text !== undefined) measured[feature] = millimetresOf(feature, String(text))
  }
  const words: Record<string, readonly string[]> = {}
  for (const feature of wordFeatures) {
    const said = flags[flagOf(feature)]
    if (said === undefined) continue
    const list = [...new Set([said].flat().flatMap((text) => String(text).split(',')))]
    words[feature] = list.map((word) => knownWord(feature, word.trim()))
  }
  return Object.keys(measured).length + Object.keys(words).length === 0 ? undefined : { measured, words }
}

/** As commander names an option. */
const flagOf = (feature: string) => feature.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())

function millimetresOf(feature: string, text: string): number {
  const millimetres =
    convert(lengthOption(`--${feature}`, text, '14 mm'), 'mm')?.value ?? Number.POSITIVE_INFINITY
  if (millimetres > longest)
    throw new UsageError(`--${feature} ${text} is longer than any pest here; is the unit right?`)
  return Number(millimetres.toPrecision(6))
}

function knownWord(feature: (typeof wordFeatures)[number], word: string): string {
  const known = Object.keys(identificationTable().words[feature].are)
  if (known.includes(word)) return word
  const meant = nearest(word, known)
  throw new UsageError(
    `--${feature} ${word}: the words are ${known.join(', ')}${meant === undefined ? '' : `; did you mean ${meant}?`}`,
  )
}
