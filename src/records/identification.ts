import { z } from 'zod'
import { dataTable } from './data-table.js'

/** What can be told of an animal by a length in millimetres. A rodent's is of no use unless it says whether the tail is in it. */
export const measuredFeatures = [
  'length',
  'length-with-tail',
  'length-without-tail',
  'droppings',
  'egg-case',
] as const
export type MeasuredFeature = (typeof measuredFeatures)[number]

/** What can be told by a word; the words stand in the table. */
export const wordFeatures = [
  'colour',
  'marks',
  'wings',
  'waist',
  'antennae',
  'legs',
  'body',
  'ends',
  'tail',
  'ears',
  'fur',
  'nest',
  'tubes',
  'where',
  'when',
  'signs',
] as const
export type WordFeature = (typeof wordFeatures)[number]

const range = z.tuple([z.number().nonnegative(), z.number().positive()])

const statement = z.strictObject({
  ...(Object.fromEntries(measuredFeatures.map((feature) => [feature, range.optional()])) as Record<
    MeasuredFeature,
    z.ZodOptional<typeof range>
  >),
  ...(Object.fromEntries(
    wordFeatures.map((feature) => [feature, z.array(z.string()).min(1).optional()]),
  ) as Record<WordFeature, z.ZodOptional<z.ZodArray<z.ZodString>>>),
  source: z.string(),
})
export type IdentificationStatement = z.infer<typeof statement>

const form = z.strictObject({
  /** Id in pests.yaml. */
  pest: z.string(),
  form: z.enum(['adult', 'worker', 'swarmer', 'queen', 'nymph', 'larva', 'animal']),
  says: z.array(statement).min(1),
  notes: z.array(z.strictObject({ says: z.string(), source: z.string() })).optional(),
  /** Why a specimen goes to someone who knows, even where the rest fits. */
  specimen: z.string().optional(),
})
export type IdentificationForm = z.infer<typeof form>

const words = z.strictObject({
  asks: z.string(),
  /** A row that says otherwise does not fit. */
  excludes: z.literal('yes').optional(),
  are: z.record(z.string(), z.string()),
})

const schema = z.strictObject({
  words: z.strictObject(
    Object.fromEntries(wordFeatures.map((feature) => [feature, words])) as Record<WordFeature, typeof words>,
  ),
  forms: z.record(z.string(), form),
})
export type IdentificationTable = z.infer<typeof schema>

/** How pests are told apart, with the source of every statement. */
export const identificationTable = dataTable('identification.yaml', schema)
