import { z } from 'zod'
import { tactics } from './action.js'
import { areaKinds } from './area-kinds.js'
import { deviceKinds } from './device-kinds.js'
import { about, keyed, name, oneOf, positiveNumber, quantity, spanFields, text } from './fields.js'
import { intervalUnits } from './units.js'

export const thresholdUnits = ['room', 'trap-night', 'trap-week', '100 ft2', 'yd2', 'tree', 'place'] as const

const threshold = z
  .strictObject({
    'act-at': positiveNumber('Act when at or above this number; below it, keep watching and cleaning', 3),
    per: oneOf(
      thresholdUnits,
      'What the number counts by: seen or caught in one room, or the catch of one trap in a night or a week',
    ),
    checks: about(z.int().min(1), 'How many checks running must reach it; one if not said', 2).optional(),
    source: text(
      'Where the number comes from',
      'U. Wyoming Extension, school IPM threshold chart',
    ).optional(),
  })
  .meta({ description: 'An action threshold' })

const areaKindKeys = Object.fromEntries(areaKinds.map((kind) => [kind, threshold.optional()])) as Record<
  (typeof areaKinds)[number],
  z.ZodOptional<typeof threshold>
>

const deviceChecks = Object.fromEntries(
  deviceKinds.map((kind) => [
    kind,
    quantity(intervalUnits, `Longest time between checks of a ${kind}`, '14 days').optional(),
  ]),
) as Record<(typeof deviceKinds)[number], z.ZodOptional<z.ZodString>>

/** `plans/<pest>.yaml`: what the district does about one pest. */
export const plan = z
  .strictObject({
    title: text('What the plan is about', 'German cockroach').optional(),
    spans: z
      .array(
        z.strictObject({
          ...spanFields,
          'act-on-one': z
            .array(oneOf([...areaKinds, 'everywhere'] as const, 'Kind of area'))
            .meta({
              description:
                'Kinds of area where one animal or fresh sign is enough; statistics never delay it',
            })
            .optional(),
          thresholds: z
            .strictObject({ ...areaKindKeys, elsewhere: threshold.optional() })
            .meta({ description: 'Action thresholds by kind of area' })
            .optional(),
          tactics: keyed(
            name('Short name of the tactic', 'clean-and-dry'),
            z.strictObject({
              tactic: oneOf(tactics, 'Kind of tactic, so that a visit that did it is recognised').optional(),
              do: text('What to do', 'Clean under and behind equipment; mend leaks; empty bins nightly'),
              'from-count': positiveNumber(
                'Count from which this step is taken; from the threshold if not said',
                4,
              ).optional(),
            }),
            'Tactics in the order they are tried, least hazard first',
          ),
          checks: z
            .strictObject(deviceChecks)
            .meta({
              description:
                'Longest time between checks of the devices set for this pest; stating it adopts it',
            })
            .optional(),
          source: text('What the plan rests on').optional(),
        }),
      )
      .min(1)
      .meta({ description: 'What the plan says, in dated spans' }),
  })
  .meta({ description: 'Plan for one pest: action thresholds and tactics, least hazard first' })
