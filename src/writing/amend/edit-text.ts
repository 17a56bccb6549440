import type { Document, Pair, YAMLMap, YAMLSeq } from 'yaml'
import { isMap, isNode, isScalar, isSeq } from 'yaml'
import { positionedDocument } from '../../files/careful-reader.js'
import type { KeyPath } from '../../types.js'
import type { Yaml } from '../demo/yaml.js'
import { flowText, scalarText } from '../demo/yaml.js'
import type { Edit } from './edits.js'

/**
 * Changes the text of a record only where it has to be: every other line, comment and blank stays as it was typed. Null
 * where the place cannot be told from the text; the whole is then written anew.
 */
export function editText(text: string, edit: Edit): string | null {
  const document = positionedDocument(text)
  const steps = stepsTo(document, edit.path)
  return steps === null ? null : edit.does === 'set' ? set(text, steps, edit) : remove(text, steps)
}

interface Step {
  readonly parent: YAMLMap | YAMLSeq
  /** Place among the items of the parent; -1 where there is no such key. */
  readonly at: number
  readonly value: unknown
}

interface Steps {
  readonly there: readonly Step[]
  /** Keys for which there is nothing yet. */
  readonly absent: KeyPath
}

function stepsTo(document: Document.Parsed, path: KeyPath): Steps | null {
  const there: Step[] = []
  let node: unknown = document.contents
  for (const [n, step] of path.entries()) {
    if (isMap(node)) {
      const at = node.items.findIndex(({ key }) => isScalar(key) && String(key.value) === String(step))
      if (at === -1)
        return { there: [...there, { parent: node, at, value: undefined }], absent: path.slice(n) }
      const { value } = node.items[at] as Pair
      there.push({ parent: node, at, value })
      node = value
    } else if (isSeq(node)) {
      const value = node.items[Number(step)]
      if (value === undefined) return null
      there.push({ parent: node, at: Number(step), value })
      node = value
    } else if (isEmpty(node) && there.length > 0) return { there, absent: path.slice(n) }
    else return null
  }
  return { there, absent: [] }
}

function isEmpty(node: unknown): boolean {
  return node === null || node === undefined || (isScalar(node) && node.value === null)
}

function set(text: string, { there, absent }: Steps, edit: Edit & { does: 'set' }): string | null {
  const last = there.at(-1)
  if (!last) return null
  if (last.at !== -1) return replaceValue(text, last, rendered(nested(absent, edit.value)))
  const [key, ...below] = absent
  if (!isMap(last.parent) || key === undefined) return null
  return addKey(text, last.parent, `${scalarText(String(key), true)}: ${rendered(nested(below, edit.value))}`)
}

function nested(keys: KeyPath, value: unknown): unknown {
  return keys.reduceRight<unknown>((inner, key) => ({ [key]: inner }), value)
}

function rendered(value: unknown): string {
  return flowText(value as Yaml)
}

function replaceValue(text: string, { parent, at, value }: Step, by: string): string | null {
  const key = isMap(parent) ? (parent.items[at] as Pair).key : undefined
  const colon = key === undefined ? -1 : text.indexOf(':', endOf(key) ?? text.length)
  if (key !== undefined && colon === -1) return null
  const range = isNode(value) ? value.range : undefined
  if (isEmpty(value) && (!range || range[0] === range[1]))
    return key === undefined ? null : spliced(text, colon + 1, colon + 1, ` ${by}`)
  if (!range) return null
  const end = trimmedEnd(text, range[1])
  const isBlock = (isMap(value) || isSeq(value)) && value.flow !== true
  return isBlock && key !== undefined
    ? spliced(text, colon + 1, end, ` ${by}`)
    : spliced(text, range[0], end, by)
}

