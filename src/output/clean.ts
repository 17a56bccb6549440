/** Text from a ledger made safe for a terminal: control characters and direction marks become visible. */
export function clean(text: string): string {
  return text.replace(
    /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g,
    (character) => (character === '\t' ? ' ' : `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`),
  )
}

/**
 * JSON of a document, two blanks deep, with a line end. Control characters and direction marks that JSON would leave
 * as they are (it escapes only those below a blank) are escaped too: the same document, safe to show.
 */
export function jsonText(document: unknown): string {
  const text = JSON.stringify(document, null, 2).replace(
    /[\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
  return `${text}\n`
}
