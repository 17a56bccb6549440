import { z } from 'zod'
import {
  about,
  date,
  eventFields,
  hours,
  keyed,
  oneOf,
  quantity,
  reference,
  text,
  time,
  yes,
  yesNo,
} from './fields.js'
import {
  amountUnits,
  areaUnits,
  lengthUnits,
  spaceUnits,
  speedUnits,
  temperatureUnits,
  volumeUnits,
  weightUnits,
} from './units.js'
import { formulations, methods, pupilPlaces } from './use-words.js'

const mixUnits = [...volumeUnits, ...weightUnits]

/** `sites/<site>/applications/<date>-<who>.yaml`: one application of a pesticide, done, planned or cancelled. */
export const application = z
  .strictObject({
    ...eventFields,
    status: oneOf(
      ['done', 'planned', 'cancelled'],
      'Whether it was carried out; the file name holds the day it was, or is planned for',
    ),
    product: reference('product', 'Product', 'bait-a'),
    pest: reference('pest', 'Target pest', 'german-cockroach'),
    'also-against': z
      .array(reference('pest', 'Pest', 'odorous-house-ant'))
      .min(1)
      .meta({ description: 'Other target pests' })
      .optional(),
    areas: keyed(
      reference('area', 'Area'),
      z.strictObject({
        amount: quantity(amountUnits, 'Undiluted amount used there', '2 g').optional(),
        extent: quantity(areaUnits, 'Size of what was treated there', '3 ft2').optional(),
        placements: about(z.int().min(1), 'How many placements were made there', 12).optional(),
        where: text('Where in the area', 'hinge voids of the dish machine').optional(),
        'within-reach': yesNo('Whether children can reach what was put there').optional(),
        'tamper-resistant': yesNo(
          'In a station: whether the station keeps children and pets from the bait',
        ).optional(),
      }),
      'Areas treated, with the amount in each',
    ),
    method: oneOf(methods, 'How it is applied'),
    formulation: oneOf(formulations, 'Formulation, when the product has more than one').optional(),
    amount: quantity(amountUnits, 'Undiluted amount in all', '4.5 g').optional(),
    'treated-extent': quantity(areaUnits, 'Size of what was treated', '3 ft2').optional(),
    'treated-length': quantity(
      lengthUnits,
      'Length of what was treated, such as a perimeter',
      '120 ft',
    ).optional(),
    'treated-space': quantity(spaceUnits, 'Room air treated, for a space treatment', '4000 ft3').optional(),
    dilution: z
      .strictObject({
        water: quantity(mixUnits, 'Water or other carrier the undiluted amount was mixed with', '1 gal'),
        left: quantity(mixUnits, 'Mixture left over', '0.2 gal').optional(),
        'left-went': text('Where the rest went', 'used up on the same nest').optional(),
      })
      .meta({ description: 'How it was diluted; the law counts the undiluted amount' })
      .optional(),
    'supervised-by': reference('person', 'Certified applicator who supervised it', 'vale').optional(),
    approved: z
      .strictObject({
        by: z
          .array(reference('person', 'Who approved it', 'marsh'))
          .min(1)
          .meta({ description: 'Who approved it beforehand, in writing' }),
        on: date('Day of the approval'),
      })
      .meta({ description: 'Prior written approval, where a rulebook asks for it' })
      .optional(),
    equipment: text('With what', 'bait gun 2').optional(),
    time: hours('Start and end').optional(),
    lot: text('Lot number on the container', 'L-2211').optional(),
    weather: z
      .strictObject({
        wind: quantity(speedUnits, 'Wind speed', '4 mph').optional(),
        'wind-from': text('Wind direction', 'SW').optional(),
        temperature: quantity(temperatureUnits, 'Air temperature', '64 F').optional(),
        sky: text('Sky, and whether rain is near', 'dry, no rain forecast').optional(),
      })
      .meta({ description: 'Weather, outdoors' })
      .optional(),
    'rain-dates': z
      .array(date('Day it is done instead if it rains'))
      .min(1)
      .meta({
        description: 'Other days, in order, on which it is done if the weather does not allow the first',
      })
      .optional(),
    pupils: oneOf(pupilPlaces, 'Where pupils were while it was applied').optional(),
    separated: yes('The treated part had its own ventilation and was behind smoke or fire doors').optional(),
    'kept-out': z
      .strictObject({
        how: oneOf(['fence', 'flags', 'tape', 'locked', 'watched', 'signs'], 'What kept people out'),
        until: oneOf(['dry', 'reopened'], 'Until when'),
      })
      .meta({ description: 'What kept people out of a treated place outdoors' })
      .optional(),
    dry: z
      .strictObject({
        at: time('When it was seen dry or settled'),
        by: reference('person', 'Who saw it', 'okafor'),
      })
      .meta({ description: 'When it was seen dry or settled, and by whom' })
      .optional(),
    reopened: z
      .strictObject({
        on: date('Day, when it was a later one').optional(),
        at: time('When the area was opened again'),
        by: reference('person', 'Who opened it', 'lind'),
      })
      .meta({ description: 'When the area was opened again, and by whom' })
      .optional(),
    reason: text('Why it was needed', 'second catch of nymphs after cleaning').optional(),
    identified: z
      .strictObject({
        by: reference('person', 'Who identified the pest', 'okafor'),
        how: text('How', 'nymphs on K3 under a hand lens'),
      })
      .meta({
        description: 'Who identified the pest, where neither a reading nor a sighting of this site does',
      })
      .optional(),
    threshold: text(
      'What count or sign reached the threshold, where neither a reading nor a sighting of this site does',
      '2 ants in room 12 on 2026-03-31',
    ).optional(),
    'tried-first': text('What was tried before', 'vacuumed, leak mended').optional(),
    'nothing-to-correct': yes('Looked for something to correct and found nothing').optional(),
    'chosen-because': text('Why this product and method and no milder one', 'bait was not taken').optional(),
    emergency: z
      .strictObject({
        problem: text('What the emergency was', 'yellowjacket nest opened beside the ramp'),
        why: text('Why it could not wait for a notice', 'a pupil was stung; the ramp is the only way out'),
        prevention: text('How the next one is prevented', 'eaves looked at every April').optional(),
        'decided-by': reference('person', 'Who decided', 'marsh'),
        signed: date('Day that person signed this statement').optional(),
      })
      .meta({
        description: 'Statement of an emergency, in place of notice beforehand where a rulebook allows it',
      })
      .optional(),
    purpose: oneOf(
      ['pest-control', 'instruction', 'public-health-order'],
      'What it was for; pest control if not said',
    ).optional(),
    cancelled: text('Why it was cancelled', 'source found and removed').optional(),
    'follow-up': z
      .strictObject({
        by: date('Day by which its effect is looked at'),
        look: text('What is looked at', 'boards K1 to K4'),
      })
      .meta({ description: 'What is looked at next, and by when' })
      .optional(),
  })
  .meta({ description: 'An application of a pesticide' })
