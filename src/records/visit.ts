import { z } from 'zod'
import { action, plant } from './action.js'
import { condition } from './condition.js'
import { deviceMoved, deviceSet } from './device.js'
import {
  about,
  eventFields,
  file,
  hours,
  keyed,
  name,
  nameIdPattern,
  oneOf,
  reference,
  text,
} from './fields.js'
import { readings } from './reading.js'
import { sighting } from './sighting.js'

export const purposes = ['routine', 'callback', 'trap-check', 'follow-up', 'set-up'] as const

const deviceKey = z.string().regex(new RegExp(nameIdPattern))

/** `sites/<site>/visits/<date>-<who>.yaml`: one visit, and the ground of its service report. */
export const visit = z
  .strictObject({
    purpose: oneOf(purposes, 'Why the visit was made; a routine visit is the service of the contract'),
    ...eventFields,
    with: z
      .array(reference('person', 'Person'))
      .min(1)
      .meta({ description: 'Who else took part' })
      .optional(),
    'supervised-by': reference(
      'person',
      'Certified applicator who supervised the bait put into devices, where that asks for one',
      'vale',
    ).optional(),
    time: hours('Start and end').optional(),
    'site-manager': about(
      z.string().regex(/^(?:left word|designee|[a-z][a-z0-9-]*)$/),
      'The site manager met (id of the person), `designee` for someone standing in, or `left word`',
      'lind',
    ).optional(),
    'complaint-log': oneOf(
      ['read', 'not found', 'locked away'],
      'Whether the complaint log of the site was read',
    ).optional(),
    answers: keyed(
      reference('complaint', 'Complaint'),
      text('What was found and said', 'traps set, nothing seen'),
      'Complaints looked at',
    ).optional(),
    inspected: z.array(reference('area', 'Area')).min(1).meta({ description: 'Areas inspected' }).optional(),
    'no-entry': keyed(
      reference('area', 'Area'),
      text('Why', 'no key'),
      'Areas that could not be entered, and why',
    ).optional(),
    set: keyed(deviceKey, deviceSet, 'Devices set').optional(),
    moved: keyed(
      reference('device', 'Device'),
      deviceMoved,
      'Devices moved, after they were read',
    ).optional(),
    'picked-up': z
      .array(reference('device', 'Device'))
      .min(1)
      .meta({ description: 'Traps picked up while pupils are here, to be put out again' })
      .optional(),
    'put-out': z
      .array(reference('device', 'Device'))
      .min(1)
      .meta({ description: 'Picked-up traps put out again at their place' })
      .optional(),
    'taken-up': keyed(
      reference('device', 'Device'),
      text('Why', 'room closed'),
      'Devices taken up for good, after they were read',
    ).optional(),
    readings: readings.optional(),
    found: keyed(
      name('Short name of the sighting', 'behind-dish-machine'),
      sighting,
      'Evidence seen outside devices',
    ).optional(),
    conditions: keyed(
      reference('condition', 'Short name of the condition'),
      condition,
      'Correctable conditions: new, still there, fixed, closed, holding',
    ).optional(),
    actions: keyed(
      name('Short name of the action', 'vacuumed-channel'),
      action,
      'Tactics carried out',
    ).optional(),
    plants: keyed(
      name('Short name of the plant', 'fern-12'),
      plant,
      'Plants removed, treated off the property, returned',
    ).optional(),
    files: keyed(
      name('Short name', 'page-1'),
      z.strictObject({
        file: file('Photo or scan beside the visit', '2026-03-12-okafor-page.jpg'),
        shows: text('What it shows', 'scan of the paper page'),
      }),
      'Photos and scans',
    ).optional(),
    recommended: text('Advice to the site manager', 'empty the classroom bins nightly').optional(),
  })
  .meta({ description: 'One visit to one site' })
