import { z } from 'zod'
import { deviceKinds } from './device-kinds.js'
import { about, date, oneOf, quantity, reference, text, yes, yesNo } from './fields.js'
import { amountUnits, lengthUnits } from './units.js'

const position = z.tuple([z.number(), z.number()]).meta({
  description:
    'Position on the property diagram: across and down from its top left corner, in the unit of its scale',
  examples: [[12.5, 40]],
})

/** Where a device stands and how: what can be said when it is set and again when it is moved. */
const placement = {
  at: position.optional(),
  secured: yesNo(
    'Fastened so that it cannot be carried off or tipped; asked of every rodent trap and station, even in a locked room',
  ).optional(),
  marked: yesNo('Marked with what it is and whom to call').optional(),
  'within-reach': yesNo('Whether children can reach it').optional(),
  'in-doorway': yesNo('Light trap: whether it hangs in a doorway').optional(),
  'visible-outdoors': yesNo(
    'Light trap: whether it can be seen from outdoors, where it draws insects in',
  ).optional(),
  'above-food': yesNo(
    'Glue board or light trap: whether it hangs above food or where food is prepared',
  ).optional(),
  height: quantity(lengthUnits, 'Height of its middle above the floor', '4 ft').optional(),
} as const

export const deviceSet = z
  .strictObject({
    kind: oneOf(deviceKinds, 'Kind of device'),
    area: reference('area', 'Area it stands in', 'kitchen'),
    ...placement,
    for: z
      .array(reference('pest', 'Pest', 'german-cockroach'))
      .min(1)
      .meta({
        description:
          'Pests it is meant to catch or show; by its kind if not said. A pest it is for and that a reading does not name is a zero',
      })
      .optional(),
    traps: about(
      z.int().min(1).max(20),
      'How many traps stand here as one, such as a pair end to end; one if not said',
      2,
    ).optional(),
    'marked-as': text('What is printed on it, when that is not its id', '#17').optional(),
    'while-pupils-away': yes('Set after pupils leave and picked up before they return').optional(),
    'electric-grid': yes('Light trap that kills on an electric grid instead of a glue board').optional(),
    lamp: date('Light trap: date on the lamp').optional(),
    'tamper-resistant': yesNo('Bait station: whether it keeps children and pets from the bait').optional(),
    product: reference('product', 'Bait or lure it was filled with', 'block-x').optional(),
    'bait-added': quantity(amountUnits, 'Amount of bait put in when it was set', '1 block').optional(),
  })
  .meta({ description: 'A device set on this visit' })

export const deviceMoved = z
  .strictObject({ area: reference('area', 'Area it stands in now').optional(), ...placement })
  .meta({
    description:
      'A device moved on this visit: the facts of the new place; what is not said is not known there',
  })
