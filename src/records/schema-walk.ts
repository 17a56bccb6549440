import type { z } from 'zod'
import type { KeyPath } from '../types.js'
import type { Role } from './fields.js'
import { openKeyOf, roleOf } from './fields.js'

/** Something a schema knows the meaning of: a value, or a key, that names another record, a date, a file. */
export interface Meaningful {
  readonly role: Role
  readonly value: string
  readonly path: KeyPath
  readonly onKey: boolean
}

/** Whether something with a role is wanted; asked before anything is made of it, since most of it is not. */
export type Keep = (role: Role, value: string) => boolean

interface Walk {
  readonly path: (string | number)[]
  readonly found: Meaningful[]
  readonly keep: Keep
}

type Visit = (data: unknown, walk: Walk) => void

const compiled = new WeakMap<z.ZodType, Visit | null>()

/**
 * Collects what is wanted of everything in a record that has a role, from its schema alone, so that a new field with a reference
 * is linked without another line of code. The walk is compiled once per schema; branches without roles cost nothing.
 */
export function meaningfulIn(schema: z.ZodType, data: unknown, keep: Keep = () => true): Meaningful[] {
  const found: Meaningful[] = []
  compile(schema)?.(data, { path: [], found, keep })
  return found
}

function see(role: Role, value: string, onKey: boolean, { path, found, keep }: Walk): void {
  if (keep(role, value)) found.push({ role, value, path: [...path], onKey })
}

function compile(schema: z.ZodType): Visit | null {
  const known = compiled.get(schema)
  if (known !== undefined) return known
  const visit = compileFresh(schema)
  compiled.set(schema, visit)
  return visit
}

function compileFresh(schema: z.ZodType): Visit | null {
  const role = roleOf(schema)
  if (role && role.role !== 'count') {
    return (data, walk) => {
      if (typeof data === 'string') see(role, data, false, walk)
    }
  }
  const def = schema.def as unknown as Definition
  switch (def.type) {
    case 'optional':
      return compile(def.innerType)
    case 'array':
      return eachItem(compile(def.element))
    case 'record':
      return eachEntry({}, roleOf(def.keyType), compile(def.valueType))
    case 'object': {
      const fields: Record<string, Visit> = {}
      for (const [key, field] of Object.entries(def.shape)) {
        const visit = compile(field)
        if (visit) fields[key] = visit
      }
      const openKey = openKeyOf(schema)
      const open = openKey && def.catchall ? compile(def.catchall) : null
      if (Object.keys(fields).length === 0 && !openKey) return null
      return eachEntry(fields, openKey ? roleOf(openKey) : undefined, open, new Set(Object.keys(def.shape)))
    }
    case 'union': {
      const options = def.options.map(compile)
      if (options.every((option) => option === null)) return null
      return (data, walk) => {
        for (const option of options) option?.(data, walk)
      }
    }
    default:
      return null
  }
}

interface Definition {
  readonly type: string
  readonly innerType: z.ZodType
  readonly element: z.ZodType
  readonly keyType: z.ZodType
  readonly valueType: z.ZodType
  readonly catchall?: z.ZodType
  readonly shape: Record<string, z.ZodType>
  readonly options: z.ZodType[]
}

function eachItem(visit: Visit | null): Visit | null {
  if (!visit) return null
  return (data, walk) => {
    if (!Array.isArray(data)) return
    for (let at = 0; at < data.length; at++) {
      walk.path.push(at)
      visit(data[at], walk)
      walk.path.pop()
    }
  }
}

/** Known fields by their own visit; any other key by the open key's role and the open value's visit. */
function eachEntry(
  fields: Record<string, Visit>,
  keyRole: Role | undefined,
  open: Visit | null,
  known?: ReadonlySet<string>,
): Visit | null {
  if (Object.keys(fields).length === 0 && !keyRole && !open) return null
  return (data, walk) => {
    if (typeof data !== 'object' || data === null || Array.isArray(data)) return
    for (const key of Object.keys(data)) {
      const value = (data as Record<string, unknown>)[key]
      walk.path.push(key)
      if (known?.has(key)) fields[key]?.(value, walk)
      else {
        if (keyRole) see(keyRole, key, true, walk)
        open?.(value, walk)
      }
      walk.path.pop()
    }
  }
}
