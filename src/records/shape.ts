import type { z } from 'zod'
import type { ArgValue, KeyPath } from '../types.js'
import { openKeyOf, roleOf } from './fields.js'
import { nearest } from './nearest.js'
import { quicklyAccepts } from './quick-accept.js'
import { schemaAt } from './schema-at.js'
import { valueAt } from './value-at.js'

/** A departure of a record from its schema. `unknown-key` alone leaves the rest of the record usable. */
export interface ShapeFault {
  readonly fault:
    | 'unknown-key'
    | 'missing-key'
    | 'wrong-type'
    | 'not-one-of'
    | 'bad-text'
    | 'bad-key'
    | 'impossible-count'
    | 'out-of-range'
    | 'too-few'
  readonly path: KeyPath
  readonly onKey: boolean
  readonly args: Readonly<Record<string, ArgValue>>
}

export type Shaped<T> = {
  readonly record: T
  readonly faults: readonly ShapeFault[]
  readonly usable: boolean
}

/**
 * Holds data against a schema. Unknown keys are reported and set aside; with any other fault the record is not
 * usable, and everything that would follow from it is left alone.
 */
export function shapeOf<T>(schema: z.ZodType<T>, data: unknown): Shaped<T> {
  if (quicklyAccepts(schema, data)) return { record: data as T, faults: [], usable: true }
  const result = schema.safeParse(data)
  if (result.success) return { record: result.data, faults: [], usable: true }
  const faults = result.error.issues.flatMap((issue) =>
    faultsOf(schema, data, issue as Issue, issue.path as (string | number)[]),
  )
  const usable = faults.every((fault) => fault.fault === 'unknown-key')
  if (!usable) return { record: data as T, faults, usable }
  const rest = without(data, faults)
  const again = schema.safeParse(rest)
  return { record: again.success ? again.data : (rest as T), faults, usable: again.success }
}

interface Issue {
  readonly code: string
  readonly expected?: string
  readonly keys?: string[]
  readonly values?: unknown[]
  readonly pattern?: string
  readonly origin?: string
  readonly minimum?: number
  readonly inclusive?: boolean
  readonly maximum?: number
  readonly errors?: Issue[][]
  readonly issues?: Issue[]
  readonly path?: (string | number)[]
}

function faultsOf(schema: z.ZodType, data: unknown, issue: Issue, path: (string | number)[]): ShapeFault[] {
  const value = valueAt(data, path)
  const at = { path, onKey: false }
  switch (issue.code) {
    case 'unrecognized_keys':
      return (issue.keys ?? []).map((key) => unknownKey(schemaAt(schema, path), path, key))
    case 'invalid_type':
      if (value === undefined)
        return [
          {
            fault: 'missing-key',
            ...at,
            path: path.slice(0, -1),
            onKey: true,
            args: { key: String(path.at(-1)), expected: expectedAt(schema, path) },
          },
        ]
      if (typeof value === 'number' && isCount(schema, path)) return [impossibleCount(at, value)]
      return misspeltField(schema, path, value) ?? [wrongType(schema, path, value)]
    case 'too_small':
      if (typeof value === 'number')
        return [
          isCount(schema, path)
            ? impossibleCount(at, value)
            : {
                fault: 'out-of-range',
                ...at,
                args: {
                  value,
                  limit: `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`,
                },
              },
        ]
      if (value === '') return [wrongType(schema, path, null)]
      return [{ fault: 'too-few', ...at, args: { least: issue.minimum ?? 1 } }]
    case 'too_big':
      return [
        {
          fault: 'out-of-range',
          ...at,
          args: {
            value: Array.isArray(value) ? `A list of ${value.length}` : String(value),
            limit: `at most ${issue.maximum}`,
          },
        },
      ]
    case 'invalid_value': {
      if (typeof value === 'object' || value === undefined)
        return value === undefined ? missing(schema, path) : [wrongType(schema, path, value)]
      const allowed = (issue.values ?? []).map(String)
      return [notOneOf(path, value, allowed)]
    }
    case 'invalid_format':
      return [
        {
          fault: 'bad-text',
          ...at,
          args: {
            value: String(value),
            expected: expectedAt(schema, path),
            example: exampleAt(schema, path),
          },
        },
      ]
    case 'invalid_key': {
      const key = String(path.at(-1))
      return [{ fault: 'bad-key', path, onKey: true, args: { key, example: exampleOfKey(schema, path) } }]
    }
    case 'invalid_union':
      return unionFaults(schema, data, issue, path, value)
    default:
      return [wrongType(schema, path, value)]
  }
}

/** A union is judged by the branch whose type the value has, so that a misspelt word is told what it may be. */
function unionFaults(
  schema: z.ZodType,
  data: unknown,
  issue: Issue,
  path: (string | number)[],
  value: unknown,
): ShapeFault[] {
  if (value === undefined) return missing(schema, path)
  const misspelt = misspeltField(schema, path, value)
  if (misspelt) return misspelt
  const branches = issue.errors ?? []
  const fitting = branches.filter(
    (branch) => !branch.some((inner) => (inner.path ?? []).length === 0 && inner.code === 'invalid_type'),
  )
  if (typeof value === 'number' && isCount(schema, path))
    return [impossibleCount({ path, onKey: false }, value)]
  const chosen = fitting.length === 1 ? fitting[0] : branches.length === 1 ? branches[0] : undefined
  if (!chosen) return [wrongType(schema, path, value)]
  return chosen.flatMap((inner) => faultsOf(schema, data, inner, [...path, ...(inner.path ?? [])]))
}

