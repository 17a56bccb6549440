import type { ReadLedger } from '../ledger/read-ledger.js'

/** What a report could not look at, for its last lines; never passed over in silence. */
export function notExaminedOf(read: ReadLedger): string[] {
  const lines = read.notChecked.map(({ what, why }) => `${what}: ${why}.`)
  if (read.later === 1) lines.push('One record dated after the as-of day was not looked at.')
  if (read.later > 1) lines.push(`${read.later} records dated after the as-of day were not looked at.`)
  return lines
}

/** What seems to be missing from a record with a misspelt key may only be that key; so it is not told, and that is. */
export function unknownKeyLines(files: Iterable<string>): string[] {
  return [...new Set(files)]
    .sort()
    .map((file) => `${file}: a key in it is not known, so what else seems to be missing there is not told.`)
}
