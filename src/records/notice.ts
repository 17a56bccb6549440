import { z } from 'zod'
import { date, eventFields, file, oneOf, reference, text, time, wholeNumber } from './fields.js'

/** `sites/<site>/notices/<date>-<who>.yaml`: a notice sent or a sign posted, dated the day it was. */
export const notice = z
  .strictObject({
    ...eventFields,
    application: reference('application', 'Application it is about', '2026-04-02-okafor'),
    sent: z
      .strictObject({
        to: oneOf(['all parents', 'all staff', 'everyone', 'those who asked'], 'To whom'),
        at: time('When').optional(),
        how: text('How', 'email'),
        recipients: wholeNumber('How many; never their names', 312).optional(),
        'list-of': date('Date of the list used').optional(),
        'list-kept-by': reference('person', 'Who keeps the list').optional(),
      })
      .meta({ description: 'A notice sent' })
      .optional(),
    posted: z
      .strictObject({
        places: z.array(text('Place', 'main entrance')).min(1).meta({ description: 'Where signs hang' }),
        at: time('When they were put up').optional(),
        size: text('Size of the sign', '8.5 x 11 in').optional(),
        'taken-down': date('Day they were taken down').optional(),
      })
      .meta({ description: 'Signs posted' })
      .optional(),
    text: file('The notice or sign itself', 'notice-2026-03-30.md').optional(),
  })
  .meta({ description: 'A notice sent or a sign posted for an application' })
