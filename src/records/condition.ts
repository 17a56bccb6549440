import { z } from 'zod'
import { owners } from './event-words.js'
import { date, oneOf, reference, text } from './fields.js'

export const needs = ['food', 'water', 'harborage', 'entry'] as const

/**
 * A correctable fault, as one visit saw it. Exactly one of `new`, `still`, `fixed`, `closed`, `holds` says how
 * it stands, but that a new one may be fixed on the spot; the rule condition-state holds that.
 */
export const condition = z
  .strictObject({
    new: text('Found now for the first time: what is wrong', 'drip under prep sink').optional(),
    still: text('Seen again: how it is now', 'still dripping').optional(),
    fixed: text('Fixed on the spot: how', 'tightened the trap nut').optional(),
    closed: text('Found put right by someone else: how', 'new trap fitted').optional(),
    holds: text('Looked at again after it was put right, and still good', 'dry').optional(),
    area: reference('area', 'Where it is; needed when new', 'kitchen').optional(),
    kind: oneOf(['sanitation', 'moisture', 'structural', 'storage', 'landscape'], 'Kind of fault').optional(),
    gives: oneOf(needs, 'What it gives a pest').optional(),
    owner: oneOf(owners, 'Who is to mend it').optional(),
    by: date('Day by which it should be mended').optional(),
  })
  .meta({ description: 'A correctable condition as this visit saw it' })
