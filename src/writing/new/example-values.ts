import { z } from 'zod'
import { isoOf } from '../../measure/calendar.js'
import type { ReferenceKind } from '../../records/fields.js'
import { roleOf } from '../../records/fields.js'
import type { Day } from '../../types.js'
import type { Yaml, YamlMap } from '../demo/yaml.js'

/** What stands where only the writer knows the words; a person finds it, and so does a search. */
export const blank = 'FILL IN'

export interface Given {
  readonly day: Day
  readonly by?: string
}

interface Definition {
  readonly type: string
  readonly innerType: z.ZodType
  readonly element: z.ZodType
  readonly keyType: z.ZodType
  readonly valueType: z.ZodType
  readonly shape: Readonly<Record<string, z.ZodType>>
  readonly options: readonly z.ZodType[]
  readonly items: readonly z.ZodType[]
}

export const definitionOf = (schema: z.ZodType) => schema.def as unknown as Definition

export function unwrapped(schema: z.ZodType): z.ZodType {
  const def = definitionOf(schema)
  return def.type === 'optional' ? unwrapped(def.innerType) : schema
}

export const isOptional = (schema: z.ZodType) => definitionOf(schema).type === 'optional'

const idOf: Readonly<Record<ReferenceKind, string>> = {
  person: 'okafor',
  firm: 'invented-pest-services',
  product: 'bait-a',
  plan: 'house-mouse',
  site: 'ottermere',
  rulebook: 'practice',
  area: 'kitchen',
  device: 'K1',
  run: 'dock-wall',
  condition: 'sink-drip',
  complaint: '2026-03-10-reyes',
  application: '2026-04-02-okafor',
  visit: '2026-03-12-okafor',
  sighting: 'behind-dish-machine',
  pest: 'german-cockroach',
  rule: 'complaint-log-not-read',
}

/**
 * A value that fits a schema: the day at hand for a date, the schema's own example elsewhere. With `free` set to
 * blank, free text is left to be filled in, so that no invented fact stays in a record by oversight.
 */
export function exampleValue(schema: z.ZodType, given: Given, free: 'example' | 'blank'): Yaml {
  const role = roleOf(schema)
  if (role?.role === 'date') return isoOf(given.day)
  if (role?.role === 'reference' && role.to === 'person' && free === 'blank' && given.by !== undefined)
    return given.by
  const def = definitionOf(schema)
  const example = (schema.meta()?.examples as readonly Yaml[] | undefined)?.[0]
  if (def.type === 'string' && free === 'blank' && isFreeText(schema)) return blank
  if (example !== undefined) return example
  if (role?.role === 'reference') return idOf[role.to]
  if (role?.role === 'file') return 'file.pdf'
  switch (def.type) {
    case 'array':
      return [exampleValue(def.element, given, free)]
    case 'tuple':
      return def.items.map(() => 0)
    case 'record':
      return { [exampleKey(def.keyType)]: exampleValue(def.valueType, given, free) }
    case 'union':
      return exampleValue(def.options[0] ?? schema, given, free)
    case 'object':
      return exampleMap(def.shape, given, free)
    case 'number':
      return 1
    default:
      return blank
  }
}

function isFreeText(schema: z.ZodType): boolean {
  const json = z.toJSONSchema(schema, { target: 'draft-7', io: 'input' }) as { pattern?: string }
  return json.pattern === undefined
}

/** The needed fields; where none is, the first two, since an empty map shows nothing. */
function exampleMap(
  shape: Readonly<Record<string, z.ZodType>>,
  given: Given,
  free: 'example' | 'blank',
): YamlMap {
  const fields = Object.entries(shape)
  const needed = fields.filter(([, field]) => !isOptional(field))
  const shown = needed.length > 0 || free === 'blank' ? needed : fields.slice(0, 2)
  return Object.fromEntries(shown.map(([key, field]) => [key, exampleValue(unwrapped(field), given, free)]))
}

export function exampleKey(key: z.ZodType): string {
  const example = (key.meta()?.examples as readonly string[] | undefined)?.[0]
  const role = roleOf(key)
  return example ?? (role?.role === 'reference' ? idOf[role.to] : 'first')
}
