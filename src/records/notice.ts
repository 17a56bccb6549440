import { z } from 'zod'
import { about, date, eventFields, file, oneOf, reference, text, time, wholeNumber } from './fields.js'
import { noticeContents, postingPlaces } from './use-words.js'

export const audiences = ['all parents', 'all staff', 'everyone', 'those who asked'] as const

const contents = z
  .array(oneOf(noticeContents, 'What it says'))
  .min(1)
  .meta({ description: 'What it says, so that it can be held against what a rulebook asks' })

/** `sites/<site>/notices/<date>-<who>.yaml`: a notice sent or a sign posted, dated the day it was. */
export const notice = z
  .strictObject({
    ...eventFields,
    application: reference('application', 'Application it is about', '2026-04-02-okafor'),
    sent: z
      .strictObject({
        to: oneOf(audiences, 'To whom; `those who asked` are parents and staff on the list'),
        at: time('When').optional(),
        how: text('How', 'email').optional(),
        recipients: wholeNumber('How many; never their names', 312).optional(),
        'list-of': date('Date of the list used').optional(),
        'list-kept-by': reference('person', 'Who keeps the list').optional(),
        says: contents.optional(),
      })
      .meta({ description: 'A notice sent' })
      .optional(),
    posted: z
      .strictObject({
        places: z.array(text('Place', 'main entrance')).min(1).meta({ description: 'Where signs hang' }),
        at: time('When they were put up').optional(),
        'at-the': z
          .array(oneOf(postingPlaces, 'Kind of place'))
          .min(1)
          .meta({ description: 'Which kinds of places these are' })
          .optional(),
        size: about(
          z.string().regex(/^[0-9]+(?:\.[0-9]+)? x [0-9]+(?:\.[0-9]+)? (?:in|cm)$/),
          'Size of the sign',
          '8.5 x 11 in',
        ).optional(),
        says: contents.optional(),
        'taken-down': date('Day they were taken down').optional(),
        'taken-down-at': time('When they were taken down').optional(),
      })
      .meta({ description: 'Signs posted' })
      .optional(),
    text: file('The notice or sign itself', 'notice-2026-03-30.md').optional(),
  })
  .meta({ description: 'A notice sent or a sign posted for an application' })
