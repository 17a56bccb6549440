import { z } from 'zod'
import { text, yes } from './fields.js'
import { licences } from './licence.js'

/** `firms/<id>.yaml`: whoever employs the people who apply pesticides: a contractor, or the district itself. */
export const firm = z
  .strictObject({
    name: text('Name of the firm or department', 'Invented Pest Services'),
    address: text('Address', '4 Invented Road, Alder Fork').optional(),
    phone: text('Where to reach it', '555-0100').optional(),
    licences: licences.optional(),
    own: yes('It is the district itself or a department of it, and not a firm for hire').optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: 'A firm or department whose people apply pesticides: its licences and address' })
