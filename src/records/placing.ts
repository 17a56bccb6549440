import { z } from 'zod'
import { rowsById } from './data-table.js'
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

/** How far apart devices stand, by what they are against. */
export const spacingTable = rowsById('spacing.yaml', spacing)

/** What passes which opening, and what stops it. */
export const openingTable = rowsById('openings.yaml', opening)
