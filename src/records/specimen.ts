import { z } from 'zod'
import { date, eventFields, oneOf, reference, text } from './fields.js'

/** `sites/<site>/specimens/<date>-<who>.yaml`, dated the day it was taken. */
export const specimen = z
  .strictObject({
    ...eventFields,
    sighting: reference('sighting', 'Sighting it was taken from', '2026-03-12-okafor/small-flies').optional(),
    device: reference('device', 'Device it was taken from').optional(),
    area: reference('area', 'Where it was taken', 'kitchen').optional(),
    kept: text('Where it is kept', 'alcohol vial 14, coordinator office'),
    'sent-to': text('Who was asked', 'county extension office').optional(),
    'sent-on': date('Day it was sent').optional(),
    determined: z
      .strictObject({
        as: reference('pest', 'What it is', 'fungus-gnat').optional(),
        other: text('What it is, when it is in no table').optional(),
        by: text('Who says so', 'county extension office'),
        on: date('Day of the answer'),
        sure: oneOf(['sure', 'likely'], 'How sure'),
      })
      .meta({ description: 'What it was determined as' })
      .optional(),
  })
  .meta({ description: 'A specimen: where it is kept, who was asked, what it is' })
