/** An element as it was read: attributes and text with their entities resolved. */
export interface ReadElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  readonly children: readonly ReadElement[]
  readonly text: string
}

const name = '[A-Za-z_][A-Za-z0-9._-]*'
const startTag = new RegExp(`^<(${name})((?:\\s+${name}="[^"<]*")*)\\s*(/?)>`)
const attribute = new RegExp(`(${name})="([^"<]*)"`, 'g')
/** What XML 1.0 allows as a character (production 2). */
const onlyCharacters = /^[\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]*$/u
const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

/**
 * Reads the part of XML 1.0 that a plain writer needs, strictly: elements, attributes in double quotes, the five named
 * entities. Throws at anything else, so that what it reads every parser reads.
 */
export function readXml(document: string): ReadElement {
  if (!onlyCharacters.test(document)) throw new Error('a character that XML cannot hold')
  const declaration = '<?xml version="1.0" encoding="UTF-8"?>\n'
  if (!document.startsWith(declaration)) throw new Error('no declaration')
  const { element, rest } = readElement(document.slice(declaration.length))
  if (rest.trim() !== '') throw new Error(`something after the root: ${rest.slice(0, 40)}`)
  return element
}

function readElement(input: string): { element: ReadElement; rest: string } {
  const match = startTag.exec(input)
  if (!match) throw new Error(`no start tag: ${input.slice(0, 60)}`)
  const [tag, of = '', written = '', empty] = match
  const attributes: Record<string, string> = {}
  for (const [, key = '', value = ''] of written.matchAll(attribute)) {
    if (key in attributes) throw new Error(`${of} has ${key} twice`)
    attributes[key] = resolved(value)
  }
  let rest = input.slice(tag.length)
  if (empty === '/') return { element: { name: of, attributes, children: [], text: '' }, rest }
  const children: ReadElement[] = []
  let text = ''
  for (;;) {
    const next = rest.indexOf('<')
    if (next === -1) throw new Error(`${of} is not closed`)
    text += resolved(rest.slice(0, next))
    rest = rest.slice(next)
    if (rest.startsWith('</')) {
      const end = `</${of}>`
      if (!rest.startsWith(end)) throw new Error(`${of} is closed by ${rest.slice(0, 40)}`)
      return { element: { name: of, attributes, children, text }, rest: rest.slice(end.length) }
    }
    const child = readElement(rest)
    children.push(child.element)
    rest = child.rest
  }
}

function resolved(text: string): string {
  if (text.includes(']]>')) throw new Error('a ]]> in text')
  return text.replace(/&([^;&]*)(;?)/g, (_, entity: string, end: string) => {
    const character = entities[entity]
    if (character === undefined || end === '') throw new Error(`an unknown entity: &${entity.slice(0, 20)}`)
    return character
  })
}
