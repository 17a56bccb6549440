import { nearest } from '../../records/nearest.js'

/** One of several words, or what to say to whoever typed none of them. */
export type Matched = { readonly word: string } | { readonly complaint: string }

/** The word that was typed in full, in any case, or that alone begins so. */
export function wordIn(typed: string, known: readonly string[]): string | undefined {
  const same = (word: string) => word.toLowerCase() === typed.toLowerCase()
  const exact = known.find((word) => word === typed) ?? known.find(same)
  if (exact !== undefined) return exact
  const beginning = known.filter((word) => word.toLowerCase().startsWith(typed.toLowerCase()))
  return typed !== '' && beginning.length === 1 ? beginning[0] : undefined
}

/** The same, with a complaint that names what it may be, or what it is nearest to. */
export function matched(typed: string, known: readonly string[], what: string): Matched {
  const word = wordIn(typed, known)
  if (word !== undefined) return { word }
  const several = known.filter((one) => one.toLowerCase().startsWith(typed.toLowerCase()))
  if (typed !== '' && several.length > 1)
    return { complaint: `${typed} could be ${listed(several)}: write more of it.` }
  const meant = nearest(typed, known)
  return {
    complaint:
      meant !== undefined
        ? `There is no ${what} ${typed}; did you mean ${meant}?`
        : `There is no ${what} ${typed}; there is ${listed(known)}.`,
  }
}

const mostListed = 12

/** `a, b or c`; of very many only the first ones. */
export function listed(words: readonly string[]): string {
  if (words.length === 0) return 'none'
  if (words.length > mostListed)
    return `${words.slice(0, mostListed).join(', ')} and ${words.length - mostListed} more`
  return words.length === 1 ? `${words[0]}` : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`
}

/** First word and the rest of a line. */
export function firstWord(line: string): readonly [string, string] {
  const at = line.indexOf(' ')
  return at === -1 ? [line, ''] : [line.slice(0, at), line.slice(at + 1).trim()]
}

/** A short name made of words, that none of the names in use is. */
export function nameFor(words: string, inUse: ReadonlySet<string>): string {
  const name =
    words
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^[^a-z]+|-+$/g, '') || 'found'
  for (let at = 1; ; at++) {
    const one = at === 1 ? name : `${name}-${at}`
    if (!inUse.has(one)) return one
  }
}
