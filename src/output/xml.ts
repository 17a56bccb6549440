import { clean } from './clean.js'
import { wellFormed } from './well-formed.js'

/** An element of XML 1.0, with text or other elements in it. Attributes that are undefined are left out. */
export interface Element {
  readonly name: string
  readonly attributes: Readonly<Record<string, string | number | undefined>>
  readonly content: string | readonly Element[]
}

/** A document in UTF-8, two blanks deep. Text is kept as it is, between its tags, without added blanks. */
export function xmlText(root: Element): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${elementText(root, '')}`
}

function elementText({ name, attributes, content }: Element, indent: string): string {
  const start = [
    name,
    ...Object.entries(attributes).flatMap(([key, value]) =>
      value === undefined ? [] : [`${key}="${escaped(String(value))}"`],
    ),
  ].join(' ')
  if (content.length === 0) return `${indent}<${start}/>\n`
  const inside =
    typeof content === 'string'
      ? content.split('\n').map(escaped).join('\n')
      : `\n${content.map((child) => elementText(child, `${indent}  `)).join('')}${indent}`
  return `${indent}<${start}>${inside}</${name}>\n`
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
}

/**
 * Text as XML 1.0 can hold it (production 2, Char): control characters and direction marks become visible, half character
 * pairs and the two code points that are no characters become U+FFFD. `>` is escaped too, so that no `]]>` is left.
 */
function escaped(text: string): string {
  return wellFormed(clean(text))
    .replace(/[\ufffe\uffff]/g, '\ufffd')
    .replace(/[&<>"']/g, (character) => entities[character] ?? character)
}
