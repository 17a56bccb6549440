import { z } from 'zod'
import { eventFields, oneOf, reference, text, time, wholeNumber } from './fields.js'

/** `sites/<site>/incidents/<date>-<who>.yaml`. People are counted, never named. */
export const incident = z
  .strictObject({
    ...eventFields,
    kind: oneOf(
      ['spill', 'exposure', 'sting', 'bite', 'child-at-bait', 'non-target-catch', 'other'],
      'What happened',
    ),
    at: time('When').optional(),
    area: reference('area', 'Where', 'playground').optional(),
    what: text('What happened', 'child reached an unlocked station, nothing touched'),
    people: wholeNumber('How many people were touched by it', 1).optional(),
    product: reference('product', 'Product involved').optional(),
    pest: reference('pest', 'Animal involved').optional(),
    device: reference('device', 'Device involved').optional(),
    did: text('What was done at once', 'station locked; label and safety data sheet read; nurse told'),
    told: z
      .array(text('Who was told, by role', 'site manager'))
      .min(1)
      .meta({ description: 'Who was told' })
      .optional(),
  })
  .meta({
    description:
      'An incident: spill, exposure, sting, child at a bait, or an animal caught that should not be',
  })
