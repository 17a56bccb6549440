import { z } from 'zod'
import { about, quantity } from './fields.js'
import { strengthUnits } from './units.js'

/** One active ingredient of a product. */
export const activeIngredient = z.strictObject({
  strength: quantity(strengthUnits, 'Strength as the label states it', '5 %'),
  'mode-of-action': about(
    z.string().regex(/^(?:[1-9][0-9]?[A-Z]?|UN[A-Z]?|none)$/),
    'IRAC group as printed on the label, when the table of the program does not know the ingredient; `none` for what has none',
    '22A',
  ).optional(),
})
