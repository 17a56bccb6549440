import { readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { z } from 'zod'
import { deviceKinds } from './device-kinds.js'
import { pestGroups } from './pest-groups.js'

const spacing = z.strictObject({
  /** Either pests, or groups of pests. */
  pests: z.array(z.string()).optional(),
  groups: z.array(z.enum(pestGroups)).optional(),
  kinds: z.array(z.enum(deviceKinds)).min(1),
  /** Rulebook values that decide where they are in force, the laxest first. */
  parameters: z.array(z.string()).optional(),
  'at-most': z.string(),
  closer: z.string(),
  how: z.string(),
  where: z.string(),
  source: z.string(),
})
export type Spacing = z.infer<typeof spacing>

const opening = z.strictObject({
  pests: z.array(z.string()).min(1),
  'admits-above': z.string().optional(),
  'admits-from': z.string().optional(),
  mesh: z.string().optional(),
  stops: z.string(),
  source: z.string(),
})
export type Opening = z.infer<typeof opening>

function table<T>(name: string, row: z.ZodType<T>): ReadonlyMap<string, T> {
  const text = readFileSync(new URL(`../../src/data/${name}`, import.meta.url), 'utf8')
  return new Map(Object.entries(z.record(z.string(), row).parse(load(text, { schema: CORE_SCHEMA }))))
}

let spacings: ReadonlyMap<string, Spacing> | undefined
let openings: ReadonlyMap<string, Opening> | undefined

/** How far apart devices stand, by what they are against. */
export function spacingTable(): ReadonlyMap<string, Spacing> {
  spacings ??= table('spacing.yaml', spacing)
  return spacings
}

/** What passes which opening, and what stops it. */
export function openingTable(): ReadonlyMap<string, Opening> {
  openings ??= table('openings.yaml', opening)
  return openings
}
