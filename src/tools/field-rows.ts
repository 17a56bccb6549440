import { z } from 'zod'
import { eventFields, openKeyOf, roleOf, time } from '../records/fields.js'
import type { Yaml } from '../writing/demo/yaml.js'
import { flowText } from '../writing/demo/yaml.js'

/** One row of the field reference. */
export interface FieldRow {
  /** Keys from the top of the record; `<area>` stands for any name, `[]` for each item of a list. */
  readonly path: string
  readonly needed: boolean
  /** What it holds: a type, or the words it may be. Markdown. */
  readonly holds: string
  readonly units: readonly string[]
  readonly meaning: string
  readonly example: string
}

interface Definition {
  readonly type: string
  readonly innerType: z.ZodType
  readonly element: z.ZodType
  readonly keyType: z.ZodType
  readonly valueType: z.ZodType
  readonly catchall?: z.ZodType
  readonly shape: Readonly<Record<string, z.ZodType>>
  readonly options: readonly z.ZodType[]
  readonly items: readonly z.ZodType[]
}

const definitionOf = (schema: z.ZodType) => schema.def as unknown as Definition

/** The fields every event has, in a table of their own. */
export function eventRows(): FieldRow[] {
  return Object.entries(eventFields).flatMap(([key, field]) => rowsOf(key, [key], field))
}

/** Whether a record has the fields of an event, which its own table leaves out. */
export function isEvent(schema: z.ZodType): boolean {
  const { shape } = definitionOf(schema)
  return Object.entries(eventFields).every(([key, field]) => shape[key] === field)
}

/** All fields of a record, in the order of its schema, but for those that every event has. */
export function fieldRows(schema: z.ZodType): FieldRow[] {
  return rowsBelow('', schema, isEvent(schema) ? eventFields : {})
}

function rowsBelow(
  prefix: string,
  object: z.ZodType,
  leftOut: Readonly<Record<string, z.ZodType>> = {},
): FieldRow[] {
  const { shape, catchall } = definitionOf(object)
  const rows: FieldRow[] = []
  const keysOf = new Map<z.ZodType, string[]>()
  for (const [key, field] of Object.entries(shape)) {
    if (leftOut[key] === field) continue
    const inner = unwrapped(field)
    const alike = definitionOf(inner).type === 'object' ? keysOf.get(inner) : undefined
    if (alike) alike.push(key)
    else keysOf.set(inner, [key])
  }
  for (const keys of keysOf.values()) {
    const field = shape[keys[0] ?? '']
    if (field) rows.push(...rowsOf(`${prefix}${keys[0]}`, keys, field))
  }
  const openKey = openKeyOf(object)
  if (openKey && catchall) rows.push(...rowsOf(`${prefix}${placeholder(openKey)}`, [], catchall))
  return rows
}

/** The row of one field and the rows below it. Several keys of one schema share them. */
function rowsOf(path: string, keys: readonly string[], field: z.ZodType): FieldRow[] {
  const schema = unwrapped(field)
  const meta = schema.meta() ?? {}
  const others = keys.slice(1).map(code).join(', ')
  const row = {
    path,
    needed: keys.length > 0 && definitionOf(field).type !== 'optional',
    holds: others === '' ? holds(schema) : `${holds(schema)}; the same under ${others}`,
    units: unitsOf(schema),
    meaning: meta.description ?? '',
    example: exampleOf(meta.examples),
  }
  return [row, ...rowsInside(path, schema)]
}

function rowsInside(path: string, schema: z.ZodType): FieldRow[] {
  const def = definitionOf(schema)
  if (def.type === 'object') return rowsBelow(`${path}.`, schema)
  if (def.type === 'array') return rowsInside(`${path}[]`, unwrapped(def.element))
  if (def.type === 'record')
    return rowsInside(`${path}.${placeholder(def.keyType)}`, unwrapped(def.valueType))
  return []
}

function unwrapped(schema: z.ZodType): z.ZodType {
  const def = definitionOf(schema)
  return def.type === 'optional' ? unwrapped(def.innerType) : schema
}

