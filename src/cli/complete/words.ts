/** A command line as far as it was typed. */
export interface Typed {
  /** The words before the one that is being typed, the program left out. */
  readonly before: readonly string[]
  readonly current: string
  /** How much of the current word the shell takes for words of their own: bash breaks at `=` and `:`. */
  readonly brokenOff: string
}

const breaks = /^[=:]+$/

/** Puts together what bash broke apart, and takes off the quotes that a shell leaves on. */
export function typedIn(words: readonly string[]): Typed {
  const whole: string[] = []
  let brokenOff = ''
  let isOpen = false
  for (const word of words) {
    const isBreak = breaks.test(word)
    const last = whole.at(-1)
    if (last !== undefined && last !== '' && word !== '' && (isOpen || isBreak)) {
      brokenOff = isBreak ? last + word : last
      whole[whole.length - 1] = last + word
    } else {
      brokenOff = ''
      whole.push(word)
    }
    isOpen = isBreak
  }
  const unquoted = whole.map(withoutQuotes)
  return { before: unquoted.slice(0, -1), current: unquoted.at(-1) ?? '', brokenOff }
}

function withoutQuotes(word: string): string {
  const quote = word[0]
  if (quote !== '"' && quote !== "'") return word
  return word.length > 1 && word.endsWith(quote) ? word.slice(1, -1) : word.slice(1)
}
