/**
 * Text as lines of man(7), in the characters that every roff knows. A hyphen is written as a minus, so that an option
 * can be copied from the page; a line of text never begins like a request.
 */

const special: Readonly<Record<string, string>> = {
  '\\': '\\e',
  '-': '\\-',
  "'": '\\(aq',
  '`': '\\(ga',
  '^': '\\(ha',
  '~': '\\(ti',
  '"': '\\(dq',
  '…': '...',
}

/** Text in a line of its own or within one: nothing in it is taken for a request. */
export function escaped(text: string): string {
  const safe = [...text.replace(/[\u0000-\u001f\u007f]/g, ' ')]
    .map((letter) => special[letter] ?? inAscii(letter))
    .join('')
  return safe.startsWith('.') ? `\\&${safe}` : safe
}

function inAscii(letter: string): string {
  const point = letter.codePointAt(0) ?? 0
  return point < 0x80 ? letter : `\\[u${point.toString(16).toUpperCase().padStart(4, '0')}]`
}

/** Running text; what stands between backticks is to be typed, and stands out. */
export function prose(text: string): string {
  return text
    .trim()
    .split(/`([^`]*)`/)
    .map((part, at) => (at % 2 === 1 ? bold(part) : escapedWithin(part)))
    .join('')
    .replace(/^\./, '\\&.')
}

/** A piece of a line; whether the line begins like a request is seen by who puts it together. */
function escapedWithin(text: string): string {
  return escaped(`x${text}`).slice(1)
}

export function bold(text: string): string {
  return `\\fB${escapedWithin(text)}\\fR`
}

export function italic(text: string): string {
  return `\\fI${escapedWithin(text)}\\fR`
}

export function section(title: string): string {
  return `.SH ${title}`
}

export function subsection(title: string): string {
  return `.SS "${escapedWithin(title)}"`
}

export function paragraph(text: string): readonly string[] {
  return ['.PP', prose(text)]
}

/** A term, and what it means set in beneath it. */
export function meaning(term: string, text: string): readonly string[] {
  return ['.TP', term, prose(text)]
}

/** Lines that stay as they are, set in. */
export function verbatim(lines: readonly string[]): readonly string[] {
  return ['.PP', '.RS 4', '.nf', ...lines.map(verbatimLine), '.fi', '.RE']
}

function verbatimLine(line: string): string {
  // An empty line would be told apart from a missing one.
  return line === '' ? '\\&' : `\\&${escapedWithin(line)}`
}

/** Text as help prints it: paragraphs, and blocks of lines that are set in. */
export function asInHelp(text: string): readonly string[] {
  return text
    .trim()
    .split(/\n{2,}/)
    .flatMap(partsOf)
    .flatMap(({ isSetIn, lines }) => (isSetIn ? verbatim(withoutIndent(lines)) : paragraph(lines.join(' '))))
}

interface Part {
  readonly isSetIn: boolean
  readonly lines: string[]
}

function partsOf(block: string): readonly Part[] {
  const parts: Part[] = []
  for (const line of block.split('\n')) {
    const isSetIn = line.startsWith('  ')
    const last = parts.at(-1)
    if (last?.isSetIn === isSetIn) last.lines.push(line)
    else parts.push({ isSetIn, lines: [line] })
  }
  return parts
}

function withoutIndent(lines: readonly string[]): readonly string[] {
  const indent = Math.min(...lines.map((line) => line.length - line.trimStart().length))
  return lines.map((line) => line.slice(indent))
}
