import type { z } from 'zod'
import type { KeyPath } from '../types.js'

interface Definition {
  readonly type: string
  readonly innerType?: z.ZodType
  readonly element?: z.ZodType
  readonly valueType?: z.ZodType
  readonly catchall?: z.ZodType
  readonly shape?: Record<string, z.ZodType>
  readonly options?: readonly z.ZodType[]
  readonly items?: readonly z.ZodType[]
}

/** The schema that governs a key path, looking through optional fields; undefined where the path leaves the schema. */
export function schemaAt(schema: z.ZodType, path: KeyPath): z.ZodType | undefined {
  let here: z.ZodType | undefined = unwrapped(schema)
  for (const step of path) {
    if (!here) return undefined
    here = child(here, step)
  }
  return here
}

function child(schema: z.ZodType, step: string | number): z.ZodType | undefined {
  const def = schema.def as unknown as Definition
  if (def.type === 'object') {
    const found = def.shape && Object.hasOwn(def.shape, step) ? def.shape[step] : def.catchall
    return found && unwrapped(found)
  }
  if (def.type === 'record') return def.valueType && unwrapped(def.valueType)
  if (def.type === 'array') return def.element && unwrapped(def.element)
  if (def.type === 'tuple') return def.items?.[Number(step)]
  if (def.type === 'union') {
    for (const option of def.options ?? []) {
      const found = child(unwrapped(option), step)
      if (found) return found
    }
  }
  return undefined
}

function unwrapped(schema: z.ZodType): z.ZodType {
  const def = schema.def as unknown as Definition
  return def.type === 'optional' && def.innerType ? unwrapped(def.innerType) : schema
}
