import { readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { z } from 'zod'
import type { DeviceKind } from './device-kinds.js'
import { deviceKinds } from './device-kinds.js'
import { pestGroups } from './pest-groups.js'
import { rulebook } from './rulebook.js'
import { activeClasses } from './use-words.js'

/** The trade's reference tables that come with the program: data in src/data, each row naming its source. */

const pestRow = z.strictObject({
  name: z.string(),
  group: z.enum(pestGroups),
  /** Lives in nests whose workers defend them: an active one asks for prompt care. */
  social: z.literal('yes').optional(),
  source: z.string(),
})
export type PestRow = z.infer<typeof pestRow>

export const readingCapabilities = [
  'counts',
  'sprung',
  'bait',
  'tracks',
  'active',
  'block',
  'lamp',
  'sticky',
] as const

const deviceRow = z.strictObject({
  name: z.string(),
  /** Pests it is for when its record does not say. */
  for: z.array(z.string()),
  /** Groups of pests it can catch or show. */
  shows: z.array(z.enum(pestGroups)),
  reads: z.array(z.enum(readingCapabilities)),
  rodent: z.literal('yes').optional(),
  source: z.string(),
})
export type DeviceRow = z.infer<typeof deviceRow>

const cautionRow = z.strictObject({
  /** For these pests, or for all of these groups. */
  pests: z.array(z.string()).optional(),
  groups: z.array(z.enum(pestGroups)).optional(),
  says: z.string(),
  source: z.string(),
})

const activeRow = z.strictObject({
  name: z.string(),
  /** IRAC group; `none` for what has none (rodenticides, synergists, pheromones, herbicides). */
  group: z.string().regex(/^(?:[1-9][0-9]?[A-Z]?|UN[A-Z]?|none)$/),
  class: z.enum(activeClasses),
  /** Drives insects away before it kills them. */
  repellent: z.literal('yes').optional(),
  source: z.string(),
})

const dataFolder = new URL('../../src/data/', import.meta.url)

function table<T>(name: string, schema: z.ZodType<T>): T {
  return schema.parse(load(readFileSync(new URL(name, dataFolder), 'utf8'), { schema: CORE_SCHEMA }))
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

export const pestTable = once(
  () => new Map(Object.entries(table('pests.yaml', z.record(z.string(), pestRow)))),
)

export const deviceTable = once(() =>
  table(
    'devices.yaml',
    z.strictObject(
      Object.fromEntries(deviceKinds.map((kind) => [kind, deviceRow])) as Record<
        DeviceKind,
        typeof deviceRow
      >,
    ),
  ),
)

export const cautionTable = once(
  () => new Map(Object.entries(table('cautions.yaml', z.record(z.string(), cautionRow)))),
)

export const activeTable = once(
  () => new Map(Object.entries(table('actives.yaml', z.record(z.string(), activeRow)))),
)

export const builtInRulebooks = [
  'practice',
  'us-federal',
  'new-jersey',
  'pennsylvania',
  'illinois',
  'california',
] as const

export const builtInRulebook = (id: (typeof builtInRulebooks)[number]) => rulebookTables[id]()
const rulebookTables = Object.fromEntries(
  builtInRulebooks.map((id) => [id, once(() => table(`rulebooks/${id}.yaml`, rulebook))]),
) as Record<(typeof builtInRulebooks)[number], () => z.infer<typeof rulebook>>
