import { z } from 'zod'
import { about, date, file, keyed, name, oneOf, spanFields, text } from './fields.js'

const state = about(z.string().regex(/^[A-Z]{2}$/), 'Two-letter code of the state that gave it', 'OR')

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
    phone: text('Where to reach them at work', '555-0100').optional(),
    licences: keyed(
      name('Short name of the licence', 'or-commercial'),
      z.strictObject({
        number: about(
          z.string().regex(/^[A-Za-z0-9][A-Za-z0-9 ./-]*$/),
          'Number as printed, in quotes when it is all digits',
          '00-1234',
        ),
        state,
        kind: text('Kind of licence as the state calls it', 'commercial applicator'),
        categories: z
          .array(text('Category as the state names it', 'structural'))
          .meta({ description: 'Categories the licence covers' }),
        spans: z
          .array(z.strictObject({ ...spanFields, file: file('Copy of the licence').optional() }))
          .min(1)
          .meta({ description: 'Each period of validity, the oldest first; a renewal adds one' }),
      }),
      'Licences and certifications',
    ).optional(),
    training: keyed(
      name('Short name of the training', 'ipm-2026'),
      z.strictObject({
        on: date('Day it was completed'),
        topic: text('What it was about', 'Inspecting school kitchens'),
        hours: about(z.number().positive(), 'Hours of training', 2).optional(),
        until: date('Day after which it no longer counts').optional(),
        file: file('Certificate').optional(),
      }),
      'Training completed',
    ).optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: 'A person who works in the programme: licences and training' })
