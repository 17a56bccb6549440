import type { KeyPath } from '../types.js'
import { isPlain, startsScalar } from './plain-subset.js'

type Span = readonly [number, number]

/**
 * Finds a key path in the plain subset of YAML by walking its lines, some thirty times as fast as making a whole
 * positioned document. Undefined wherever it is not certain, and for anything that is not plain: then the document
 * answers. A test holds both to the same spot.
 */
export function plainSpanOf(text: string, path: KeyPath, onKey: boolean): Span | undefined {
  // A quote right behind a colon may be text or not; such a line is for the document to judge.
  if (path.length === 0 || !isPlain(text) || /:["']/.test(text)) return undefined
  const first = nextContent(text, 0)
  return first === undefined
    ? undefined
    : inBlock(text, first, columnOf(text, first), path, 0, onKey, undefined)
}

interface Entry {
  readonly key: string
  readonly keySpan: Span
  /** Where the value begins on the line of the key; undefined when it stands below, or nowhere. */
  readonly inline: number | undefined
  readonly lineEnd: number
}

/** A block that begins at an offset; its entries stand at one column. */
function inBlock(
  text: string,
  start: number,
  column: number,
  path: KeyPath,
  depth: number,
  onKey: boolean,
  above: Span | undefined,
): Span | undefined {
  return isItem(text, start)
    ? inList(text, start, column, path, depth, onKey)
    : inMap(text, start, column, path, depth, onKey, above)
}

function inMap(
  text: string,
  start: number,
  column: number,
  path: KeyPath,
  depth: number,
  onKey: boolean,
  above: Span | undefined,
): Span | undefined {
  const wanted = String(path[depth])
  for (let at: number | undefined = start; at !== undefined; at = nextAt(text, at, column)) {
    const entry = entryAt(text, at)
    if (!entry || isNumber(entry.key)) return undefined
    if (entry.key !== wanted) continue
    return inValue(text, entry, column, path, depth, onKey)
  }
  // A key that is missing is told at what should hold it.
  return above
}

function inValue(
  text: string,
  { keySpan, inline, lineEnd }: Entry,
  column: number,
  path: KeyPath,
  depth: number,
  onKey: boolean,
): Span | undefined {
  const isLast = depth === path.length - 1
  if (inline !== undefined) {
    const opens = text[inline] === '{' || text[inline] === '['
    if (isLast && (onKey || opens)) return keySpan
    if (isLast) return goesOn(text, lineEnd, column) ? undefined : [inline, scalarEnd(text, inline, lineEnd)]
    return opens ? inFlow(text, inline, path, depth + 1, onKey, keySpan) : undefined
  }
  if (isLast) return keySpan
  const below = nextContent(text, lineEnd)
  if (below === undefined) return undefined
  const deeper = columnOf(text, below)
  if (deeper < column || (deeper === column && !isItem(text, below))) return undefined
  return inBlock(text, below, deeper, path, depth + 1, onKey, keySpan)
}

function inList(
  text: string,
  start: number,
  column: number,
  path: KeyPath,
  depth: number,
  onKey: boolean,
): Span | undefined {
  let number = 0
  for (
    let at: number | undefined = start;
    at !== undefined && isItem(text, at);
    at = nextAt(text, at, column)
  ) {
    if (number++ !== Number(path[depth])) continue
    let inside = at + 1
    while (text[inside] === ' ') inside++
    const lineEnd = endOfLine(text, at)
    if (inside >= lineEnd || text[inside] === '#' || isItem(text, inside)) return undefined
    const isFlow = text[inside] === '{' || text[inside] === '['
    const isMap = !isFlow && entryAt(text, inside) !== undefined
    if (depth === path.length - 1)
      return isFlow || isMap || goesOn(text, lineEnd, column)
        ? undefined
        : [inside, scalarEnd(text, inside, lineEnd)]
    if (isFlow) return inFlow(text, inside, path, depth + 1, onKey, undefined)
    return isMap
      ? inMap(text, inside, inside - startOfLine(text, inside), path, depth + 1, onKey, undefined)
      : undefined
  }
  return undefined
}

/** A flow collection, whole on one line: `{K3: {german-cockroach: 2}, none: [K1, K2]}`. */
function inFlow(
  text: string,
  start: number,
  path: KeyPath,
  depth: number,
  onKey: boolean,
  above: Span | undefined,
): Span | undefined {
  const isMap = text[start] === '{'
  const isLast = depth === path.length - 1
  let number = 0
  for (let at = start + 1; ; ) {
    while (text[at] === ' ') at++
    if (text[at] === '}' || text[at] === ']') return above
    let value = at
    let keySpan: Span | undefined
    if (isMap) {
      const keyEnd = flowKeyEnd(text, at)
      if (keyEnd === undefined || isNumber(text.slice(at, keyEnd))) return undefined
      keySpan = [at, keyEnd]
      value = keyEnd
      while (text[value] === ' ') value++
      if (text[value] !== ':') return undefined
      value++
      while (text[value] === ' ') value++
    }
    const end = flowValueEnd(text, value)
    const isWanted = isMap
      ? unquoted(text.slice(at, keySpan?.[1])) === String(path[depth])
      : number === Number(path[depth])
    if (isWanted) {
      const opens = text[value] === '{' || text[value] === '['
      if (!isLast) return opens ? inFlow(text, value, path, depth + 1, onKey, keySpan) : undefined
      if (isMap && (onKey || opens || end === value)) return keySpan
      return opens ? undefined : [value, end]
    }
    number++
    at = end
    while (text[at] === ' ') at++
    if (text[at] === ',') at++
    else if (text[at] !== '}' && text[at] !== ']') return undefined
  }
}

function flowKeyEnd(text: string, at: number): number | undefined {
  const quote = text[at]
  if (quote === '"' || quote === "'") return afterQuote(text, at)
  for (let end = at; end < text.length; end++) {
    const mark = text.charAt(end)
    if (mark === ':' && ' ,[]{}\n'.includes(text.charAt(end + 1))) return trimmedEnd(text, at, end)
    if (mark === ',' || mark === '}' || mark === ']' || mark === '\n') return undefined
  }
  return undefined
}

/** Where a value inside a flow collection ends: after its closing bracket or quote, or before the comma. */
function flowValueEnd(text: string, at: number): number {
  const first = text.charAt(at)
  if (first === '"' || first === "'") return afterQuote(text, at)
  let depth = 0
  for (let end = at; end < text.length; end++) {
    const mark = text.charAt(end)
    if (depth > 0 && (mark === '"' || mark === "'") && startsScalar(text, end, at))
      end = afterQuote(text, end) - 1
    else if (mark === '{' || mark === '[') depth++
    else if (mark === '}' || mark === ']') {
      if (depth === 0) return trimmedEnd(text, at, end)
      if (--depth === 0) return end + 1
    } else if (depth === 0 && (mark === ',' || mark === '\n')) return trimmedEnd(text, at, end)
  }
  return text.length
}

/** The offset after the quote that closes the one at an offset; the end of the text if none does. */
function afterQuote(text: string, at: number): number {
  const closing = text.indexOf(text.charAt(at), at + 1)
  return closing === -1 ? text.length : closing + 1
}

/** A block entry at an offset: `key: value`, with the key plain or in quotes. Undefined when there is none. */
function entryAt(text: string, at: number): Entry | undefined {
  const lineEnd = endOfLine(text, at)
  const quote = text[at]
  let keyEnd: number
  if (quote === '"' || quote === "'") {
    keyEnd = afterQuote(text, at)
    if (text[keyEnd] !== ':') return undefined
  } else {
    keyEnd = at
    while (
      keyEnd < lineEnd &&
      !(text[keyEnd] === ':' && (keyEnd + 1 === lineEnd || text[keyEnd + 1] === ' '))
    )
      keyEnd++
    if (keyEnd === lineEnd) return undefined
  }
  let inline: number | undefined = keyEnd + 1
  while (text[inline] === ' ') inline++
  if (inline >= lineEnd || text[inline] === '#') inline = undefined
  return {
    key: unquoted(text.slice(at, keyEnd).trimEnd()),
    keySpan: [at, trimmedEnd(text, at, keyEnd)],
    inline,
    lineEnd,
  }
}

/** A key that is a number is known by its value, not by how it is written. */
function isNumber(key: string): boolean {
  return /^[-+.]?[0-9]/.test(key) && Number.isFinite(Number(key))
}

/** Whether the text of an item or entry goes on below, further in. */
function goesOn(text: string, lineEnd: number, column: number): boolean {
  const next = nextContent(text, lineEnd)
  return next !== undefined && columnOf(text, next) > column
}

function unquoted(key: string): string {
  return key.startsWith('"') || key.startsWith("'") ? key.slice(1, -1) : key.trimEnd()
}

/** The end of a scalar on its line, without the blanks and the comment after it. */
function scalarEnd(text: string, at: number, lineEnd: number): number {
  const quote = text.charAt(at)
  if (quote === '"' || quote === "'") return afterQuote(text, at)
  const comment = text.indexOf(' #', at)
  return trimmedEnd(text, at, comment === -1 || comment > lineEnd ? lineEnd : comment)
}

function trimmedEnd(text: string, start: number, end: number): number {
  let last = end
  while (last > start && text[last - 1] === ' ') last--
  return last
}

/** The next entry of the same block: the next line with content at its column, before any further out. */
function nextAt(text: string, at: number, column: number): number | undefined {
  for (
    let next = nextContent(text, endOfLine(text, at));
    next !== undefined;
    next = nextContent(text, endOfLine(text, next))
  ) {
    const found = columnOf(text, next)
    if (found === column) return next
    if (found < column) return undefined
  }
  return undefined
}

/** The first character of content from an offset on, past blank lines and comments. */
function nextContent(text: string, from: number): number | undefined {
  for (let at = from; at < text.length; ) {
    while (text[at] === ' ' || text[at] === '\n') at++
    if (text[at] !== '#') return at < text.length ? at : undefined
    at = endOfLine(text, at)
  }
  return undefined
}

function isItem(text: string, at: number): boolean {
  return text[at] === '-' && (text[at + 1] === ' ' || text[at + 1] === '\n')
}

function startOfLine(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1
}

function columnOf(text: string, at: number): number {
  return at - startOfLine(text, at)
}

function endOfLine(text: string, at: number): number {
  const end = text.indexOf('\n', at)
  return end === -1 ? text.length : end
}
