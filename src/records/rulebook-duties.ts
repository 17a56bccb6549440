import { z } from 'zod'
import { about, keyed, name, oneOf, quantity, text, wholeNumber, yes, yesNo } from './fields.js'
import { filingContents } from './filing.js'
import { basis } from './rulebook-basis.js'
import { areaUnits, leadUnits, shortTimeUnits, yearUnits } from './units.js'
import { noticeContents, postingPlaces, recordElements, yearlyKinds } from './use-words.js'

/** The sections of a rulebook. Each duty is written in dated versions, each with its source. */

const className = name('Class of uses defined under `uses`', 'bait-out-of-reach')

const duty = {
  ...basis,
  'holds-for': z
    .array(className)
    .min(1)
    .meta({ description: 'Only uses of one of these classes; every use if not said' })
    .optional(),
  'not-for': z
    .array(className)
    .min(1)
    .meta({ description: 'Exempt: uses of any of these classes' })
    .optional(),
} as const

const contents = z
  .array(oneOf(noticeContents, 'What it must say'))
  .min(1)
  .meta({ description: 'What it must say' })

/** The words themselves, where the law sets them and its text is at hand. */
const words = z
  .strictObject({
    'warning-words': text('Warning words of a sign', 'Invented Warning Words').optional(),
    'sensitive-persons-statement': text(
      'Statement for people who are sensitive',
      'An invented statement.',
    ).optional(),
  })
  .meta({ description: 'Words that stand in it as they are, where the source sets them' })
  .optional()

const notice = z.strictObject({
  ...duty,
  to: oneOf(['parents', 'staff'], 'Who is told'),
  reach: oneOf(
    ['all', 'all or those who asked', 'those who asked'],
    'Whether all of them, or those on a list',
  ),
  lead: quantity(leadUnits, 'How long before the start it is sent, at least', '72 hours'),
  'not-before': quantity(
    leadUnits,
    'How long before the start it may be sent, at most',
    '30 days',
  ).optional(),
  says: contents.optional(),
  words,
  'unless-in-recess': yes('Does not hold in a recess while no pupils use the building').optional(),
})

const posting = z.strictObject({
  ...duty,
  before: quantity(leadUnits, 'How long before the start signs hang, at least', '72 hours').optional(),
  after: quantity(leadUnits, 'How long after the end they stay, at least', '72 hours').optional(),
  size: about(
    z.string().regex(/^[0-9]+(?:\.[0-9]+)? x [0-9]+(?:\.[0-9]+)? in$/),
    'Smallest size of a sign',
    '8.5 x 11 in',
  ).optional(),
  'at-the': z
    .array(oneOf(postingPlaces, 'Kind of place'))
    .min(1)
    .meta({ description: 'Where signs hang: each of these' })
    .optional(),
  says: contents.optional(),
  words,
  'unless-in-recess': yes('Does not hold in a recess while no pupils use the building').optional(),
})

const reentry = z.strictObject({
  ...duty,
  wait: quantity(shortTimeUnits, 'How long pupils stay out after the end, at least', '7 h').optional(),
  label: oneOf(
    ['instead', 'if longer'],
    'What the time on the label does: it takes the place of `wait`, or holds where it is longer',
  ),
  dry: yes('Not before it is dry or settled').optional(),
})

const occupancy = z.strictObject({
  ...duty,
  pupils: oneOf(['none in the building', 'none in the area'], 'Where no pupils may be while it is applied'),
  'unless-separated': yes(
    'Pupils may be elsewhere in the building if the part has its own ventilation and fire doors',
  ).optional(),
})

const emergency = z.strictObject({
  ...duty,
  'notice-within': quantity(
    ['hours', 'days'],
    'How long after the start the notice goes out, at most',
    '24 hours',
  ).optional(),
  'or-next-school-morning': yes('Or the morning of the next school day, if that is earlier').optional(),
  'notice-to': oneOf(
    ['all', 'all or those who asked', 'those who asked'],
    'Who is told afterwards',
  ).optional(),
  'notice-for': z
    .array(oneOf(['parents', 'staff'], 'Parents or staff'))
    .min(1)
    .meta({ description: 'Whom that means; whoever `notices` of this rulebook tells, if not said' })
    .optional(),
  says: contents.optional(),
  words,
  statement: oneOf(['written', 'signed'], 'What is kept of the circumstances').optional(),
  prevention: yes('The statement says how the next one is prevented').optional(),
  'sign-at-start': yes('A sign is posted when the application begins').optional(),
  'sign-after': quantity(
    leadUnits,
    'How long after the end that sign stays, at least',
    '72 hours',
  ).optional(),
})

