/** Text from a ledger made safe for a terminal: control characters and direction marks become visible. */
export function clean(text: string): string {
  return text.replace(
    /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/g,
    (character) => (character === '\t' ? ' ' : `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`),
  )
}
