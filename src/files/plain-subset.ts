import { CORE_SCHEMA, load } from 'js-yaml'

/**
 * The plain subset of YAML that nearly every record is written in, recognised by one cheap test and read by
 * js-yaml, which is some fifteen times as fast as the parser that keeps positions. The two parsers differ in
 * corners, so anything near a corner is left to the careful reader: tabs, carriage returns, control characters,
 * anchors, aliases, tags, directives, several documents, explicit keys, block scalars, quoted text with escapes
 * or over several lines, flow collections over several lines, and numbers not in their plain form.
 * A property test holds both to one answer over the subset.
 */
export function readPlainSubset(text: string): { readonly data: unknown } | null {
  if (!isPlain(text)) return null
  try {
    return { data: load(text, { schema: CORE_SCHEMA }) }
  } catch {
    return null
  }
}

/** Characters that are never plain: controls but for line feed, and all that reorders or hides text. */
const oddCharacters =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u00a0\u00ad\u0600-\u0605\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff0-\uffff\ud800-\udfff\\]/

/** Marks that mean something at the start of a scalar: anchors, aliases, tags, block scalars, directives, explicit keys. */
const oddMark =
  /(?:^|[\s[{,:-])[&*!|>@`?~]|^%|^\s*:|[[{,]\s*:|[\]}"']\s*:|(?:^|\s)- *(?:#|$)|<<|__proto__|''|^(?:---|\.\.\.)/m

/** A whole scalar that YAML reads as true, false or nothing; the parsers differ where one is a key. */
const oddWord = /(?:^|[\s[{,:])(?:true|false|null)(?= *(?:$|[,\]}\n#:]))/im

/** A whole scalar that YAML reads as a number but that is not in a number's plain form, so that its text would change. */
const oddNumber =
  /(?:^|[\s[{,]|[^0-9]:)(?:[-+]?0[0-9_][0-9_.]*(?:[eE][-+]?[0-9]+)?|[-+]?0[xob][0-9a-fA-F_]+|\+[0-9][0-9_.eE+-]*|[-+]?\.[0-9][0-9_eE+-]*|[-+]?\.(?:inf|nan)|-?[0-9][0-9_.]*[eE][-+]?[0-9]+|-?[0-9]+_[0-9_.]*|-?[0-9]+\.|-0(?:\.0*)?|-?[0-9.]{16,})(?= *(?:$|[,\]}\n#]|:(?:[ \n,[\]{}]|$)))/im

/** Collections nest a few deep in a record; a line that nests deeper is for the careful reader to refuse. */
const deepestOnLine = 12
const longestKey = 1000

/**
 * Whether any line is not whole in itself: it opens a flow collection or a quoted text and does not close it,
 * uses a collection as a key, or goes on with a text that began on the line before.
 */
function hasOddLine(text: string): boolean {
  for (let start = 0; start < text.length; ) {
    let end = text.indexOf('\n', start)
    if (end === -1) end = text.length
    if (isOddLine(text, start, end)) return true
    start = end + 1
  }
  return false
}

function isOddLine(text: string, start: number, end: number): boolean {
  let at = start
  while (at < end && text.charCodeAt(at) === space) at++
  if (at === end || text.charCodeAt(at) === hash) return false
  if (at - start >= 100) return true
  let items = 0
  for (; text.charCodeAt(at) === dash && text.charCodeAt(at + 1) === space; at += 2) {
    while (text.charCodeAt(at + 2) === space) at++
    items++
  }
  if (items > deepestOnLine) return true
  let hasKey = items > 0
  let depth = 0
  // One bit for each open collection, the innermost lowest: set where it is a map.
  let maps = 0
  let quote = 0
  let last = 0
  for (; at < end; at++) {
    const code = text.charCodeAt(at)
    if (quote !== 0) {
      if (code !== quote) continue
      quote = 0
      if (text.charCodeAt(at + 1) === hash) return true
      continue
    }
    if (code === space) continue
    if (code === hash && text.charCodeAt(at - 1) === space) break
    if (code === openList || code === openMap) {
      if ((maps & 1) === 1 && (last === comma || last === openMap)) return true
      maps = (maps << 1) | (code === openMap ? 1 : 0)
      if (++depth > deepestOnLine) return true
    } else if (code === closeList || code === closeMap) {
      maps >>= 1
      depth--
      if (text.charCodeAt(at + 1) === hash) return true
    } else if (code === colon) {
      if (at + 1 < end && text.charCodeAt(at + 1) !== space) continue
      if (depth === 0) hasKey = true
      // A pair in a list is a map of its own; and YAML bounds the length of a key.
      if ((depth > 0 && (maps & 1) === 0) || (depth === 0 && at - start > longestKey)) return true
    } else if ((code === doubleQuote || code === singleQuote) && startsScalar(text, at, start)) quote = code
    last = code
  }
  return depth !== 0 || quote !== 0 || !hasKey
}

const [space, hash, comma, dash, colon] = [32, 35, 44, 45, 58]
const [doubleQuote, singleQuote] = [34, 39]
const [openList, closeList, openMap, closeMap] = [91, 93, 123, 125]

/** A quote mark is one only where a scalar can begin; inside words (o'clock) it is a letter. */
export function startsScalar(text: string, at: number, lineStart: number): boolean {
  let before = at - 1
  while (before >= lineStart && text.charCodeAt(before) === 32) before--
  if (before < lineStart) return true
  return ':[{,-'.includes(text.charAt(before))
}

export function isPlain(text: string): boolean {
  return (
    !oddCharacters.test(text) &&
    !oddMark.test(text) &&
    !oddWord.test(text) &&
    !oddNumber.test(text) &&
    !hasOddLine(text)
  )
}
