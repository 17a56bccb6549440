import { z } from 'zod'
import { areaKinds } from './area-kinds.js'
import { deviceKinds } from './device-kinds.js'
import {
  about,
  date,
  file,
  hours,
  keyed,
  name,
  oneOf,
  quantity,
  reference,
  sha256,
  spanFields,
  text,
  wholeNumber,
  yesNo,
} from './fields.js'
import { areaUnits, intervalUnits, lengthUnits } from './units.js'
import { siteKinds } from './use-words.js'

const position = z.tuple([z.number(), z.number()])

const area = z
  .strictObject({
    name: text('What people call it', 'Main kitchen').optional(),
    kind: oneOf(areaKinds, 'Kind of area; the thresholds of the plans depend on it'),
    floor: about(
      z.int().min(-5).max(50),
      'Floor: 1 is the ground floor, 0 and below are cellars',
      1,
    ).optional(),
    extent: quantity(areaUnits, 'Size of the floor', '900 ft2').optional(),
    keys: text('Which key opens it', 'ring 3, brass').optional(),
    'let-in-by': text('Who lets you in', 'custodian on duty').optional(),
    children: yesNo('Whether children use it').optional(),
    outline: z
      .array(position)
      .min(3)
      .meta({ description: 'Corners on the property diagram, in order, in the unit of its scale' })
      .optional(),
    from: date('First day the area is part of the site; leave out if it always was').optional(),
    until: date('Last day it is part of the site').optional(),
  })
  .meta({ description: 'An area: a room or a part of the grounds that is inspected as one' })

const checks = Object.fromEntries(
  deviceKinds.map((kind) => [
    kind,
    about(
      z.string().regex(new RegExp(`^(?:monthly|[1-9][0-9]* (?:${intervalUnits.join('|')}))$`)),
      `How often a ${kind} is checked`,
      'monthly',
    ).optional(),
  ]),
) as Record<(typeof deviceKinds)[number], z.ZodOptional<z.ZodString>>

const contract = z
  .strictObject({
    ...spanFields,
    contractor: text(
      'Who serves the site; the district itself, if its own staff do',
      'Invented Pest Services',
    ),
    firm: reference(
      'firm',
      'The contractor as a record, with its licences',
      'invented-pest-services',
    ).optional(),
    'routine-visits': about(
      z.string().regex(/^(?:monthly|weekly|every [1-9][0-9]* days)$/),
      'How often a routine visit is due: `monthly` is once per calendar month in session',
      'monthly',
    ),
    grace: quantity(
      ['day', 'days'],
      'Days after the end of the interval in which the visit still counts for it',
      '5 days',
    ).optional(),
    'in-recess': yesNo('Whether routine visits are also due while school is out').optional(),
    checks: z
      .strictObject(checks)
      .meta({ description: 'How often devices are checked; stating it adopts it' })
      .optional(),
    'complaint-days': wholeNumber('Days within which a complaint is looked at', 2).optional(),
    file: file('The contract').optional(),
    sha256: sha256().optional(),
  })
  .meta({ description: 'Terms of service, in dated spans' })

/** `sites/<site>/site.yaml` */
export const site = z
  .strictObject({
    name: text('Name of the school or building', 'Ottermere Elementary'),
    kind: oneOf(siteKinds, 'What it is in law; a school if not said').optional(),
    address: text('Street address', '12 Invented Lane').optional(),
    from: date('First day the ledger answers for this site, if later than records-begin').optional(),
    until: date('Last day, once a site is closed').optional(),
    'site-manager': z
      .array(z.strictObject({ ...spanFields, who: reference('person', 'The site manager', 'lind') }))
      .min(1)
      .meta({ description: 'Who receives the service report, in dated spans' }),
    'complaint-log': text('Where the complaint log hangs', 'front office, beside the key board'),
    hours: hours('Occupied hours, when they differ from the district').optional(),
    diagram: z
      .strictObject({
        file: file('Property diagram', 'diagram.svg'),
        sha256: sha256().optional(),
        scale: text('Scale as drawn', '1 in = 20 ft').optional(),
        unit: oneOf(['ft', 'm'], 'Unit of positions on it'),
        corners: z
          .tuple([position, position])
          .meta({
            description:
              'Positions of the top left and of the lower right corner of the drawing, so that a map can be drawn over it; only a PNG or JPEG is drawn over',
            examples: [
              [
                [-4, -10],
                [124, 112],
              ],
            ],
          })
          .optional(),
      })
      .meta({ description: 'The property diagram, on which devices have positions' })
      .optional(),
    contract: z.array(contract).meta({ description: 'Terms of service, in dated spans' }),
    areas: keyed(name('Short name of the area', 'kitchen'), area, 'Areas, in walking order'),
    runs: keyed(
      name('Short name of the run', 'dock-wall'),
      z.strictObject({
        along: text('Which wall it follows', 'north wall of the dock').optional(),
        devices: z
          .array(reference('device', 'Device', 'D1'))
          .min(2)
          .meta({ description: 'Devices in order along the wall' }),
        spacing: z
          .array(quantity(lengthUnits, 'Distance to the next device', '12 ft'))
          .min(1)
          .meta({
            description:
              'Distances between neighbours along the wall, when it bends; from their positions if not said',
          })
          .optional(),
        'active-control': z
          .array(z.strictObject({ ...spanFields }))
          .meta({ description: 'Spans in which the run is under active control, not only watched' })
          .optional(),
      }),
      'Devices in order along one wall, never through walls',
    ).optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: 'A site: its areas, diagram, contract, and who is who' })
