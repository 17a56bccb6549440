import { z } from 'zod'
import { about, date, file, keyed, name, oneOf, reference, text } from './fields.js'
import { licences } from './licence.js'

/** `people/<id>.yaml`. Pupils, parents and people who asked to be told are never in a ledger. */
export const person = z
  .strictObject({
    name: text('Name as signed', 'Ada Okafor'),
    roles: z
      .array(
        oneOf(
          [
            'technician',
            'applicator',
            'coordinator',
            'site-manager',
            'custodian',
            'maintenance',
            'grounds',
            'clerk',
            'expert',
          ],
          'What this person does in the programme',
        ),
      )
      .min(1)
      .meta({ description: 'What this person does in the programme' }),
    employer: text('Firm or department', 'Invented Pest Services').optional(),
    firm: reference('firm', 'The same as a record, with its licences', 'invented-pest-services').optional(),
    phone: text('Where to reach them at work', '555-0100').optional(),
    'commits-as': z
      .array(text('E-mail under which they commit', 'okafor@invented-pest.example'))
      .min(1)
      .meta({ description: 'E-mails under which they commit, where git does not know them by their name' })
      .optional(),
    licences: licences.optional(),
    training: keyed(
      name('Short name of the training', 'ipm-2026'),
      z.strictObject({
        on: date('Day it was completed'),
        topic: text('What it was about', 'Inspecting school kitchens'),
        course: name(
          'Which course of a rulebook it counts as, in the words of that rulebook',
          'coordinator-course',
        ).optional(),
        hours: about(z.number().positive(), 'Hours of training', 2).optional(),
        until: date('Day after which it no longer counts').optional(),
        file: file('Certificate').optional(),
      }),
      'Training completed',
    ).optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: 'A person who works in the programme: licences and training' })
