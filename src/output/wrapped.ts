import stringWidth from 'string-width'

/**
 * Words put on lines of at most so many columns, those after the first set in by `hanging`; a longer word stays whole.
 * Without a width nothing is wrapped, as in a pipe.
 */
export function wrapped(text: string, width: number | undefined, hanging = ''): string[] {
  if (width === undefined || stringWidth(text) <= width) return [text]
  const [indent = ''] = /^ */.exec(text) ?? []
  const lines: string[] = []
  let line = indent
  let hasWord = false
  for (const word of text.slice(indent.length).split(' ')) {
    if (hasWord && stringWidth(`${line} ${word}`) > width) {
      lines.push(line)
      line = hanging + word
    } else {
      line = hasWord ? `${line} ${word}` : line + word
      hasWord = true
    }
  }
  return [...lines, line]
}
