import type { Clipboard } from '../reports/clipboard.js'
import { jsonText } from './clean.js'

/** Version of this JSON: fields may be added, none is renamed or removed within a version. */
const formatVersion = 1

/** The clipboard as data, with keys as records write them; what is not known is null. */
export function clipboardJson(clipboard: Clipboard): string {
  return jsonText({ 'format-version': formatVersion, ...(inRecordKeys(clipboard) as object) })
}

function inRecordKeys(value: unknown): unknown {
  if (value === undefined) return null
  if (Array.isArray(value)) return value.map(inRecordKeys)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, of]) => [
      key.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`),
      inRecordKeys(of),
    ]),
  )
}
