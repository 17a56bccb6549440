import { z } from 'zod'
import { dataTable, rowsById } from './data-table.js'
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

export const pestTable = rowsById('pests.yaml', pestRow)

export const deviceTable = dataTable(
  'devices.yaml',
  z.strictObject(
    Object.fromEntries(deviceKinds.map((kind) => [kind, deviceRow])) as Record<DeviceKind, typeof deviceRow>,
  ),
)

export const cautionTable = rowsById('cautions.yaml', cautionRow)

export const activeTable = rowsById('actives.yaml', activeRow)

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
  builtInRulebooks.map((id) => [id, dataTable(`rulebooks/${id}.yaml`, rulebook)]),
) as Record<(typeof builtInRulebooks)[number], () => z.infer<typeof rulebook>>
