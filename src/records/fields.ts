import { z } from 'zod'

/**
 * The building blocks of every record. No transforms and no refinements, so that the JSON Schema made from a
 * record says exactly what the program accepts. What a block means beyond its shape (it names another record,
 * it is a date, it is a file) is kept in `roleOf`, from which linking and date checks follow by themselves.
 */

export type ReferenceKind =
  | 'person'
  | 'firm'
  | 'product'
  | 'plan'
  | 'site'
  | 'rulebook'
  | 'area'
  | 'device'
  | 'run'
  | 'condition'
  | 'complaint'
  | 'application'
  | 'visit'
  | 'sighting'
  | 'pest'
  | 'rule'

export type Role =
  | { readonly role: 'reference'; readonly to: ReferenceKind }
  | { readonly role: 'date' }
  | { readonly role: 'dates' }
  | { readonly role: 'hours' }
  | { readonly role: 'file' }
  | { readonly role: 'count' }

const roles = new WeakMap<z.ZodType, Role>()

/** What a schema means beyond its shape, if anything. */
export function roleOf(schema: z.ZodType): Role | undefined {
  return roles.get(schema)
}

function withRole<T extends z.ZodType>(schema: T, role: Role): T {
  roles.set(schema, role)
  return schema
}

/** Gives a schema its meaning in one line and an example, keeping its role. */
export function about<T extends z.ZodType>(schema: T, description: string, ...examples: unknown[]): T {
  const described = schema.meta(examples.length > 0 ? { description, examples } : { description }) as T
  const role = roles.get(schema)
  return role ? withRole(described, role) : described
}

/** Words YAML readers, old and new, or JavaScript itself, may take for something other than a name. */
const notNames = [
  'true',
  'false',
  'null',
  'yes',
  'no',
  'on',
  'off',
  'y',
  'n',
  'none',
  'other',
  'constructor',
  'prototype',
  'toString',
  'valueOf',
]
const notANameAhead = `(?!(?:${notNames.join('|')})$)`
/** Ids that are file names: small letters, since some disks do not tell K from k. */
export const recordIdPattern = `^${notANameAhead}[a-z][a-z0-9-]*$`
/** Ids inside a record: as printed on the device, so capitals are welcome. */
export const nameIdPattern = `^${notANameAhead}[A-Za-z][A-Za-z0-9-]*$`
/** A thing inside another record: its own name, or the record's name, a slash and its name. */
export const insideReferencePattern = `^(?:[0-9]{4}-[0-9]{2}-[0-9]{2}-[a-z][a-z0-9-]*/)?${notANameAhead}[A-Za-z][A-Za-z0-9-]*$`
export const eventIdPattern = '^[0-9]{4}-[0-9]{2}-[0-9]{2}-[a-z][a-z0-9-]*$'

const patternOf: Record<ReferenceKind, string> = {
  person: recordIdPattern,
  firm: recordIdPattern,
  product: recordIdPattern,
  plan: recordIdPattern,
  site: recordIdPattern,
  rulebook: recordIdPattern,
  pest: recordIdPattern,
  rule: recordIdPattern,
  area: nameIdPattern,
  device: nameIdPattern,
  run: nameIdPattern,
  condition: insideReferencePattern,
  sighting: insideReferencePattern,
  complaint: eventIdPattern,
  application: eventIdPattern,
  visit: eventIdPattern,
}

export function text(description: string, ...examples: string[]) {
  return about(z.string().min(1), description, ...examples)
}

export function oneOf<const T extends readonly [string, ...string[]]>(values: T, description: string) {
  return about(z.enum(values), description, values[0])
}

export function yesNo(description: string) {
  return about(z.enum(['yes', 'no']), description, 'yes')
}

/** A field that is only ever written when it is so. */
export function yes(description: string) {
  return about(z.literal('yes'), description, 'yes')
}

export function wholeNumber(description: string, ...examples: number[]) {
  return about(z.int().min(0), description, ...examples)
}

export function positiveNumber(description: string, ...examples: number[]) {
  return about(z.number().positive(), description, ...examples)
}

/** Names another record, or a thing in one; linking follows from it. */
export function reference(to: ReferenceKind, description: string, ...examples: string[]) {
  return withRole(about(z.string().regex(new RegExp(patternOf[to])), description, ...examples), {
    role: 'reference',
    to,
  })
}

export function name(description: string, ...examples: string[]) {
  return about(z.string().regex(new RegExp(nameIdPattern)), description, ...examples)
}

const dateText = '[0-9]{4}-[0-9]{2}-[0-9]{2}'
const timeText = '(?:[01][0-9]|2[0-3]):[0-5][0-9](?:[+-][0-9]{2}:[0-9]{2})?'

/** A day, as text: 2026-03-12. */
export function date(description: string, example = '2026-03-12') {
  return withRole(about(z.string().regex(new RegExp(`^${dateText}$`)), description, example), {
    role: 'date',
  })
}

