import { z } from 'zod'
import { areaKinds } from './area-kinds.js'
import {
  about,
  date,
  file,
  keyed,
  name,
  oneOf,
  quantity,
  reference,
  sha256,
  spanFields,
  text,
  yes,
  yesNo,
} from './fields.js'
import { pestGroups } from './pest-groups.js'
import { amountUnits, areaUnits, intervalUnits, lengthUnits, shortTimeUnits, spaceUnits } from './units.js'
import { methods } from './use-words.js'

export const ratePer = [
  ...areaUnits.map((unit) => `1 ${unit}`),
  '1000 ft2',
  ...spaceUnits.map((unit) => (unit.startsWith('1000') ? unit : `1 ${unit}`)),
  ...lengthUnits.map((unit) => `1 ${unit}`),
  'placement',
  'station',
  'area',
  'application',
] as const satisfies readonly string[]

const rate = z
  .strictObject({
    'at-most': quantity(amountUnits, 'The most undiluted product the label allows', '1 fl oz'),
    per: about(
      z.enum(ratePer as unknown as readonly [string, ...string[]]),
      'On what: an extent, a room volume, a placement, an area, one application',
      '1000 ft2',
    ),
    methods: z
      .array(oneOf(methods, 'Method'))
      .min(1)
      .meta({ description: 'Methods the rate is for; all if not said' })
      .optional(),
  })
  .meta({ description: 'A limit of the label on how much is used' })

/** What a label says, in data. Nothing here replaces the label; what is left out cannot be judged. */
const labelFacts = z
  .strictObject({
    places: z
      .array(oneOf(['indoors', 'outdoors', ...areaKinds] as const, 'Where'))
      .min(1)
      .meta({ description: 'Where it may be used: indoors, outdoors, or kinds of area' })
      .optional(),
    'not-in': z
      .array(oneOf(areaKinds, 'Kind of area'))
      .min(1)
      .meta({ description: 'Kinds of area where it may not be used' })
      .optional(),
    pests: z
      .array(reference('pest', 'Pest', 'german-cockroach'))
      .min(1)
      .meta({ description: 'Pests it names' })
      .optional(),
    'pest-groups': z
      .array(oneOf(pestGroups, 'Group of pests'))
      .min(1)
      .meta({ description: 'Groups of pests it names as a whole, such as cockroaches' })
      .optional(),
    methods: z
      .array(oneOf(methods, 'Method'))
      .min(1)
      .meta({ description: 'How it may be applied' })
      .optional(),
    rates: keyed(name('Short name of the limit', 'cracks'), rate, 'Limits on how much is used').optional(),
    'spot-at-most': quantity(
      areaUnits,
      'The largest spot, where the label gives its own figure',
      '2 ft2',
    ).optional(),
    interval: quantity(intervalUnits, 'Shortest time between two applications', '14 days').optional(),
    'applications-a-year': about(z.int().min(1), 'Most applications in twelve months', 4).optional(),
    'amount-a-year': quantity(
      amountUnits,
      'Most undiluted product in twelve months on one site',
      '12 fl oz',
    ).optional(),
    'keep-out': quantity(shortTimeUnits, 'Re-entry time, where the label gives a number', '4 h').optional(),
    'keep-out-until-dry': yes('The label says to keep out until dry or settled').optional(),
    ventilate: quantity(shortTimeUnits, 'How long to ventilate before people come back', '2 h').optional(),
    'with-people-present': yesNo(
      'Whether it may be applied while people other than the applicator are in the area',
    ).optional(),
    'out-of-reach': yes(
      'It may be placed only out of reach of children, or in a tamper-resistant station',
    ).optional(),
  })
  .meta({
    description:
      'What the label says, in data, so that applications can be held against it; the printed label decides',
  })

export const label = z.strictObject({
  ...spanFields,
  file: file('The label, beside product.yaml', 'label-2024-03.pdf'),
  sha256: sha256().optional(),
  revision: text('Revision mark printed on the label', 'rev. 03/24').optional(),
  says: labelFacts.optional(),
})

const sdsSections = about(z.int().min(1).max(16), 'Number of a section heading found on the sheet', 1)

export const safetyDataSheet = z.strictObject({
  ...spanFields,
  file: file('The safety data sheet, beside product.yaml', 'sds-2024-03.pdf'),
  sha256: sha256().optional(),
  revised: date('Revision date printed on the sheet').optional(),
  sections: z
    .array(sdsSections)
    .min(1)
    .meta({
      description: 'Section headings found on the sheet, of the sixteen of 29 CFR 1910.1200 Appendix D',
    })
    .optional(),
})
