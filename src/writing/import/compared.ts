import { readRecord } from '../../files/read-record.js'
import type { Source } from '../../files/source.js'
import { recordText } from '../demo/yaml.js'
import type { PlannedRecord } from './planned.js'
import { originOf } from './planned.js'
import { firstDifference } from './same-content.js'
import type { Sheet } from './sheet.js'
import { troubleAt } from './sheet.js'
import type { Trouble } from './trouble.js'

/** A record with its text, as it would be written. */
export interface FreshRecord extends PlannedRecord {
  readonly text: string
}

export type Compared =
  | { readonly is: 'fresh'; readonly record: FreshRecord }
  | { readonly is: 'unchanged' }
  | { readonly is: 'conflict'; readonly trouble: Trouble }

/** A planned record beside what lies at its place. A record is never overwritten. */
export function compared(sheet: Sheet, source: Source, record: PlannedRecord): Compared {
  const text = recordText(Object.entries(record.data))
  const read = source.read(record.file)
  if ('refused' in read) {
    return read.refused === 'missing'
      ? { is: 'fresh', record: { ...record, text } }
      : conflict(sheet, record, [], `${record.file} ${read.detail}.`)
  }
  const there = readRecord(read.bytes)
  if ('faults' in there)
    return conflict(sheet, record, [], `${record.file} is there already, and cannot be read as a record.`)
  const here = readRecord(Buffer.from(text, 'utf8'))
  if ('faults' in here) throw new Error(`${record.file} would be written so that it cannot be read`)
  const differs = firstDifference(there.data, here.data)
  if (!differs) return { is: 'unchanged' }
  return conflict(
    sheet,
    record,
    differs.path,
    `${record.file} is there already and says otherwise: ${differs.path.join('.')} is ${shown(differs.there)} there and ${shown(differs.here)} here.`,
  )
}

const remedy =
  'If the record is right, take its rows out of this file; if the file is, correct the record by hand; if these are two of one day, add --word and a word that tells them apart.'

function conflict(
  sheet: Sheet,
  record: PlannedRecord,
  path: readonly (string | number)[],
  says: string,
): Compared {
  return {
    is: 'conflict',
    trouble: troubleAt(sheet, originOf(record, path), says, undefined, remedy),
  }
}

function shown(value: unknown): string {
  if (value === undefined) return 'not said'
  const text = typeof value === 'string' ? value : JSON.stringify(value)
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}
