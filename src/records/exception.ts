import { z } from 'zod'
import { date, reference, text } from './fields.js'

/** `exceptions/<id>.yaml`: a dated, reasoned departure. It never excuses law. */
export const exception = z
  .strictObject({
    rule: reference('rule', 'Rule it departs from', 'area-never-inspected'),
    site: reference('site', 'Site it holds for; all if not said').optional(),
    record: text(
      'Record it holds for: path in the ledger',
      'sites/ottermere/visits/2026-03-12-okafor.yaml',
    ).optional(),
    key: text('Key in that record, joined by dots', 'readings.K7').optional(),
    about: text(
      'The thing it is about: area, device, product or other name the problem mentions',
      'boiler-room',
    ).optional(),
    by: reference('person', 'Who decided it', 'marsh'),
    why: text('Why', 'boiler room under asbestos work until August'),
    from: date('First day it holds'),
    until: date('Last day it holds'),
  })
  .meta({ description: 'A dated, reasoned departure from a rule that is not law' })
