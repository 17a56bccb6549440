import { z } from 'zod'
import { about, date, keyed, name, text } from './fields.js'
import { stateCode } from './licence.js'
import { basis } from './rulebook-basis.js'
import { duties } from './rulebook-duties.js'
import { useMatcher } from './use-matcher.js'

const value = z
  .strictObject({
    ...basis,
    value: z.union([z.number(), z.string().min(1)]).meta({
      description: 'The value: a number, a quantity with its unit, or yes / no',
      examples: ['28 days', 'yes'],
    }),
  })
  .meta({ description: 'A value and the days on which it is in force' })

const useClass = z
  .strictObject({
    ...basis,
    any: z.array(useMatcher).min(1).meta({
      description: 'A use belongs to the class when any of these fits; within one, every facet must fit',
    }),
  })
  .meta({ description: 'A class of uses, and the days on which it is defined so' })

/** `rulebooks/<id>.yaml`, and those that come with the program: the duties of one jurisdiction. */
export const rulebook = z
  .strictObject({
    title: text('What it is', 'Common practice of the trade'),
    jurisdiction: text('Where it holds', 'everywhere'),
    state: stateCode.optional(),
    'read-on': date('Day its sources were last read'),
    covers: text('What it covers', 'intervals, spacing, placement'),
    'does-not-cover': z
      .array(text('What it does not cover'))
      .min(1)
      .meta({ description: 'What it does not cover; local code and the label win' }),
    parameters: z
      .record(z.string().regex(/^[a-z][a-z0-9-]*(?:\.[a-z0-9-]+)*$/), z.array(value).min(1))
      .meta({ description: 'Single values by the name under which rules ask for them' })
      .optional(),
    uses: keyed(
      name('Short name of the class', 'bait-out-of-reach'),
      about(z.array(useClass).min(1), 'The class in dated versions'),
      'Classes of uses that duties hold for, or do not hold for',
    ).optional(),
    ...duties,
  })
  .meta({ description: 'The duties of one jurisdiction, as data that rules read' })
