import { z } from 'zod'
import { date, oneOf, spanFields, text } from './fields.js'

const value = z
  .strictObject({
    ...spanFields,
    value: z.union([z.number(), z.string().min(1)]).meta({
      description: 'The value: a number, a quantity with its unit, or yes / no',
      examples: ['28 days', 'yes'],
    }),
    source: text('Law, standard or figure it rests on', '29 CFR 1910.1200(g)(8)'),
    kind: oneOf(['law', 'standard', 'published', 'practice'], 'What kind of source it is'),
    confidence: oneOf(['read', 'from memory', 'no source'], 'How sure we are of the text'),
  })
  .meta({ description: 'A value and the days on which it is in force' })

/** `rulebooks/<id>.yaml`, and those that come with the program: the duties of one jurisdiction. */
export const rulebook = z
  .strictObject({
    title: text('What it is', 'Common practice of the trade'),
    jurisdiction: text('Where it holds', 'everywhere'),
    'read-on': date('Day its sources were last read'),
    covers: text('What it covers', 'intervals, spacing, placement'),
    'does-not-cover': z
      .array(text('What it does not cover'))
      .min(1)
      .meta({ description: 'What it does not cover; local code and the label win' }),
    parameters: z
      .record(z.string().regex(/^[a-z][a-z0-9-]*(?:\.[a-z0-9-]+)*$/), z.array(value).min(1))
      .meta({ description: 'Values by the name under which rules ask for them' }),
  })
  .meta({ description: 'The duties of one jurisdiction, as values that rules read' })
