/** Text without half a character pair, which neither UTF-8 nor XML nor a URI can hold: U+FFFD stands in for it. */
export function wellFormed(text: string): string {
  return text.replace(/\p{Surrogate}/gu, '\ufffd')
}