/** One day, or the first and last day of a span: 2025-12-22 to 2026-01-02. */
export function dates(description: string) {
  const schema = z.string().regex(new RegExp(`^${dateText}(?: to ${dateText})?$`))
  return withRole(about(schema, description, '2025-12-22 to 2026-01-02'), { role: 'dates' })
}

/** A clock time in the district's zone; an hour that happens twice in autumn needs its offset. */
export function time(description: string) {
  return about(z.string().regex(new RegExp(`^${timeText}$`)), description, '06:10')
}

/** Start and end on one day: 06:10 to 06:50. */
export function hours(description: string) {
  const schema = z.string().regex(new RegExp(`^${timeText} to ${timeText}$`))
  return withRole(about(schema, description, '06:10 to 06:50'), { role: 'hours' })
}

/** A file beside the record that names it. It may lie deeper, never higher. */
export function file(description: string, ...examples: string[]) {
  const schema = z.string().regex(/^(?!\/)(?!.*(?:^|\/)\.\.?(?:\/|$))[^\\:\n\r]{1,200}$/u)
  return withRole(about(schema, description, ...examples), { role: 'file' })
}

export function sha256(description = 'SHA-256 of the file, so that a changed file is noticed') {
  return about(
    z.string().regex(/^[0-9a-f]{64}$/),
    description,
    'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  )
}

/** A quantity is one scalar with its unit: `4.5 fl oz`. */
export function quantity(units: readonly string[], description: string, ...examples: string[]) {
  const alternatives = units.map((unit) => unit.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')
  return about(
    z.string().regex(new RegExp(`^(?:0|[1-9][0-9]*)(?:\\.[0-9]+)? (?:${alternatives})$`)),
    description,
    ...examples,
  )
}

/** Things inside a record are keyed, never listed, so that they have names. */
export function keyed<T extends z.ZodType>(key: z.ZodString, value: T, description: string) {
  return about(z.record(key, value), description)
}

const keyRoles = new WeakMap<z.ZodType, z.ZodType>()

/** The schema of the open keys of an object made by `openObject`. */
export function openKeyOf(schema: z.ZodType): z.ZodType | undefined {
  return keyRoles.get(schema)
}

/** An object with known fields, whose other keys all name something (a device, a pest) and share one shape. */
export function openObject<S extends z.core.$ZodLooseShape, T extends z.ZodType>(
  shape: S,
  key: z.ZodType,
  value: T,
  description: string,
  ...examples: unknown[]
) {
  const meaning = examples.length > 0 ? { description, examples } : { description }
  const schema = z.object(shape).catchall(value).meta(meaning)
  keyRoles.set(schema, key)
  return schema
}

/** How many were seen: a number, or numbers by life stage. */
export function count(description: string) {
  const whole = withRole(z.int().min(0), { role: 'count' })
  const stages = Object.fromEntries(
    lifeStages.map((stage) => [
      stage,
      withRole(
        z
          .int()
          .min(0)
          .meta({ description: `How many ${stage}` }),
        { role: 'count' },
      ).optional(),
    ]),
  )
  return z.union([whole, z.strictObject(stages as Record<LifeStage, z.ZodOptional<z.ZodInt>>)]).meta({
    description,
    examples: [3, { nymphs: 4, adults: 1 }],
  })
}

export const lifeStages = [
  'adults',
  'nymphs',
  'larvae',
  'pupae',
  'eggs',
  'egg-cases',
  'juveniles',
  'workers',
  'queens',
  'swarmers',
  'unknown',
] as const
export type LifeStage = (typeof lifeStages)[number]

/** A departure from what was first written, stated instead of silently made. */
export const corrections = z
  .array(
    z.strictObject({
      on: date('Day the record was corrected'),
      by: reference('person', 'Who corrected it', 'okafor'),
      why: text('Why', 'the paper page says K7, not K1'),
      keys: z
        .array(text('Key that changed', 'readings.K7'))
        .min(1)
        .meta({ description: 'The keys that changed' }),
    }),
  )
  .meta({ description: 'Stated corrections; a committed record is never edited silently' })
  .optional()

/** What every event says about its making: who did it, who typed it, when the paper was filled in. */
export const eventFields = {
  by: reference('person', 'Who did or noted it; the same person as in the file name', 'okafor'),
  'entered-by': reference('person', 'Who typed it, when that was someone else', 'reyes').optional(),
  'on-paper': date('Day the paper page was filled in, when the record was typed from paper').optional(),
  notes: text('Anything else worth keeping; no names of pupils or of people who asked to be told').optional(),
  corrections,
}

/** Days on which a dated span of a reference record holds; both ends are days on which it holds. */
export const spanFields = {
  from: date('First day on which this holds'),
  until: date('Last day on which this holds; leave out while it still does').optional(),
}
