import { z } from 'zod'
import { about, file, keyed, name, spanFields, text } from './fields.js'

export const stateCode = about(z.string().regex(/^[A-Z]{2}$/), 'Two-letter code of the state', 'OR')

/** Licences and certifications, of a person or of a firm. */
export const licences = keyed(
  name('Short name of the licence', 'or-commercial'),
  z.strictObject({
    number: about(
      z.string().regex(/^[A-Za-z0-9][A-Za-z0-9 ./-]*$/),
      'Number as printed, in quotes when it is all digits',
      '00-1234',
    ),
    state: stateCode,
    kind: text('Kind of licence as the state calls it', 'commercial applicator'),
    certified: about(
      z.enum(['yes', 'no']),
      'Whether its holder is certified to apply alone and to supervise, or works under someone who is; yes if not said',
      'yes',
    ).optional(),
    categories: z
      .array(text('Category as the state names it', 'structural'))
      .meta({ description: 'Categories the licence covers' }),
    spans: z
      .array(z.strictObject({ ...spanFields, file: file('Copy of the licence').optional() }))
      .min(1)
      .meta({ description: 'Each period of validity, the oldest first; a renewal adds one' }),
  }),
  'Licences and certifications',
)