/** A key at the end of a map: within its braces, or on a line of its own below the last one. */
export function addKey(text: string, map: YAMLMap, line: string): string | null {
  const last = map.items.at(-1)
  if (map.flow === true) {
    const open = map.range?.[0]
    if (open === undefined) return null
    const end = last === undefined ? open + 1 : endOfPair(last)
    return end === undefined ? null : spliced(text, end, end, last === undefined ? line : `, ${line}`)
  }
  const first = map.items[0]?.key
  const end = last === undefined ? undefined : endOfPair(last)
  if (end === undefined || !isNode(first) || !first.range) return null
  const indent = ' '.repeat(first.range[0] - lineStart(text, first.range[0]))
  const lines = line.split('\n').map((one) => indent + one)
  return addLines(text, trimmedEnd(text, end), lines)
}

/** An item at the end of a list. */
export function addItem(text: string, list: YAMLSeq, item: string): string | null {
  const last = list.items.at(-1)
  const end = endOf(last)
  if (list.flow === true) {
    const open = list.range?.[0]
    if (open === undefined) return null
    return last === undefined
      ? spliced(text, open + 1, open + 1, item)
      : spliced(text, end ?? 0, end ?? 0, `, ${item}`)
  }
  const first = list.items[0]
  if (end === undefined || !isNode(first) || !first.range) return null
  const dash = text.lastIndexOf('-', first.range[0] - 1)
  const indent = text.slice(lineStart(text, dash), dash)
  return /^ *$/.test(indent) ? addLines(text, trimmedEnd(text, end), [`${indent}- ${item}`]) : null
}

/** Lines after the one on which something ends. */
function addLines(text: string, end: number, lines: readonly string[]): string {
  const lineEnd = text.indexOf('\n', end)
  const newLine = text.includes('\r\n') ? '\r\n' : '\n'
  if (lineEnd === -1) return `${text}${newLine}${lines.join(newLine)}${newLine}`
  return spliced(text, lineEnd + 1, lineEnd + 1, lines.map((line) => line + newLine).join(''))
}

function remove(text: string, { there, absent }: Steps): string | null {
  const last = there.at(-1)
  if (!last || absent.length > 0) return null
  const { parent, at } = last
  const empty = isMap(parent) ? '{}' : '[]'
  if (parent.items.length === 1) {
    const above = there.at(-2)
    if (parent.flow === true && parent.range) return spliced(text, parent.range[0], parent.range[1], empty)
    return above === undefined ? null : replaceValue(text, above, empty)
  }
  const [start, end] = [startOf(parent.items[at]), endOfItem(parent.items[at])]
  if (start === undefined || end === undefined) return null
  if (parent.flow === true) {
    const next = startOf(parent.items[at + 1])
    const before = endOfItem(parent.items[at - 1])
    if (next !== undefined) return spliced(text, start, next, '')
    return before === undefined ? null : spliced(text, before, end, '')
  }
  const from = lineStart(text, start)
  if (
    !/^ *(?:- +)?$/.test(text.slice(from, start)) ||
    (isMap(parent) && text.slice(from, start).includes('-'))
  )
    return null
  const lineEnd = text.indexOf('\n', trimmedEnd(text, end))
  return spliced(text, from, lineEnd === -1 ? text.length : lineEnd + 1, '')
}

function spliced(text: string, from: number, to: number, by: string): string {
  return text.slice(0, from) + by + text.slice(to)
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1
}

/** Without the blanks and line ends that a block takes along. */
function trimmedEnd(text: string, end: number): number {
  return text.slice(0, end).trimEnd().length
}

function startOf(item: unknown): number | undefined {
  const node = isNode(item) ? item : (item as Pair | undefined)?.key
  return isNode(node) ? node.range?.[0] : undefined
}

function endOfItem(item: unknown): number | undefined {
  return isNode(item) ? endOf(item) : item === undefined ? undefined : endOfPair(item as Pair)
}

function endOfPair({ key, value }: Pair): number | undefined {
  const ofKey = endOf(key)
  return ofKey === undefined ? undefined : Math.max(ofKey + 1, endOf(value) ?? 0)
}

function endOf(node: unknown): number | undefined {
  return isNode(node) ? (node.range?.[1] ?? undefined) : undefined
}
