import { oneOf, spanFields, text } from './fields.js'

/** What every entry of a rulebook says of itself: when it holds, what it rests on, how sure we are. */
export const basis = {
  ...spanFields,
  source: text('Law, standard or figure it rests on', '29 CFR 1910.1200(g)(8)'),
  kind: oneOf(['law', 'standard', 'published', 'practice'], 'What kind of source it is'),
  confidence: oneOf(['read', 'from memory', 'no source'], 'How sure we are of the text'),
} as const
