import { z } from 'zod'
import { owners } from './event-words.js'
import { eventFields, keyed, oneOf, quantity, reference, text } from './fields.js'

/** `sites/<site>/repairs/<date>-<who>.yaml`, dated the day the work was done. */
export const repair = z
  .strictObject({
    ...eventFields,
    mends: z
      .array(reference('condition', 'Condition', 'sink-drip'))
      .min(1)
      .meta({ description: 'Conditions it mends; the next routine visit looks at them again' })
      .optional(),
    done: text('What was done', 'new P-trap under the prep sink'),
    area: reference('area', 'Where', 'kitchen').optional(),
    owner: oneOf(owners, 'Whose work it was').optional(),
    order: text('Work order', 'WO-118').optional(),
    cost: quantity(['USD'], 'What it cost', '84 USD').optional(),
    openings: keyed(
      reference('area', 'Area'),
      text('Gap closed, with its size', 'door sweep, 3/8 in gap'),
      'Openings closed',
    ).optional(),
  })
  .meta({ description: 'A repair of the building, as told by whoever made it' })
