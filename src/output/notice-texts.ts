import type { NoticeText } from '../reports/notice-texts.js'
import { clean } from './clean.js'
import { escaped } from './report-markdown.js'
import { wrapped } from './wrapped.js'

export interface TextsOptions {
  /** Only what is sent or hung, without what to do with it. */
  readonly bare: boolean
  /** Columns of the terminal; without it nothing is wrapped, so that a paragraph can be pasted as one. */
  readonly width?: number
}

/** Notices, sign and statement as plain text, each between two rules. */
export function textsPlain(texts: readonly NoticeText[], { bare, width }: TextsOptions): string {
  const bodies = texts.map((text) => bodyOf(text, width))
  if (bare) return bodies.map((body) => `${body.join('\n')}\n`).join(`\n${rule}\n\n`)
  return texts
    .map(({ title, instructions }, at) => {
      const how = instructions.flatMap((line) => wrapped(clean(line), width))
      const head = [`${title.toUpperCase()}`, ...how, rule]
      return `${[...head, '', ...(bodies[at] ?? []), '', rule].join('\n')}\n`
    })
    .join('\n')
}

const rule = '-'.repeat(72)

/** Lines of a sign stand apart, so that they can be set large. */
function bodyOf({ id, heading, lines }: NoticeText, width: number | undefined): string[] {
  const plain = (text: string) => wrapped(oneLine(text), width)
  if (id === 'sign') {
    const paragraphs = signLines(lines, heading)
    return paragraphs.flatMap((text, at) => [...(at === 0 ? [] : ['']), ...plain(text)])
  }
  const asked = lines.map(({ about }) => about !== 'frame')
  return [
    ...plain(heading),
    ...lines.flatMap(({ text }, at) => [
      // What is asked stands together; what stands around it, apart.
      ...(at > 0 && asked[at] && asked[at - 1] ? [] : at === 0 ? [] : ['']),
      ...plain(text),
    ]),
  ]
}

/** A warning stands above the heading. */
function signLines(lines: NoticeText['lines'], heading: string): string[] {
  const warnings = lines.filter(({ about }) => about === 'warning-words').map(({ text }) => text)
  const rest = lines.filter(({ about }) => about !== 'warning-words').map(({ text }) => text)
  return [...warnings, heading, ...rest]
}

/** The same as Markdown: a sign in headings, so that it prints large. */
export function textsMarkdown(texts: readonly NoticeText[], { bare }: TextsOptions): string {
  return texts
    .map(({ id, title, instructions, heading, lines }) => {
      const head = bare
        ? []
        : [`## ${escaped(title)}`, ...instructions.map((line) => `*${escaped(line)}*`), '---']
      const body =
        id === 'sign'
          ? signLines(lines, heading).map((line) => `# ${escapedLine(line)}`)
          : [
              `### ${escapedLine(heading)}`,
              ...lines.map(({ about, text }) =>
                about === 'frame' ? escapedLine(text) : `- ${escapedLine(text)}`,
              ),
            ]
      return joined([...head, ...body])
    })
    .join('\n---\n\n')
}

/** Items of a list stand together, everything else apart. */
function joined(blocks: readonly string[]): string {
  return blocks
    .map((block, at) => {
      const next = blocks[at + 1]
      const together = block.startsWith('- ') && next?.startsWith('- ')
      return together ? `${block}\n` : next === undefined ? `${block}\n` : `${block}\n\n`
    })
    .join('')
}

/** A text that may begin with a mark of a list or of a heading stays a text. */
function escapedLine(text: string): string {
  return escaped(oneLine(text).trim())
    .replace(/^([-+=])/, '\\$1')
    .replace(/^(\d+)([.)])/, '$1\\$2')
}

/** Lines of a record's text are one paragraph; control characters become visible. */
function oneLine(text: string): string {
  return clean(text.replace(/\s*[\r\n]+\s*/g, ' '))
}
