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
const oddMark = /(?:^|[\s[{,:-])[&*!|>%@`?~]|^\s*:|[[{,]\s*:|[\]}"']\s*:|<<|__proto__|''|^(?:---|\.\.\.)/m

/** A whole scalar that YAML reads as a number but that is not in a number's plain form, so that its text would change. */
const oddNumber =
  /(?:^|[\s[{,:])(?:[-+]?0[0-9_][0-9_.eE+-]*|[-+]?0[xob][0-9a-fA-F_]+|\+[0-9][0-9_.eE+-]*|[-+]?\.[0-9][0-9_eE+-]*|[-+]?\.(?:inf|nan)|-?[0-9][0-9_.]*[eE][-+]?[0-9]+|-?[0-9]+_[0-9_.]*|-?[0-9]+\.|-0(?:\.0*)?|-?[0-9]{16,}(?:\.[0-9]+)?)(?= *(?:$|[,\]}\n#]|:(?:[ \n]|$)))/im

/** A line that opens a flow collection or a quoted text and does not close it. */
function hasOpenLine(text: string): boolean {
  let start = 0
  while (start <= text.length) {
    let end = text.indexOf('\n', start)
    if (end === -1) end = text.length
    let depth = 0
    let quote = 0
    for (let at = start; at < end; at++) {
      const code = text.charCodeAt(at)
      if (quote !== 0) {
        if (code === quote) quote = 0
      } else if (code === 35) {
        if (at === start || text.charCodeAt(at - 1) === 32) break
      } else if (code === 91 || code === 123) depth++
      else if (code === 93 || code === 125) depth--
      else if ((code === 34 || code === 39) && startsScalar(text, at, start)) quote = code
    }
    if (depth !== 0 || quote !== 0) return true
    start = end + 1
  }
  return false
}

/** A quote mark is one only where a scalar can begin; inside words (o'clock) it is a letter. */
function startsScalar(text: string, at: number, lineStart: number): boolean {
  let before = at - 1
  while (before >= lineStart && text.charCodeAt(before) === 32) before--
  if (before < lineStart) return true
  return ':[{,-'.includes(text.charAt(before))
}

export function isPlain(text: string): boolean {
  return !oddCharacters.test(text) && !oddMark.test(text) && !oddNumber.test(text) && !hasOpenLine(text)
}