/**
 * Where every key that is no field names a pest or a device, a misspelt field is taken for one. If its value does
 * not fit what such a key holds, the field is likelier to be meant.
 */
function misspeltField(schema: z.ZodType, path: KeyPath, value: unknown): ShapeFault[] | undefined {
  const parent = path.length > 0 ? schemaAt(schema, path.slice(0, -1)) : undefined
  if (!parent || !openKeyOf(parent) || isCountLike(value)) return undefined
  const key = String(path.at(-1))
  const fields = Object.keys(shapeOfObject(parent) ?? {})
  if (fields.includes(key) || nearest(key, fields) === undefined) return undefined
  return [unknownKey(parent, path.slice(0, -1), key)]
}

const isCountLike = (value: unknown) =>
  typeof value === 'number' || (typeof value === 'object' && value !== null && !Array.isArray(value))

function missing(schema: z.ZodType, path: (string | number)[]): ShapeFault[] {
  return [
    {
      fault: 'missing-key',
      path: path.slice(0, -1),
      onKey: true,
      args: { key: String(path.at(-1)), expected: expectedAt(schema, path) },
    },
  ]
}

function unknownKey(parent: z.ZodType | undefined, path: KeyPath, key: string): ShapeFault {
  const known = Object.keys((parent && shapeOfObject(parent)) ?? {})
  const meant = nearest(key, known)
  return {
    fault: 'unknown-key',
    path: [...path, key],
    onKey: true,
    args: meant === undefined ? { key, known } : { key, meant },
  }
}

function notOneOf(path: KeyPath, value: unknown, allowed: string[]): ShapeFault {
  const meant = typeof value === 'boolean' ? (value ? 'yes' : 'no') : nearest(String(value), allowed)
  return {
    fault: 'not-one-of',
    path,
    onKey: false,
    args: {
      value: String(value),
      allowed,
      ...(meant !== undefined && allowed.includes(meant) ? { meant } : {}),
    },
  }
}

function impossibleCount(at: { path: KeyPath; onKey: boolean }, value: number): ShapeFault {
  return { fault: 'impossible-count', ...at, args: { value } }
}

function wrongType(schema: z.ZodType, path: KeyPath, value: unknown): ShapeFault {
  return {
    fault: 'wrong-type',
    path,
    onKey: false,
    args: {
      got: typeWord(value),
      expected: expectedAt(schema, path),
      example: exampleAt(schema, path),
      ...quotesFor(schema, path, value),
    },
  }
}

/** A number or true where text is wanted: the same in quotes, if that would do. */
function quotesFor(schema: z.ZodType, path: KeyPath, value: unknown): { quoted?: string } {
  if (typeof value !== 'number' && typeof value !== 'boolean') return {}
  return schemaAt(schema, path)?.safeParse(String(value)).success ? { quoted: `"${value}"` } : {}
}

function isCount(schema: z.ZodType, path: KeyPath): boolean {
  const here = schemaAt(schema, path)
  if (!here) return false
  if (roleOf(here)?.role === 'count') return true
  const def = here.def as unknown as { type: string; options?: z.ZodType[] }
  return def.type === 'union' && (def.options ?? []).some((option) => roleOf(option)?.role === 'count')
}

export function typeWord(value: unknown): string {
  if (value === null || value === undefined) return 'nothing'
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object') return 'a map'
  if (typeof value === 'string') return 'text'
  if (typeof value === 'boolean') return `the value ${value}`
  return 'a number'
}

function expectedAt(schema: z.ZodType, path: KeyPath): string {
  const here = schemaAt(schema, path)
  return (here?.meta()?.description as string | undefined) ?? ''
}

function exampleAt(schema: z.ZodType, path: KeyPath): string {
  const examples = schemaAt(schema, path)?.meta()?.examples as unknown[] | undefined
  if (!examples || examples.length === 0) return ''
  return typeof examples[0] === 'string' ? examples[0] : onOneLine(examples[0])
}

/** JSON with the quotes around simple keys and words left out, which is how one would write it in YAML. */
function onOneLine(value: unknown): string {
  return JSON.stringify(value)
    .replace(/"([A-Za-z][A-Za-z0-9-]*)"/g, '$1')
    .replace(/([:,])/g, '$1 ')
}

function exampleOfKey(schema: z.ZodType, path: KeyPath): string {
  const parent = schemaAt(schema, path.slice(0, -1))
  const keyType = (parent?.def as unknown as { keyType?: z.ZodType } | undefined)?.keyType
  const examples = keyType?.meta()?.examples as unknown[] | undefined
  return typeof examples?.[0] === 'string' ? examples[0] : 'kitchen'
}

/** The known fields of an object, also where it is one branch of a union. */
export function shapeOfObject(schema: z.ZodType): Record<string, z.ZodType> | undefined {
  const def = schema.def as unknown as { shape?: Record<string, z.ZodType>; options?: z.ZodType[] }
  return def.shape ?? def.options?.map(shapeOfObject).find((shape) => shape !== undefined)
}

/** The data without the unknown keys, so that the rest of the record still counts. */
function without(data: unknown, faults: readonly ShapeFault[]): unknown {
  const copy = structuredClone(data)
  for (const fault of faults) {
    const parent = valueAt(copy, fault.path.slice(0, -1))
    const key = fault.path.at(-1)
    if (typeof parent === 'object' && parent !== null && key !== undefined)
      delete (parent as Record<string | number, unknown>)[key]
  }
  return copy
}
