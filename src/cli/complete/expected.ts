import type { Argument, Command, Option } from 'commander'
import { valueKindOf } from './value-kinds.js'

/** What a command line has come to: what may stand next, and what was said before. */
export interface Expected {
  readonly command: Command
  /** An option whose value comes next. */
  readonly awaiting: Option | undefined
  /** Whether its value may come next, or also something else, since it has one already. */
  readonly isMore: boolean
  /** How many arguments were given. */
  readonly arguments: number
  /** Behind `help` stand commands alone. */
  readonly isHelp: boolean
  /** After `--` nothing is an option. */
  readonly isPastOptions: boolean
  /** Options that were given, by their long names. */
  readonly options: ReadonlySet<string>
  /** Values that were given: by what they are names of, and by the option. */
  readonly given: ReadonlyMap<string, string>
}

interface Walk {
  command: Command
  awaiting: Option | undefined
  isMore: boolean
  arguments: number
  isHelp: boolean
  isPastOptions: boolean
  options: Set<string>
  given: Map<string, string>
}

/** Walks the words before the one that is being typed; undefined where no command goes. */
export function expectedAfter(program: Command, words: readonly string[]): Expected | undefined {
  const walk: Walk = {
    command: program,
    awaiting: undefined,
    isMore: false,
    arguments: 0,
    isHelp: false,
    isPastOptions: false,
    options: new Set(),
    given: new Map(),
  }
  return words.every((word) => step(walk, word)) ? walk : undefined
}

/** Takes one word; false where it leads nowhere. */
function step(walk: Walk, word: string): boolean {
  if (isItsValue(walk, word)) return takeValue(walk, word)
  walk.awaiting = undefined
  if (walk.isPastOptions) return takeArgument(walk, word)
  if (word === '--') walk.isPastOptions = true
  else if (word.startsWith('-') && word !== '-') takeOption(walk, word)
  else return takeCommand(walk, word) ?? takeArgument(walk, word)
  return true
}

function isItsValue({ awaiting, isMore }: Walk, word: string): boolean {
  return awaiting !== undefined && !(isMore && word.startsWith('-'))
}

function takeValue(walk: Walk, word: string): true {
  const option = walk.awaiting
  if (option) note(walk, option, word)
  walk.isMore = option?.variadic === true
  if (!walk.isMore) walk.awaiting = undefined
  return true
}

function takeOption(walk: Walk, word: string): void {
  const [name = '', value] = split(word)
  const option = optionNamed(walk.command, name)
  if (!option) return
  walk.options.add(option.long ?? name)
  if (!option.required && !option.optional) return
  if (value !== undefined) note(walk, option, value)
  else {
    walk.awaiting = option
    walk.isMore = option.optional
  }
}

/** `--site=oak` in its two parts. */
export function split(word: string): readonly [string, string?] {
  const at = word.indexOf('=')
  return at === -1 ? [word] : [word.slice(0, at), word.slice(at + 1)]
}

/** An option of a command, or of those it belongs to. */
export function optionNamed(command: Command, name: string): Option | undefined {
  for (let one: Command | null = command; one; one = one.parent) {
    const found = one.options.find((option) => option.long === name || option.short === name)
    if (found) return found
  }
  return undefined
}

function takeCommand(walk: Walk, word: string): boolean | undefined {
  const { command } = walk
  if (command.commands.length === 0) return undefined
  if (word === 'help' && !walk.isHelp) {
    // `doorsweep help report` goes the way of `doorsweep report`.
    walk.isHelp = true
    return true
  }
  const next = command.commands.find((one) => one.name() === word || one.aliases().includes(word))
  if (next) walk.command = next
  return next !== undefined
}

function takeArgument(walk: Walk, word: string): boolean {
  const argument = argumentAt(walk.command, walk.arguments)
  if (argument) note(walk, argument, word)
  walk.arguments += 1
  return true
}

/** The argument in a place; the last takes all the rest, if it takes several. */
export function argumentAt(command: Command, place: number): Argument | undefined {
  const all = command.registeredArguments
  const last = all.at(-1)
  return all[place] ?? (last?.variadic === true ? last : undefined)
}

function note(walk: Walk, valued: Option | Argument, value: string): void {
  const names = valueKindOf(walk.command, valued)?.names
  if (names !== undefined) walk.given.set(names, value)
  if ('flags' in valued) walk.given.set(valued.long ?? valued.flags, value)
}
