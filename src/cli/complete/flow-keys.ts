/** Braces and what stands between them are read this far; what is longer is no record. */
const mostRead = 100_000

/**
 * The keys of a map in braces, over as many lines as it takes: `{kitchen: {kind: kitchen}, dock: {…}}` has kitchen and dock.
 * A guess by signs alone, as all of completion: quotes and remarks are passed over, nothing is judged.
 */
export function flowKeys(text: string): readonly string[] {
  const keys: string[] = []
  let depth = 0
  let word = ''
  let quote = ''
  for (let at = 0; at < Math.min(text.length, mostRead); at++) {
    const sign = text[at] ?? ''
    if (quote !== '') {
      if (sign === quote) quote = ''
      else word += sign
    } else if ((sign === '"' || sign === "'") && word.trim() === '') quote = sign
    else if (sign === '#' && /[\s,{[]/.test(text[at - 1] ?? ' ')) {
      // A remark goes to the end of its line.
      const end = text.indexOf('\n', at)
      if (end === -1) break
      at = end
    } else if (sign === '{' || sign === '[') {
      depth++
      word = ''
    } else if (sign === '}' || sign === ']') {
      depth--
      word = ''
      if (depth <= 0) break
    } else if (sign === ',') word = ''
    else if (sign === ':' && /\s|^$/.test(text[at + 1] ?? '')) {
      if (depth === 1) keys.push(word.trim())
      word = ''
    } else word += sign
  }
  return keys
}
