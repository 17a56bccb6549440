import { isUtf8 } from 'node:buffer'
import type { TextFault } from './careful-reader.js'
import { readCarefully } from './careful-reader.js'
import { readPlainSubset } from './plain-subset.js'

export type ReadRecord =
  | { readonly data: Record<string, unknown> }
  | { readonly faults: readonly TextFault[] }

/** Bytes of a file → what it says, or what is wrong with it as text. Never throws for what a user wrote. */
export function readRecord(bytes: Uint8Array): ReadRecord {
  const decoded = decode(bytes)
  if ('faults' in decoded) return decoded
  const plain = readPlainSubset(decoded.text)
  if (plain && isPlainObject(plain.data)) return { data: plain.data }
  const odd = oddCharacter(decoded.text)
  if (odd) return { faults: [odd] }
  return readCarefully(decoded.text)
}

/** UTF-8 text without its byte order mark. Offsets of faults and positions count from after the mark. */
export function decode(
  bytes: Uint8Array,
): { readonly text: string } | { readonly faults: readonly TextFault[] } {
  if (bytes.length === 0) return { faults: [{ fault: 'empty', detail: '', span: [0, 0] }] }
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (!isUtf8(buffer)) {
    const fault = buffer.includes(0) ? 'binary' : 'not-utf-8'
    return { faults: [{ fault, detail: '', span: [0, 0] }] }
  }
  if (buffer.includes(0)) return { faults: [{ fault: 'binary', detail: '', span: [0, 0] }] }
  const text = buffer.toString('utf8')
  return { text: text.charCodeAt(0) === 0xfeff ? text.slice(1) : text }
}

/** Control characters, and characters that turn the direction of text around or hide it. */
const hidden =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u0084\u0086-\u009f\u061c\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/

function oddCharacter(text: string): TextFault | undefined {
  const found = hidden.exec(text)
  if (!found) return undefined
  const code = found[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')
  return { fault: 'control-character', detail: `U+${code}`, span: [found.index, found.index + 1] }
}

function isPlainObject(data: unknown): data is Record<string, unknown> {
  return typeof data === 'object' && data !== null && !Array.isArray(data)
}
