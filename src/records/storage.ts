import { z } from 'zod'
import { date, eventFields, keyed, name, quantity, reference, text, yes, yesNo } from './fields.js'
import { amountUnits } from './units.js'

/** `sites/<site>/storage/<date>-<who>.yaml`: what is kept where, as seen on that day. */
export const storage = z
  .strictObject({
    ...eventFields,
    places: keyed(
      name('Short name of the place', 'custodial-cupboard'),
      z.strictObject({
        area: reference('area', 'Area it is in', 'custodial'),
        locked: yesNo('Whether it is locked'),
        ventilated: yesNo('Whether it is ventilated').optional(),
        items: keyed(
          name('Short name of the container', 'gel-1'),
          z.strictObject({
            product: reference('product', 'Product').optional(),
            what: text(
              'What it is, when it is not in the register',
              'half a can of wasp spray, no label',
            ).optional(),
            amount: quantity(amountUnits, 'Amount left', '24 g').optional(),
            lot: text('Lot number on the container').optional(),
            opened: date('Day it was opened').optional(),
            unauthorized: yes('Brought in by someone who may not keep it there').optional(),
            disposed: text('How it was disposed of', 'household hazardous waste day').optional(),
          }),
          'Containers',
        ),
      }),
      'Places where products are kept',
    ),
  })
  .meta({ description: 'What is kept where, locked or not, and what was disposed of' })
