import type {
  IdentificationForm,
  IdentificationTable,
  MeasuredFeature,
  WordFeature,
} from '../records/identification.js'
import { identificationTable, measuredFeatures, wordFeatures } from '../records/identification.js'

/** What was seen of an animal or of its traces. Lengths in millimetres; several words of a feature all hold. */
export interface Seen {
  readonly measured: Readonly<Partial<Record<MeasuredFeature, number>>>
  readonly words: Readonly<Partial<Record<WordFeature, readonly string[]>>>
}

/** One thing seen, held against one form of a pest, in words and with the source of what it was held against. */
export interface Held {
  readonly feature: MeasuredFeature | WordFeature
  readonly says: string
  readonly sources: readonly string[]
}

export interface Candidate {
  readonly id: string
  readonly form: IdentificationForm
  readonly fits: readonly Held[]
  readonly against: readonly Held[]
  /** Things seen of which nothing is known for this form. */
  readonly unsaid: readonly (MeasuredFeature | WordFeature)[]
}

type Outcome = { readonly is: 'fits' | 'against'; readonly held: Held } | undefined

/** A form of a pest held against everything that was seen. */
export function compare(id: string, form: IdentificationForm, seen: Seen): Candidate {
  const fits: Held[] = []
  const against: Held[] = []
  const unsaid: (MeasuredFeature | WordFeature)[] = []
  const take = (feature: MeasuredFeature | WordFeature, outcome: Outcome) => {
    if (!outcome) unsaid.push(feature)
    else (outcome.is === 'fits' ? fits : against).push(outcome.held)
  }
  for (const feature of measuredFeatures) {
    const millimetres = seen.measured[feature]
    if (millimetres !== undefined) take(feature, holdLength(form, feature, millimetres))
  }
  for (const feature of wordFeatures)
    for (const word of seen.words[feature] ?? [])
      take(feature, holdWord(form, feature, word, identificationTable()))
  return { id, form, fits, against, unsaid }
}

/** Fits within any range that is stated, ends included. A young animal can be shorter than any range of adults. */
function holdLength(form: IdentificationForm, feature: MeasuredFeature, millimetres: number): Outcome {
  const stated = form.says.flatMap((statement) => {
    const range = statement[feature]
    return range ? [{ low: range[0], high: range[1], source: statement.source }] : []
  })
  if (stated.length === 0) return undefined
  const within = stated.filter(({ low, high }) => low <= millimetres && millimetres <= high)
  const told = within.length > 0 ? within : stated
  const ranges = told
    .map(({ low, high }) => (low === high ? tenths(low) : `${tenths(low)} to ${tenths(high)}`))
    .join(' or ')
  const what = lengthNames[feature]
  const sources = told.map(({ source }) => source)
  if (within.length > 0)
    return { is: 'fits', held: { feature, says: `${what} within ${ranges} mm`, sources } }
  const isShorter = stated.every(({ low }) => millimetres < low)
  return {
    is: 'against',
    held: {
      feature,
      says: `${what} ${isShorter ? 'below' : 'above'} ${ranges} mm${isShorter && feature === 'length' ? ', as young ones are' : ''}`,
      sources,
    },
  }
}

const tenths = (millimetres: number) => String(Number(millimetres.toFixed(1)))

/** Lengths as a sentence names them. */
export const lengthNames: Record<MeasuredFeature, string> = {
  length: 'length',
  'length-with-tail': 'length with the tail',
  'length-without-tail': 'length without the tail',
  droppings: 'droppings',
  'egg-case': 'egg case',
}

function holdWord(
  form: IdentificationForm,
  feature: WordFeature,
  word: string,
  table: IdentificationTable,
): Outcome {
  const stated = form.says.filter((statement) => statement[feature] !== undefined)
  const telling = stated.filter((statement) => statement[feature]?.includes(word))
  const words = table.words[feature].are
  const sourcesOf = (statements: typeof stated) => statements.map(({ source }) => source)
  if (telling.length > 0)
    return {
      is: 'fits',
      held: { feature, says: `${feature}: ${words[word] ?? word}`, sources: sourcesOf(telling) },
    }
  if (stated.length === 0 || table.words[feature].excludes === undefined) return undefined
  const known = [...new Set(stated.flatMap((statement) => statement[feature] ?? []))]
  return {
    is: 'against',
    held: {
      feature,
      says: `${feature}: ${known.map((one) => words[one] ?? one).join(' or ')}`,
      sources: sourcesOf(stated),
    },
  }
}
