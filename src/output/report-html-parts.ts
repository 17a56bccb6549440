import { escapeHtml } from './html.js'

/** Levels of headings that leave room for one below. */
export type Headings = 1 | 2 | 3

/** Where a part of a report stands in its page. */
export interface Place {
  /** Begins every id in it. */
  readonly id: string
  /** Level of its heading. */
  readonly level: 2 | 3 | 4
  readonly showWork: boolean
}

/** What can begin an id, in the page and in a style sheet, whatever it was made of. */
export function idOf(text: string): string {
  const plain = text.toLowerCase().replace(/[^a-z0-9]+/g, '-')
  return /^[a-z]/.test(plain) ? plain : `part-${plain}`
}

/** Items are markup already. */
export function list(items: readonly string[]): string {
  return ['<ul>', ...items.map((item) => `<li>${item}</li>`), '</ul>'].join('\n')
}

/** Text of a sentence; what stands between backticks is a command or a key. */
export function words(text: string): string {
  return breakable(text).replace(/`((?:[^`<>]|<wbr\/>)+)`/g, '<code>$1</code>')
}

/** Letters after which a word of a record is too long for a narrow column. */
export const longestUnbroken = 18

/**
 * Text of a page in which every word can be broken: after what joins its parts, or else where it must be, never between
 * a letter and its marks.
 */
export function breakable(text: string): string {
  return escapeHtml(text)
    .split(' ')
    .map((word) => (word.length <= longestUnbroken ? word : brokenUp(word)))
    .join(' ')
}

/** Escaped text: an entity is one character. */
const character = /&#\d+;|\\u[0-9a-f]{4}|.\p{M}*/gsu

function brokenUp(word: string): string {
  let run = 0
  let broken = ''
  const characters = word.match(character) ?? []
  for (const [at, one] of characters.entries()) {
    broken += one
    run += 1
    const rest = characters.length - at - 1
    if (rest > 0 && (run >= longestUnbroken || (/^[/\-_.:@=,;]$/.test(one) && run >= 4 && rest >= 3))) {
      broken += '<wbr/>'
      run = 0
    }
  }
  return broken
}
