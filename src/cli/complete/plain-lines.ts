import { readdirSync, readFileSync, statSync } from 'node:fs'
import { flowKeys } from './flow-keys.js'

/** A record is at most this large; what is larger is not looked into. */
const most = 1024 * 1024

/** Names that mean nothing to a shell and nothing to a terminal. */
const plainName = /^[A-Za-z0-9][A-Za-z0-9._-]*$/

export function isPlainName(name: string): boolean {
  return plainName.test(name)
}

/** The lines of a file; none, if it is no plain file, too large or cannot be read. */
export function linesOf(file: string): readonly string[] {
  try {
    // A pipe that nobody writes to would be waited for.
    const stats = statSync(file)
    return stats.isFile() && stats.size <= most ? readFileSync(file, 'utf8').split(/\r?\n/) : []
  } catch {
    return []
  }
}

/** The plain names of the folders in a folder. */
export function foldersIn(folder: string): readonly string[] {
  return entriesOf(folder).flatMap((entry) =>
    entry.isDirectory() && isPlainName(entry.name) ? [entry.name] : [],
  )
}

/** The plain names of the files in a folder that end so, without the ending. */
export function stemsIn(folder: string, ending: string): readonly string[] {
  return entriesOf(folder)
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => entry.name.slice(0, -ending.length))
    .filter(isPlainName)
}

function entriesOf(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true })
  } catch {
    return []
  }
}

/**
 * The keys that stand under a path of keys, in YAML written one key a line, as records are, or in braces behind the last
 * key of the path. Keys that are no plain names are passed over: this only helps to type.
 */
export function keysUnder(lines: readonly string[], path: readonly string[] = []): readonly string[] {
  const [first, ...rest] = path
  if (first !== undefined) {
    const braces = rest.length === 0 ? bracesBehind(lines, first) : undefined
    if (braces !== undefined) return flowKeys(braces).filter(isPlainName)
    return keysUnder(blockOf(lines, first), rest)
  }
  const indent = indentOf(lines)
  return lines.flatMap((line) => {
    const key = indentIn(line) === indent ? keyIn(line) : undefined
    return key === undefined ? [] : [key]
  })
}

/** The lines that stand under a key. */
function blockOf(lines: readonly string[], key: string): readonly string[] {
  const indent = indentOf(lines)
  const start = lines.findIndex((line) => indentIn(line) === indent && keyIn(line) === key)
  if (start === -1) return []
  const under = lines.slice(start + 1)
  const end = under.findIndex((line) => isTelling(line) && indentIn(line) <= indent)
  return end === -1 ? under : under.slice(0, end)
}

/** A map in braces that begins on the line of its key, with the lines after it. */
function bracesBehind(lines: readonly string[], key: string): string | undefined {
  const indent = indentOf(lines)
  const start = lines.findIndex((line) => indentIn(line) === indent && keyIn(line) === key)
  const line = lines[start]
  if (line === undefined || !/:\s+\{/.test(line.slice(0, line.indexOf('{') + 1))) return undefined
  return [line.slice(line.indexOf('{')), ...lines.slice(start + 1)].join('\n')
}

function indentOf(lines: readonly string[]): number {
  const first = lines.find(isTelling)
  return first === undefined ? 0 : indentIn(first)
}

function isTelling(line: string): boolean {
  return !/^\s*(?:#|$)/.test(line)
}

function indentIn(line: string): number {
  return line.length - line.trimStart().length
}

function keyIn(line: string): string | undefined {
  const key = /^ *(["']?)([^"':#]+)\1:(?: |$)/.exec(line)?.[2]
  return key !== undefined && isPlainName(key) ? key : undefined
}
