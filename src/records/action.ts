import { z } from 'zod'
import { date, oneOf, reference, text } from './fields.js'

export const tactics = [
  'cleaning',
  'vacuuming',
  'drying',
  'exclusion',
  'repair',
  'trapping',
  'hand-removal',
  'heat',
  'cold',
  'habitat-change',
  'restriction',
  'education',
  'biological',
  'monitoring',
  'flushing',
  'bait',
  'pesticide',
  'referral',
] as const

/** A tactic carried out. An action with an `until` stays open until a later visit says `ended`. */
export const action = z
  .strictObject({
    did: text('What was done', 'vacuumed the cable channel').optional(),
    ended: text('Ends an action that an earlier visit began: how', 'nest found and removed').optional(),
    tactic: oneOf(tactics, 'Tactic').optional(),
    why: oneOf(['corrective', 'preventive'], 'Whether it answers a pest that is there').optional(),
    area: reference('area', 'Where', 'room-12').optional(),
    pest: reference('pest', 'Against which pest', 'german-cockroach').optional(),
    condition: reference('condition', 'Condition it answers', 'sink-drip').optional(),
    until: text('What ends it', 'the nest is found').optional(),
    'follow-up': date('Day by which its effect is looked at').optional(),
  })
  .meta({ description: 'An action carried out on this visit' })

/** A potted plant taken away to be treated off the property. Each fact is true on the day of the visit. */
export const plant = z
  .strictObject({
    area: reference('area', 'Where it belongs', 'room-12').optional(),
    removed: text('Why it was taken away', 'fungus gnats').optional(),
    sprayed: text('Where it was treated, off the property', 'contractor yard').optional(),
    product: reference('product', 'What it was treated with').optional(),
    dry: text('Who saw it dry', 'okafor').optional(),
    returned: text('Where it was put back', 'window sill').optional(),
  })
  .meta({ description: 'A plant removed, treated off the property, or returned' })
