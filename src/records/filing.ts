import { z } from 'zod'
import { about, eventFields, file, oneOf, reference, text } from './fields.js'
import { audiences } from './notice.js'
import { noticeContents, yearlyKinds } from './use-words.js'

/** What a yearly notice, list or report can say beside the contents of a notice of one application. */
export const filingContents = [
  ...noticeContents,
  'policy',
  'products-expected',
  'products-used',
  'state-web-address',
  'plan-web-address',
  'labels-and-sds-available',
  'authority-statement',
  'how-to-be-told',
] as const

/** `filings/<date>-<who>.yaml`: what was sent or filed for a year as a whole, dated the day it was. */
export const filing = z
  .strictObject({
    ...eventFields,
    what: oneOf(yearlyKinds, 'What it is'),
    year: about(
      z.string().regex(/^[0-9]{4}(?:-[0-9]{4})?$/),
      'Year it is for, in quotes when it is a calendar year; a school year as 2025-2026',
      '2025-2026',
    ),
    to: oneOf([...audiences, 'the state', 'the public'] as const, 'To whom').optional(),
    products: z
      .array(reference('product', 'Product', 'bait-a'))
      .min(1)
      .meta({ description: 'Products it names' })
      .optional(),
    says: z
      .array(oneOf(filingContents, 'What it says'))
      .min(1)
      .meta({ description: 'What it says' })
      .optional(),
    where: text('Where it can be read', 'district web site, facilities page').optional(),
    file: file('The notice or report itself', 'annual-notice-2025.md').optional(),
  })
  .meta({ description: 'A yearly notice, product list, report or notification, as it was sent or filed' })
