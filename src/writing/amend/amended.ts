import { isDeepStrictEqual } from 'node:util'
import { isMap, isSeq } from 'yaml'
import { positionedDocument } from '../../files/careful-reader.js'
import { decode, readRecord } from '../../files/read-record.js'
import type { Stated } from '../../reports/history/stated.js'
import { flowText } from '../demo/yaml.js'
import { addItem, addKey, editText } from './edit-text.js'
import type { Edit } from './edits.js'
import { edited } from './edits.js'

/**
 * The text of a record with its changes and one more entry under `corrections`, in the layout and with the comments it
 * had. Null where the text cannot be made to say just that.
 */
export function amendedText(bytes: Uint8Array, edits: readonly Edit[], correction: Stated): string | null {
  const decoded = decode(bytes)
  const before = readRecord(bytes)
  if (!('text' in decoded) || !('data' in before)) return null
  const wanted = withCorrection(edited(before.data, edits) as Record<string, unknown>, correction)
  const mark = bytes[0] === 0xef ? '\ufeff' : ''
  for (const make of [inPlace, anew]) {
    const text = make(decoded.text, edits, correction)
    if (text !== null && says(text, wanted)) return mark + text
  }
  return null
}

/** Whether a text, read as every record is read, says what it is to say and nothing else. */
function says(text: string, wanted: unknown): boolean {
  const read = readRecord(Buffer.from(text, 'utf8'))
  return 'data' in read && isDeepStrictEqual(plain(read.data), plain(wanted))
}

/** Maps of one prototype, so that only what they hold is compared. */
function plain(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value))
}

function withCorrection(record: Record<string, unknown>, correction: Stated): Record<string, unknown> {
  const before = Array.isArray(record.corrections) ? record.corrections : []
  return { ...record, corrections: [...before, entryOf(correction)] }
}

function entryOf({ on, by, why, keys }: Stated) {
  return { on, by, why, keys: [...keys] }
}

function inPlace(text: string, edits: readonly Edit[], correction: Stated): string | null {
  const changed = edits.reduce<string | null>(
    (now, edit) => (now === null ? null : editText(now, edit)),
    text,
  )
  if (changed === null) return null
  const { contents } = positionedDocument(changed)
  if (!isMap(contents)) return null
  const list = contents.get('corrections', true) as unknown
  const entry = flowText(entryOf(correction))
  if (isSeq(list)) return addItem(changed, list, entry)
  if (list !== undefined) return null
  return addKey(
    changed,
    contents,
    contents.flow === true ? `corrections: [${entry}]` : `corrections:\n  - ${entry}`,
  )
}

/** The whole written anew by the library: comments stay, but blanks before them and the breaks of long lines may not. */
function anew(text: string, edits: readonly Edit[], correction: Stated): string | null {
  const document = positionedDocument(text)
  if (document.errors.length > 0) return null
  for (const edit of edits) {
    if (edit.does === 'remove') document.deleteIn(edit.path)
    else document.setIn(edit.path, document.createNode(edit.value, { flow: true }))
  }
  const list = document.get('corrections')
  const entry = document.createNode(entryOf(correction), { flow: true })
  if (isSeq(list)) list.add(entry)
  else document.set('corrections', document.createNode([entry]))
  return document.toString({ lineWidth: 0, flowCollectionPadding: false })
}
