import type { Document } from 'yaml'
import { isMap, isScalar, isSeq, LineCounter, parse, parseDocument, stringify } from 'yaml'

/** A ledger in memory that is being changed. Nothing here knows a rule, or how the program reads a ledger. */
export interface Draft {
  readonly files: Map<string, string>
  /** Last day of the ledger: the day as of which it is checked. */
  readonly lastDay: number
}

export type Data = string | number | readonly Data[] | DataMap
export interface DataMap {
  readonly [key: string]: Data
}
export type KeyPath = readonly (string | number)[]

export function copyOf(draft: Draft): Draft {
  return { files: new Map(draft.files), lastDay: draft.lastDay }
}

const parsed = new Map<string, Data>()

/** What a record says. Texts are parsed once, however many ledgers hold them. */
export function dataOf(draft: Draft, file: string): Data {
  const text = textOf(draft, file)
  const known = parsed.get(text)
  if (known !== undefined) return known
  const data = (parse(text) ?? {}) as Data
  parsed.set(text, data)
  return data
}

export function textOf(draft: Draft, file: string): string {
  const text = draft.files.get(file)
  if (text === undefined) throw new RangeError(`no file ${file} in this ledger`)
  return text
}

function at(data: Data | undefined, path: KeyPath): Data | undefined {
  let here = data
  for (const step of path) {
    if (typeof here !== 'object') return undefined
    here = (here as Readonly<Record<string | number, Data>>)[step]
  }
  return here
}

/** The map at a path; an empty one if there is none. */
export function mapAt(data: Data | undefined, ...path: KeyPath): DataMap {
  const found = at(data, path)
  return typeof found === 'object' && !Array.isArray(found) ? (found as DataMap) : {}
}

/** The list at a path; an empty one if there is none. */
export function listAt(data: Data | undefined, ...path: KeyPath): readonly Data[] {
  const found = at(data, path)
  return Array.isArray(found) ? found : []
}

/** The text at a path, or undefined. */
export function textAt(data: Data | undefined, ...path: KeyPath): string | undefined {
  const found = at(data, path)
  return typeof found === 'string' ? found : undefined
}

function change(draft: Draft, file: string, how: (document: Document) => void): void {
  const document = parseDocument(textOf(draft, file))
  how(document)
  draft.files.set(file, document.toString({ lineWidth: 0, flowCollectionPadding: false }))
}

/** Sets a value in a record; the rest of it stays as it is written. */
export function put(draft: Draft, file: string, path: KeyPath, value: Data): void {
  change(draft, file, (document) => {
    document.setIn(path, document.createNode(value, { aliasDuplicateObjects: false }))
  })
}

/** Takes a key or an item of a list away, and whatever that leaves empty. */
export function take(draft: Draft, file: string, path: KeyPath): void {
  change(draft, file, (document) => {
    for (let depth = path.length; depth > 0; depth--) {
      const here = path.slice(0, depth)
      const node = document.getIn(here, true)
      const isEmpty = (isMap(node) || isSeq(node)) && node.items.length === 0
      if (depth === path.length || isEmpty) document.deleteIn(here)
    }
  })
}

/** Writes another name for a key. */
export function renameKey(draft: Draft, file: string, path: KeyPath, name: string): void {
  change(draft, file, (document) => {
    const map = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true)
    if (!isMap(map)) throw new RangeError(`no map around ${path.join('.')} in ${file}`)
    for (const pair of map.items)
      if (isScalar(pair.key) && pair.key.value === path.at(-1)) pair.key.value = name
  })
}

export function write(draft: Draft, file: string, data: DataMap): void {
  draft.files.set(file, stringify(data, { lineWidth: 0, aliasDuplicateObjects: false }))
}

export function rename(draft: Draft, file: string, newFile: string): void {
  draft.files.set(newFile, textOf(draft, file))
  draft.files.delete(file)
}

/** Line of a key path in a file, from 1: of the value if it is a scalar or an item of a list, else of its key. */
export function lineOf(draft: Draft, file: string, path: KeyPath, onKey = false): number {
  const lines = new LineCounter()
  const document = parseDocument(textOf(draft, file), { lineCounter: lines })
  let node: unknown = document.contents
  let offset = 0
  for (const step of path) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step))
      if (!pair || !isScalar(pair.key)) throw new RangeError(`no ${path.join('.')} in ${file}`)
      offset = (onKey || !isScalar(pair.value) ? pair.key : pair.value).range?.[0] ?? offset
      node = pair.value
    } else if (isSeq(node)) {
      const item = node.items[Number(step)] as { range?: [number, number, number] } | undefined
      if (!item) throw new RangeError(`no ${path.join('.')} in ${file}`)
      offset = item.range?.[0] ?? offset
      node = item
    }
  }
  return lines.linePos(offset).line
}

/** Line of the first text like this in a file, from 1. */
export function lineWith(draft: Draft, file: string, text: string): number {
  const line = textOf(draft, file)
    .split('\n')
    .findIndex((each) => each.includes(text))
  if (line < 0) throw new RangeError(`no "${text}" in ${file}`)
  return line + 1
}
