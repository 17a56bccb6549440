import type { z } from 'zod'

/**
 * Says yes, quickly, to most records that have the shape of their schema; anything else is left to zod, which
 * alone says no and why. It makes no copy and stops at the first doubt. A check it does not know makes it doubt
 * always, so that a new kind of check can cost speed but never let a bad record pass.
 */
export function quicklyAccepts(schema: z.ZodType, data: unknown): boolean {
  return accepterOf(schema)(data)
}

type Accepts = (data: unknown) => boolean

const doubt: Accepts = () => false
const made = new WeakMap<z.ZodType, Accepts>()

function accepterOf(schema: z.ZodType): Accepts {
  let accepts = made.get(schema)
  if (!accepts) {
    accepts = make(schema)
    made.set(schema, accepts)
  }
  return accepts
}

interface Definition {
  readonly type: string
  readonly checks?: readonly { readonly _zod: { readonly def: CheckDefinition } }[]
  readonly check?: string
  readonly format?: string
  readonly entries?: Readonly<Record<string, string>>
  readonly values?: readonly unknown[]
  readonly options?: readonly z.ZodType[]
  readonly innerType?: z.ZodType
  readonly element?: z.ZodType
  readonly keyType?: z.ZodType
  readonly valueType?: z.ZodType
  readonly items?: readonly z.ZodType[]
  readonly rest?: z.ZodType | null
  readonly shape?: Readonly<Record<string, z.ZodType>>
  readonly catchall?: z.ZodType
}

interface CheckDefinition {
  readonly check: string
  readonly format?: string
  readonly pattern?: RegExp
  readonly minimum?: number
  readonly maximum?: number
  readonly value?: number
  readonly inclusive?: boolean
}

function make(schema: z.ZodType): Accepts {
  const def = schema.def as unknown as Definition
  switch (def.type) {
    case 'string':
      return allOf((data) => typeof data === 'string', def)
    case 'number':
      return allOf(
        (data) =>
          typeof data === 'number' &&
          Number.isFinite(data) &&
          (def.format !== 'safeint' || Number.isSafeInteger(data)),
        def,
      )
    case 'enum': {
      const values = new Set<unknown>(Object.values(def.entries ?? {}))
      return (data) => values.has(data)
    }
    case 'literal': {
      const values = new Set<unknown>(def.values)
      return (data) => values.has(data)
    }
    case 'optional': {
      const inner = accepterOf(def.innerType as z.ZodType)
      return (data) => data === undefined || inner(data)
    }
    case 'union': {
      const options = (def.options ?? []).map(accepterOf)
      return (data) => options.some((option) => option(data))
    }
    case 'array': {
      const item = accepterOf(def.element as z.ZodType)
      return allOf((data) => Array.isArray(data) && data.every(item), def)
    }
    case 'tuple': {
      const items = (def.items ?? []).map(accepterOf)
      if (def.rest) return doubt
      return (data) =>
        Array.isArray(data) && data.length === items.length && items.every((item, at) => item(data[at]))
    }
    case 'record':
      return entries({}, accepterOf(def.keyType as z.ZodType), accepterOf(def.valueType as z.ZodType))
    case 'object':
      return objectAccepter(def)
    default:
      return doubt
  }
}

function objectAccepter(def: Definition): Accepts {
  if (def.checks && def.checks.length > 0) return doubt
  const fields = Object.fromEntries(
    Object.entries(def.shape ?? {}).map(([key, field]) => [key, accepterOf(field)]),
  )
  // Without a catch-all zod drops unknown keys, which needs a copy; with `never` it refuses them.
  const rest = def.catchall
  if (!rest) return doubt
  return entries(
    fields,
    undefined,
    (rest.def as unknown as Definition).type === 'never' ? doubt : accepterOf(rest),
  )
}

/** A plain map: known keys by their own accepter, all others by one for keys and one for values; none missing. */
function entries(
  fields: Readonly<Record<string, Accepts>>,
  openKey: Accepts | undefined,
  openValue: Accepts,
): Accepts {
  const known = new Map(Object.entries(fields))
  const required = [...known].filter(([, accepts]) => !accepts(undefined)).map(([key]) => key)
  return (data) => {
    if (typeof data !== 'object' || data === null || Array.isArray(data)) return false
    const map = data as Readonly<Record<string, unknown>>
    for (const key in map) {
      const field = known.get(key)
      if (field ? !field(map[key]) : (openKey !== undefined && !openKey(key)) || !openValue(map[key]))
        return false
    }
    for (const key of required) if (!Object.hasOwn(map, key)) return false
    return true
  }
}

function allOf(first: Accepts, def: Definition): Accepts {
  const checks = (def.checks ?? []).map((check) => checkAccepter(check._zod.def))
  if (checks.length === 0) return first
  return (data) => first(data) && checks.every((check) => check(data))
}

function checkAccepter(check: CheckDefinition): Accepts {
  const { value = 0, inclusive, minimum = 0, maximum = 0, pattern } = check
  switch (check.check) {
    case 'string_format':
      if (check.format !== 'regex' || !pattern || pattern.global || pattern.sticky) return doubt
      return (data) => pattern.test(data as string)
    case 'number_format':
      return check.format === 'safeint' ? (data) => Number.isSafeInteger(data) : doubt
    case 'greater_than':
      return inclusive ? (data) => (data as number) >= value : (data) => (data as number) > value
    case 'less_than':
      return inclusive ? (data) => (data as number) <= value : (data) => (data as number) < value
    case 'min_length':
      return (data) => (data as string | unknown[]).length >= minimum
    case 'max_length':
      return (data) => (data as string | unknown[]).length <= maximum
    default:
      return doubt
  }
}
