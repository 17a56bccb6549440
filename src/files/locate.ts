import type { Document } from 'yaml'
import { isMap, isNode, isPair, isScalar, isSeq } from 'yaml'
import type { KeyPath } from '../types.js'
import { positionedDocument } from './careful-reader.js'
import { plainSpanOf } from './plain-locator.js'
import { decode } from './read-record.js'

/** A stretch of a file: lines and columns count from 1, columns in UTF-16 units, the end is exclusive. */
export interface Location {
  readonly line: number
  readonly column: number
  readonly endLine: number
  readonly endColumn: number
  /** The user's own line, without its line end. */
  readonly lineText: string
}

export interface LocatableFile {
  locate(path: KeyPath, onKey: boolean): Location
  locateSpan(span: readonly [number, number]): Location
}

/**
 * Makes a file answer where things stand in it. The only place where a key path becomes line and column. A path
 * that is not in the file (a missing key) is where its nearest ancestor is.
 */
export function locatable(bytes: Uint8Array): LocatableFile {
  const decoded = decode(bytes)
  const text = 'text' in decoded ? decoded.text : ''
  const lineStarts = startsOfLines(text)
  let document: Document.Parsed | undefined
  return {
    locateSpan: (span) => locationOf(text, lineStarts, span),
    locate(path, onKey) {
      const plain = plainSpanOf(text, path, onKey)
      if (plain) return locationOf(text, lineStarts, plain)
      document ??= positionedDocument(text)
      return locationOf(text, lineStarts, spanOf(document, path, onKey))
    },
  }
}

/** The certain way: from a document that knows the place of every node. */
export function spanOf(document: Document.Parsed, path: KeyPath, onKey: boolean): readonly [number, number] {
  let node: unknown = document.contents
  let span: readonly [number, number] | undefined
  for (const [depth, step] of path.entries()) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step))
      if (!pair || !isPair(pair)) return span ?? [0, 0]
      const last = depth === path.length - 1
      const pick =
        last && !onKey && isScalar(pair.value) && pair.value.range?.[0] !== pair.value.range?.[1]
          ? pair.value
          : pair.key
      span = rangeOf(pick) ?? span
      node = pair.value
    } else if (isSeq(node)) {
      const item = node.items[Number(step)]
      if (item === undefined) return span ?? [0, 0]
      span = rangeOf(item) ?? span
      node = item
    } else return span ?? [0, 0]
  }
  return span ?? [0, 0]
}

function rangeOf(node: unknown): readonly [number, number] | undefined {
  return isNode(node) && node.range ? [node.range[0], node.range[1]] : undefined
}

function startsOfLines(text: string): number[] {
  const starts = [0]
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1)
  return starts
}

function locationOf(
  text: string,
  starts: readonly number[],
  [from, to]: readonly [number, number],
): Location {
  const line = lineAt(starts, from)
  const endLine = lineAt(starts, Math.max(from, to))
  const lineStart = starts[line] ?? 0
  const lineEnd = starts[line + 1] ?? text.length + 1
  return {
    line: line + 1,
    column: from - lineStart + 1,
    endLine: endLine + 1,
    endColumn: Math.max(from, to) - (starts[endLine] ?? 0) + 1,
    lineText: text.slice(lineStart, lineEnd - 1).replace(/\r$/, ''),
  }
}

function lineAt(starts: readonly number[], offset: number): number {
  let low = 0
  let high = starts.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((starts[middle] ?? 0) <= offset) low = middle
    else high = middle - 1
  }
  return low
}
