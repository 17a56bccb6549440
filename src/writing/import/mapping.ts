import { z } from 'zod'
import { text } from '../../records/fields.js'

/**
 * A mapping says what the columns of one file mean. Nothing about a file is guessed: not its dates, not its numbers, not
 * its letters. It is a small YAML file that is kept beside the files it is for; it is no record.
 */

/** A column by its name in the header, or one value for every row; and names used there for those of the ledger. */
const valueFrom = z.union([
  text('Column, as the header names it', 'Trap'),
  z.strictObject({
    column: text('Column, as the header names it', 'Trap').optional(),
    always: text('One value for every row', 'okafor').optional(),
    names: z
      .record(z.string(), z.string())
      .meta({ description: 'Words of the column, and what each of them is in the ledger' })
      .optional(),
  }),
])

const dateFrom = z.union([
  text('Column, with dates as 2026-03-12', 'Date'),
  z.strictObject({
    column: text('Column, as the header names it', 'Date'),
    format: text('How its dates are written: YYYY, YY, MM, M, DD, D, HH, mm, ss', 'MM/DD/YYYY'),
  }),
])

export const encodings = ['utf-8', 'latin-1', 'windows-1252'] as const
export type Encoding = (typeof encodings)[number]
export const delimiters = [',', ';', 'tab', '|'] as const
export type Delimiter = (typeof delimiters)[number]

const ofEveryFile = {
  delimiter: z.enum(delimiters).meta({ description: 'What stands between cells; a comma' }).optional(),
  encoding: z.enum(encodings).meta({ description: 'How its letters are written; UTF-8' }).optional(),
  decimal: z.enum(['.', ',']).meta({ description: 'The mark before decimals, if it has them' }).optional(),
  date: dateFrom.optional(),
  site: valueFrom.optional(),
  by: valueFrom.optional(),
  'entered-by': valueFrom.optional(),
  'on-paper': dateFrom.optional(),
} as const

const stages = z.record(z.string(), text('Column of a life stage', 'Nymphs'))

export const countsMapping = z.strictObject({
  ...ofEveryFile,
  purpose: z.enum(['trap-check', 'routine', 'callback', 'follow-up']).optional(),
  counts: z
    .enum(['on the device', 'new since the last look'])
    .meta({ description: 'What a count of the file means; what is on the device, as in the ledger' })
    .optional(),
  'empty-count': z
    .enum(['zero', 'not looked at'])
    .meta({ description: 'What an empty cell of a count means; nothing, so that it is refused' })
    .optional(),
  device: valueFrom.optional(),
  pest: valueFrom.optional(),
  stage: valueFrom.optional(),
  count: valueFrom.optional(),
  pests: z
    .record(z.string(), z.union([text('Column of a pest', 'Roaches'), stages]))
    .meta({
      description: 'Instead of pest and count: one column for each pest, or for each of its life stages',
    })
    .optional(),
  none: valueFrom.optional(),
  renewed: valueFrom.optional(),
  reset: valueFrom.optional(),
  unusable: valueFrom.optional(),
  'no-access': valueFrom.optional(),
  sprung: valueFrom.optional(),
  'sprung-empty': valueFrom.optional(),
  'sprung-other-animal': valueFrom.optional(),
  'bait-taken': valueFrom.optional(),
  'bait-added': valueFrom.optional(),
  'bait-unit': valueFrom.optional(),
  product: valueFrom.optional(),
  lot: valueFrom.optional(),
  tracks: valueFrom.optional(),
  active: valueFrom.optional(),
  block: valueFrom.optional(),
  lamp: dateFrom.optional(),
  other: valueFrom.optional(),
  'other-count': valueFrom.optional(),
  'after-flush': valueFrom.optional(),
  note: valueFrom.optional(),
})

export const complaintsMapping = z.strictObject({
  ...ofEveryFile,
  word: valueFrom.optional(),
  from: valueFrom.optional(),
  at: valueFrom.optional(),
  area: valueFrom.optional(),
  pest: valueFrom.optional(),
  other: valueFrom.optional(),
  says: valueFrom.optional(),
  withdrawn: valueFrom.optional(),
  notes: valueFrom.optional(),
})

export const repairsMapping = z.strictObject({
  ...ofEveryFile,
  word: valueFrom.optional(),
  mends: valueFrom.optional(),
  done: valueFrom.optional(),
  area: valueFrom.optional(),
  owner: valueFrom.optional(),
  order: valueFrom.optional(),
  cost: valueFrom.optional(),
  opening: valueFrom.optional(),
  notes: valueFrom.optional(),
})

export type ValueFrom = z.infer<typeof valueFrom>
export type DateFrom = z.infer<typeof dateFrom>
export type CountsMapping = z.infer<typeof countsMapping>
export type ComplaintsMapping = z.infer<typeof complaintsMapping>
export type RepairsMapping = z.infer<typeof repairsMapping>
export type ImportKind = 'counts' | 'complaints' | 'repairs'

export const mappings = {
  counts: countsMapping,
  complaints: complaintsMapping,
  repairs: repairsMapping,
} as const
export type MappingOf<K extends ImportKind> = z.infer<(typeof mappings)[K]>
