import { z } from 'zod'
import {
  about,
  date,
  dates,
  file,
  hours,
  keyed,
  name,
  oneOf,
  reference,
  spanFields,
  text,
  wholeNumber,
  yesNo,
} from './fields.js'
import { stateCode } from './licence.js'

const schoolYear = z
  .strictObject({
    ...spanFields,
    until: date('Last day of the school year', '2026-06-12'),
    closed: keyed(
      name('Short name of the closure', 'winter-break'),
      dates('The closed day, or first to last closed day'),
      'Days within the school year without pupils',
    ).optional(),
  })
  .meta({ description: 'One school year: Monday to Friday are school days, but for the closures' })

const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const

/** `district.yaml` marks the root of a ledger. */
export const district = z
  .strictObject({
    format: about(z.literal(1), 'Version of the ledger format', 1),
    name: text('Name of the district', 'Alder Fork School District'),
    state: stateCode.optional(),
    address: text('Address of the district', '1 Invented Square, Alder Fork').optional(),
    'time-zone': about(
      z.string().regex(/^(?:UTC|[A-Za-z]+(?:\/[A-Za-z0-9_+-]+)+)$/),
      'IANA time zone; every time in the ledger is local time there',
      'America/Los_Angeles',
    ),
    'records-begin': date('First day the ledger answers for; nothing is due before it', '2024-08-01'),
    coordinator: z
      .array(z.strictObject({ ...spanFields, who: reference('person', 'The IPM coordinator', 'marsh') }))
      .min(1)
      .meta({ description: 'Who keeps the programme, in dated spans' }),
    rulebooks: z
      .array(
        z.strictObject({
          ...spanFields,
          rulebook: reference('rulebook', 'A rulebook of the program or of this ledger', 'practice'),
        }),
      )
      .meta({ description: 'The duties the district is judged by, in dated spans' }),
    calendar: z
      .array(schoolYear)
      .meta({ description: 'School years; without them every Monday to Friday counts as a school day' }),
    occupied: z
      .array(
        z.strictObject({
          ...spanFields,
          days: z
            .array(oneOf(weekdays, 'Day of the week'))
            .min(1)
            .meta({ description: 'Days on which people are in the buildings' }),
          hours: hours('When they are there'),
        }),
      )
      .meta({ description: 'Occupied hours of the buildings, in dated spans; a site can have its own' })
      .optional(),
    policies: keyed(
      name('Short name of the policy', 'ipm-policy'),
      z.strictObject({
        title: text('What the policy is called', 'Integrated pest management policy'),
        adopted: date('Day the board adopted it'),
        file: file('The policy, beside district.yaml', 'policies/ipm-policy.md').optional(),
        'review-by': date('Day by which it is to be looked at again').optional(),
      }),
      'Policies of the district that bear on pests',
    ).optional(),
    'signed-commits': z
      .array(z.strictObject(spanFields))
      .min(1)
      .meta({
        description:
          'Days on which every commit is to bear a signature, in dated spans; none is asked for if not said',
      })
      .optional(),
    discarded: z
      .array(
        z.strictObject({
          on: date('Day they were discarded'),
          what: oneOf(['applications', 'notices', 'sds'], 'Records of which kind'),
          before: date('Records of events before this day were discarded', '2022-01-01'),
          by: reference('person', 'Who discarded them', 'marsh'),
          termite: yesNo('Whether termite pesticides were among them; yes if not said').optional(),
          'restricted-use': yesNo(
            'Whether restricted-use products were among them; yes if not said',
          ).optional(),
        }),
      )
      .meta({ description: 'Old records that were discarded, so that their time of keeping can be shown' })
      .optional(),
    'annual-review': z
      .strictObject({
        'due-month': about(
          z.int().min(1).max(12),
          'Month of the year by whose end the yearly review is held',
          6,
        ),
      })
      .meta({ description: 'When the yearly review is due; June if not said' })
      .optional(),
    'unanswered-complaint-days': wholeNumber(
      'Days within which a complaint is looked at, where the contract does not say',
      5,
    ).optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({
    description: 'The district: where its ledger begins, which duties hold, when school is in session',
  })
