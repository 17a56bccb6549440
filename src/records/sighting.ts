import { z } from 'zod'
import { evidenceKinds, traceAges } from './event-words.js'
import { lifeStages, oneOf, reference, text, wholeNumber, yes, yesNo } from './fields.js'

/** Evidence seen outside any device. */
export const sighting = z
  .strictObject({
    pest: reference('pest', 'Pest, or `unidentified`', 'house-mouse').optional(),
    other: text('Animal that is in no table', 'earwig').optional(),
    area: reference('area', 'Where it was seen', 'kitchen'),
    evidence: oneOf(evidenceKinds, 'What was seen of it'),
    age: oneOf(traceAges, 'Droppings and other traces: fresh or old').optional(),
    stage: oneOf(lifeStages, 'Life stage').optional(),
    count: wholeNumber('How many', 3).optional(),
    'by-day': yes('Seen alive in daylight').optional(),
    'nest-state': oneOf(['active', 'abandoned'], 'Nest: in use or not').optional(),
    cleaned: yesNo('Whether the traces were cleaned up, so that new ones tell something').optional(),
    identified: oneOf(
      ['sure', 'likely', 'tentative'],
      'How sure the identification is; sure if not said',
    ).optional(),
    looks: text('What it looks like, while it is not identified', '3 mm, brown, humped back').optional(),
    flushed: yes('Driven out with a flushing agent').optional(),
    resolves: reference(
      'sighting',
      'Earlier sighting that this one identifies',
      '2026-03-12-okafor/small-flies',
    ).optional(),
  })
  .meta({ description: 'Evidence seen outside any device' })
