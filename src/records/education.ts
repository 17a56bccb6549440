import { z } from 'zod'
import { eventFields, file, oneOf, reference, text, wholeNumber } from './fields.js'

/** `education/<date>-<who>.yaml` */
export const education = z
  .strictObject({
    ...eventFields,
    kind: oneOf(['talk', 'flyer', 'email', 'walk-through', 'lesson', 'course'], 'How'),
    topic: text('About what', 'why food stays out of classrooms'),
    audience: oneOf(
      ['teachers', 'kitchen', 'custodial', 'maintenance', 'parents', 'pupils', 'office', 'everyone'],
      'For whom',
    ),
    people: wholeNumber('How many took part or received it', 23).optional(),
    sites: z
      .array(reference('site', 'Site'))
      .min(1)
      .meta({ description: 'Where; the whole district if not said' })
      .optional(),
    file: file('What was handed out').optional(),
  })
  .meta({ description: 'A talk, flyer or lesson' })
