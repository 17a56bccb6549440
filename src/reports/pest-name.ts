import { pestTable } from '../records/tables.js'

/** A pest as people call it. */
export function pestName(id: string): string {
  return pestTable().get(id)?.name ?? id
}
