import { z } from 'zod'
import type { AreaKind } from './area-kinds.js'
import { areaKinds } from './area-kinds.js'
import { dataTable } from './data-table.js'

const places = z.array(z.string()).min(1)
/** Where to look in an area of each kind, in walking order. */
export const looksTable = dataTable(
  'looks.yaml',
  z.strictObject(
    Object.fromEntries(areaKinds.map((kind) => [kind, places])) as Record<AreaKind, typeof places>,
  ),
)
