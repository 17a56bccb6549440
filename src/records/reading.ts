import { z } from 'zod'
import { count, date, oneOf, openObject, quantity, reference, text, wholeNumber, yes } from './fields.js'
import { amountUnits } from './units.js'

const sprung = z
  .union([
    z.enum(['empty', 'other-animal']),
    z.strictObject({
      empty: wholeNumber('Traps of the set sprung with nothing in them', 1).optional(),
      'other-animal': wholeNumber('Traps of the set that caught something they are not for', 1).optional(),
    }),
  ])
  .meta({
    description: 'Snap trap found sprung without a catch of what it is for',
    examples: ['empty', { empty: 1 }],
  })

/** The facts a reading can hold beside its counts. */
const readingFields = {
  renewed: yes('New board, emptied, or fresh device: the next count starts from zero').optional(),
  reset: yes('Snap trap set again; the next count starts from zero').optional(),
  unusable: oneOf(
    ['missing', 'damaged', 'wet', 'full'],
    'Found so: the time since the last check cannot be counted',
  ).optional(),
  'no-access': text(
    'Why the device could not be reached; its interval runs on',
    'cabinet in front',
  ).optional(),
  sprung: sprung.optional(),
  'bait-taken': oneOf(['none', 'some', 'all', 'mouldy'], 'How much bait was gone').optional(),
  'bait-added': quantity(
    amountUnits,
    'Undiluted amount of bait put in; written here once, the application follows from it',
    '1 block',
  ).optional(),
  product: reference('product', 'Product put in', 'block-x').optional(),
  lot: text('Lot number on the container', 'L-2211').optional(),
  tracks: oneOf(['none', 'some', 'many'], 'Tracking patch: tracks in it').optional(),
  active: oneOf(['yes', 'no'], 'Termite station: feeding or live termites').optional(),
  block: oneOf(
    ['moved', 'in-place'],
    'Blocked entrance: whether the loose block was pushed aside',
  ).optional(),
  lamp: date('Light trap: date on the lamp now in it').optional(),
  other: text('Animal that is in no table', 'earwig').optional(),
  'other-count': wholeNumber('How many of the animal under `other`', 2).optional(),
  'after-flush': yes('Read after a flushing agent was used; such a catch never joins a trend').optional(),
  note: text('Anything else seen', 'greasy behind the fryer').optional(),
} as const

/** Keys of a reading that are facts; every other key names a pest. */
export const readingFieldNames: ReadonlySet<string> = new Set(Object.keys(readingFields))

/** What was seen at one device at one check. */
export const reading = openObject(
  readingFields,
  reference('pest', 'Pest'),
  count('How many are on the device now, as a number or by life stage'),
  'A reading; any key that is not a field names a pest',
  { 'german-cockroach': { nymphs: 4, adults: 1 }, renewed: 'yes' },
)

export const readings = openObject(
  {
    none: z
      .array(reference('device', 'Device', 'K1'))
      .min(1)
      .meta({ description: 'Devices looked at with nothing on them that they are for' })
      .optional(),
  },
  reference('device', 'Device'),
  reading,
  'Every device seen, by name',
)
