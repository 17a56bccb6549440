import type { Spacing } from '../records/placing.js'
import { spacingTable } from '../records/placing.js'
import { builtInRulebook, pestTable } from '../records/tables.js'

/** How far apart devices against a pest stand, and what says so. */
export interface SpacingFor {
  readonly row: Spacing
  readonly atMost: string
  readonly source: string
}

/** The row of the table that a pest falls under; undefined where nothing is known of it. */
export function spacingFor(pest: string): SpacingFor | undefined {
  const group = pestTable().get(pest)?.group
  const row = [...spacingTable().values()].find(
    ({ pests, groups }) => pests?.includes(pest) || (group !== undefined && groups?.includes(group)),
  )
  if (!row) return undefined
  return customary(row) ?? { row, atMost: row['at-most'], source: row.source }
}

/** What common practice has in the rulebook that comes with the program, so that the value stands in one place. */
function customary(row: Spacing): SpacingFor | undefined {
  const [parameter] = row.parameters ?? []
  const value =
    parameter === undefined ? undefined : builtInRulebook('practice').parameters?.[parameter]?.at(-1)
  return value ? { row, atMost: String(value.value), source: value.source } : undefined
}
