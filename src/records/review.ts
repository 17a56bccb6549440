import { z } from 'zod'
import { corrections, date, keyed, name, reference, text } from './fields.js'

/** `reviews/<year>.yaml`: the yearly meeting. */
export const review = z
  .strictObject({
    held: date('Day it was held', '2026-06-10'),
    by: reference('person', 'Who led it', 'marsh'),
    present: z
      .array(text('Who took part, by role', 'maintenance head'))
      .min(1)
      .meta({ description: 'Who took part' }),
    findings: keyed(
      name('Short name', 'kitchen-drains'),
      text('What was found', 'drains cleaned too rarely'),
      'What the year showed',
    ).optional(),
    decisions: keyed(
      name('Short name', 'door-sweeps'),
      z.strictObject({
        what: text('What was decided', 'door sweeps on all dock doors'),
        who: reference('person', 'Who does it').optional(),
        by: date('By when').optional(),
        done: date('Day it was done').optional(),
      }),
      'What was decided',
    ),
    corrections,
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: 'The yearly review of the programme' })
