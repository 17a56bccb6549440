import { z } from 'zod'
import { eventFields, hours, keyed, oneOf, quantity, reference, text, time } from './fields.js'
import { formulations } from './product.js'
import { amountUnits, areaUnits } from './units.js'

export const methods = [
  'bait-placement',
  'in-a-station',
  'crack-and-crevice',
  'void',
  'spot',
  'broadcast',
  'space',
  'perimeter',
  'drench',
  'injection',
  'other',
] as const

/** `sites/<site>/applications/<date>-<who>.yaml`: one application of a pesticide, done, planned or cancelled. */
export const application = z
  .strictObject({
    ...eventFields,
    status: oneOf(
      ['done', 'planned', 'cancelled'],
      'Whether it was carried out; the file name holds the day it was, or is planned for',
    ),
    product: reference('product', 'Product', 'bait-a'),
    pest: reference('pest', 'Target pest', 'german-cockroach'),
    areas: keyed(
      reference('area', 'Area'),
      z.strictObject({
        amount: quantity(amountUnits, 'Undiluted amount used there', '2 g').optional(),
        where: text('Where in the area', 'hinge voids of the dish machine').optional(),
      }),
      'Areas treated, with the amount in each',
    ),
    method: oneOf(methods, 'How it is applied'),
    formulation: oneOf(formulations, 'Formulation, when the product has more than one').optional(),
    amount: quantity(amountUnits, 'Undiluted amount in all', '4.5 g').optional(),
    'treated-extent': quantity(areaUnits, 'Size of what was treated', '3 ft2').optional(),
    time: hours('Start and end').optional(),
    lot: text('Lot number on the container', 'L-2211').optional(),
    reason: text('Why it was needed', 'second catch of nymphs after cleaning').optional(),
    'tried-first': text('What was tried before', 'vacuumed, leak mended').optional(),
    cancelled: text('Why it was cancelled', 'source found and removed').optional(),
    dry: time('When it was seen dry or settled').optional(),
    reopened: time('When the area was opened again').optional(),
    'follow-up': text('What is looked at next, and when', 'boards read after two weeks').optional(),
  })
  .meta({ description: 'An application of a pesticide' })
