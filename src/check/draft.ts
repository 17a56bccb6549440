import { readRecord } from '../files/read-record.js'

/**
 * A draft of an application as it would read had it been carried out, everything else as drafted. A draft that cannot
 * be read as a record is left as it is: what is wrong with it is told by the rules of reading.
 */
export function asCarriedOut(draft: Uint8Array): Uint8Array {
  const read = readRecord(draft)
  if ('faults' in read || read.data.status === 'done') return draft
  const { status, ...rest } = read.data
  // A word that is no status stays, so that it is told.
  const isDrafted = status === undefined || status === 'planned'
  return isDrafted ? textOf({ ...rest, status: 'done' }) : draft
}

/** What a draft says of itself, as far as it can be read. */
export function draftFacts(draft: Uint8Array): { readonly status?: string; readonly by?: string } {
  const read = readRecord(draft)
  if ('faults' in read) return {}
  const { status, by } = read.data
  return {
    ...(typeof status === 'string' ? { status } : {}),
    ...(typeof by === 'string' ? { by } : {}),
  }
}

/** A record as text. JSON is YAML too, so that nothing has to be quoted by rules of its own. */
export function textOf(record: Readonly<Record<string, unknown>>): Uint8Array {
  const lines = Object.entries(record).map(
    ([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)}\n`,
  )
  return Buffer.from(lines.join(''), 'utf8')
}
