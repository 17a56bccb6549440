import { z } from 'zod'
import { complaintFrom } from './event-words.js'
import { eventFields, oneOf, reference, text, time } from './fields.js'

/** `sites/<site>/complaints/<date>-<who>.yaml`, named by who entered it. Never the name of a pupil or parent. */
export const complaint = z
  .strictObject({
    ...eventFields,
    from: oneOf(complaintFrom, 'Who complained, by role only'),
    at: time('When it came in').optional(),
    area: reference('area', 'Where', 'room-12').optional(),
    pest: reference('pest', 'Pest, or `unidentified`', 'house-mouse').optional(),
    other: text('Animal that is in no table', 'earwig').optional(),
    says: text('What was said', 'small black droppings in the paper drawer'),
    withdrawn: text('Why it was withdrawn').optional(),
  })
  .meta({ description: 'A complaint or report of a pest' })