function placeholder(key: z.ZodType): string {
  const role = roleOf(key)
  return role?.role === 'reference' ? `<${role.to}>` : '<name>'
}

const code = (word: unknown) => `\`${word}\``

/** What a field holds, in words. */
function holds(schema: z.ZodType): string {
  const role = roleOf(schema)
  if (role?.role === 'reference') return `${role.to} (its id)`
  if (role && role.role in wordOfRole) return wordOfRole[role.role] ?? ''
  const def = definitionOf(schema)
  switch (def.type) {
    case 'string':
      return textWord(schema)
    case 'number':
      return numberWord(schema)
    case 'enum':
    case 'literal':
      return wordsOf(schema).map(code).join(', ')
    case 'array': {
      const item = holds(unwrapped(def.element))
      return item === 'map' ? 'list of maps' : `list: ${item}`
    }
    case 'tuple':
      return `list of ${def.items.length} numbers`
    case 'record': {
      const value = holds(unwrapped(def.valueType))
      return `by ${keyWord(def.keyType)}: ${value === 'map' ? 'a map each' : value}`
    }
    case 'union':
      return def.options.map(branchWord).join(', or ')
    default:
      return 'map'
  }
}

const wordOfRole: Readonly<Record<string, string>> = {
  date: 'date',
  dates: 'date, or date to date',
  hours: 'start to end',
  file: 'file beside the record',
  count: 'whole number',
}

function keyWord(key: z.ZodType): string {
  const role = roleOf(key)
  return role?.role === 'reference' ? role.to : 'name'
}

/** A branch that is a map names its keys, since a union has no rows of its own below it. */
function branchWord(schema: z.ZodType): string {
  const def = definitionOf(schema)
  if (def.type !== 'object') return holds(schema)
  return `a map of ${Object.keys(def.shape).map(code).join(', ')}`
}

interface Json {
  readonly pattern?: string
  readonly minimum?: number
  readonly maximum?: number
  readonly exclusiveMinimum?: number
  readonly type?: string
  readonly enum?: readonly unknown[]
  readonly const?: unknown
}

const jsonOf = (schema: z.ZodType) => z.toJSONSchema(schema, { target: 'draft-7', io: 'input' }) as Json

function wordsOf(schema: z.ZodType): readonly unknown[] {
  const json = jsonOf(schema)
  return json.enum ?? [json.const]
}

const timePattern = jsonOf(time('')).pattern

function textWord(schema: z.ZodType): string {
  const { pattern } = jsonOf(schema)
  if (pattern === undefined) return 'text'
  if (pattern === timePattern) return 'time of day'
  return unitsOf(schema).length > 0 ? 'number and unit' : 'text, in the form of the example'
}

function numberWord(schema: z.ZodType): string {
  const { type, minimum, maximum, exclusiveMinimum } = jsonOf(schema)
  const word = type === 'integer' ? 'whole number' : exclusiveMinimum === 0 ? 'number above 0' : 'number'
  const isBounded = maximum !== undefined && maximum < Number.MAX_SAFE_INTEGER
  return isBounded ? `${word}, ${minimum} to ${maximum}` : word
}

/** The units a quantity may have: its pattern lists them, and nothing else in a record has such a pattern. */
export function unitsOf(schema: z.ZodType): readonly string[] {
  const def = definitionOf(schema)
  if (def.type === 'array') return unitsOf(unwrapped(def.element))
  if (def.type !== 'string') return []
  const alternatives = /^\^\(\?:0\|\[1-9\]\[0-9\]\*\)\(\?:\\\.\[0-9\]\+\)\? \(\?:(.*)\)\$$/.exec(
    jsonOf(schema).pattern ?? '',
  )?.[1]
  return alternatives === undefined ? [] : alternatives.replaceAll('\\', '').split('|')
}

function exampleOf(examples: unknown): string {
  const first = Array.isArray(examples) ? examples[0] : undefined
  if (first === undefined) return ''
  return typeof first === 'string' ? first : flowText(first as Yaml)
}