const record = z.strictObject({
  ...duty,
  elements: z
    .array(oneOf(recordElements, 'What the record holds'))
    .min(1)
    .meta({ description: 'What the record holds, beyond product, day, place and who' })
    .optional(),
  'short-form-under': quantity(
    areaUnits,
    'Total extent treated on one day below which the short form will do',
    '4356 ft2',
  ).optional(),
  'short-form': z
    .array(oneOf(recordElements, 'What the short form holds'))
    .min(1)
    .meta({ description: 'What the short form holds' })
    .optional(),
  within: quantity(['days'], 'How long after the application it is written, at most', '14 days').optional(),
})

const keeping = z.strictObject({
  ...duty,
  what: oneOf(['applications', 'notices', 'sds'], 'Records of which kind'),
  keep: quantity(yearUnits, 'How long they are kept, at least', '2 years'),
})

const licence = z.strictObject({
  ...duty,
  of: oneOf(['applicator', 'firm'], 'Whose licence'),
  'in-state': yes('Given by the state of this rulebook').optional(),
  supervised: yesNo('Whether someone without one may apply under a certified applicator').optional(),
  categories: z
    .array(text('Category as the state names it', 'structural'))
    .min(1)
    .meta({ description: 'One of these categories, in the words of the licence' })
    .optional(),
})

const registration = z.strictObject({
  ...duty,
  'in-state': yes('Registered in the state of this rulebook').optional(),
})

const approval = z.strictObject({
  ...duty,
  by: z
    .array(oneOf(['certified-applicator', 'coordinator'], 'Who'))
    .min(1)
    .meta({ description: 'Everyone who approves beforehand, in writing' }),
  'good-for': quantity(yearUnits, 'How long an approval is good', '6 months').optional(),
})

const prohibition = z.strictObject({
  ...duty,
  what: text('What is not done', 'use of a product whose registration was cancelled'),
})

const yearly = z.strictObject({
  ...duty,
  what: oneOf(yearlyKinds, 'What is sent or filed'),
  year: oneOf(['school', 'calendar'], 'For which kind of year'),
  every: wholeNumber('Every so many years; each year if not said', 5).optional(),
  once: yes('Once for all: what was filed for an earlier year will do').optional(),
  'days-from-start': wholeNumber(
    'Due so many days from the start of the year; without it and without `days-after-end`, by its last day',
    30,
  ).optional(),
  'days-after-end': wholeNumber('Due so many days after the year has ended', 30).optional(),
  to: oneOf(['everyone', 'the state', 'the public'], 'To whom').optional(),
  says: z
    .array(oneOf(filingContents, 'What it must say'))
    .min(1)
    .meta({ description: 'What it must say' })
    .optional(),
  'lists-products': yes('Names every product that will be, or was, used in that year').optional(),
  'only-if-used': yes('Only for a year in which a use it holds for was made').optional(),
})

const training = z.strictObject({
  ...duty,
  who: oneOf(['coordinator', 'whoever applies'], 'Who is trained'),
  course: name('Course, as training records name it under `course`', 'coordinator-course'),
  every: quantity(yearUnits, 'How often', '1 year'),
  within: quantity(
    yearUnits,
    'How soon after beginning, where there is time for that',
    '6 months',
  ).optional(),
})

const sectionOf = <T extends z.ZodType>(entry: T, example: string, description: string) =>
  keyed(
    name('Short name of the duty', example),
    about(z.array(entry).min(1), 'The duty in dated versions'),
    description,
  ).optional()

export const dutyEntries = {
  notices: notice,
  postings: posting,
  reentry,
  occupancy,
  emergencies: emergency,
  records: record,
  keeping,
  licences: licence,
  registrations: registration,
  approvals: approval,
  prohibitions: prohibition,
  yearly,
  training,
} as const

export const duties = {
  notices: sectionOf(notice, 'parents', 'Who is told before an application, and how long before'),
  postings: sectionOf(posting, 'signs', 'Signs before and after'),
  reentry: sectionOf(reentry, 'wait', 'How long pupils stay out afterwards'),
  occupancy: sectionOf(occupancy, 'pupils-away', 'Where pupils may not be during an application'),
  emergencies: sectionOf(emergency, 'emergency', 'What takes the place of notice beforehand in an emergency'),
  records: sectionOf(
    record,
    'application',
    'What the record of an application holds, and how soon it is written',
  ),
  keeping: sectionOf(keeping, 'applications', 'How long records are kept'),
  licences: sectionOf(licence, 'applicator', 'Whose licence an application needs'),
  registrations: sectionOf(registration, 'in-state', 'Where a product is registered'),
  approvals: sectionOf(approval, 'before-use', 'Who approves beforehand'),
  prohibitions: sectionOf(prohibition, 'cancelled', 'What is not done at all'),
  yearly: sectionOf(yearly, 'annual-notice', 'What is sent or filed for a year'),
  training: sectionOf(training, 'coordinator', 'Who is trained, in what, how often'),
} as const

export type DutySection = keyof typeof duties
export const dutySections = Object.keys(duties) as DutySection[]
export type DutyOf<S extends DutySection> = z.infer<(typeof dutyEntries)[S]>
