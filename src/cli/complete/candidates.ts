import { resolve } from 'node:path'
import type { Argument, Command, Option } from 'commander'
import type { Expected } from './expected.js'
import { argumentAt, expectedAfter, optionNamed, split } from './expected.js'
import type { NamesOf } from './value-kinds.js'
import { valueKindOf } from './value-kinds.js'
import { typedIn } from './words.js'

/** A word that may stand where the cursor is; with what it means, where the program says so. */
export interface Candidate {
  readonly word: string
  readonly means?: string
}

export interface Candidates {
  readonly words: readonly Candidate[]
  /** What else the shell is to offer from the disk. */
  readonly paths?: 'files' | 'folders'
}

const none: Candidates = { words: [] }

/**
 * What may stand in the place of the last word.
 * @param words the words of a command line as the shell has them, the program left out, up to the cursor
 */
export async function candidatesFor(
  program: Command,
  words: readonly string[],
  cwd: string,
): Promise<Candidates> {
  const { before, current, brokenOff } = typedIn(words)
  const expected = expectedAfter(program, before)
  if (!expected) return none
  const { words: all, ...rest } = await allFor(expected, current, cwd)
  const fitting = all.filter(({ word }) => word.startsWith(current))
  // What the shell takes for other words stays as it is.
  return { words: fitting.map((one) => ({ ...one, word: one.word.slice(brokenOff.length) })), ...rest }
}

async function allFor(expected: Expected, current: string, cwd: string): Promise<Candidates> {
  const { command, awaiting, isMore, isHelp, isPastOptions } = expected
  const isDashed = current.startsWith('-') && !isPastOptions
  if (awaiting && !(isMore && isDashed)) return valuesOf(expected, awaiting, current, cwd)
  if (isDashed) {
    const [name, value] = split(current)
    const option = value === undefined ? undefined : optionNamed(command, name)
    if (!option) return { words: optionsOf(expected) }
    const values = await valuesOf(expected, option, value ?? '', cwd)
    return { ...values, words: values.words.map((one) => ({ ...one, word: `${name}=${one.word}` })) }
  }
  if (command.commands.length > 0) return { words: commandsOf(command, isHelp) }
  if (isHelp) return none
  const argument = argumentAt(command, expected.arguments)
  if (argument) return valuesOf(expected, argument, current, cwd)
  return current === '' && !isPastOptions ? { words: optionsOf(expected) } : none
}

function commandsOf(command: Command, isHelp: boolean): readonly Candidate[] {
  return command
    .createHelp()
    .visibleCommands(command)
    .filter((one) => !isHelp || command.commands.includes(one))
    .map((one) => ({ word: one.name(), means: one.summary() || one.description() }))
}

/** Options that were not given yet; those of the whole program too, but what ends it at once only where it begins. */
function optionsOf({ command, options }: Expected): readonly Candidate[] {
  const own = command.createHelp().visibleOptions(command)
  const inherited: Option[] = []
  for (let one = command.parent; one; one = one.parent)
    inherited.push(...one.options.filter((option) => !option.hidden && option.attributeName() !== 'version'))
  return [...own, ...inherited].flatMap(({ long, variadic, description }) =>
    typeof long === 'string' && (variadic || !options.has(long)) ? [{ word: long, means: description }] : [],
  )
}

async function valuesOf(
  expected: Expected,
  valued: Option | Argument,
  current: string,
  cwd: string,
): Promise<Candidates> {
  if (valued.argChoices) return { words: valued.argChoices.map((word) => ({ word })) }
  const kind = valueKindOf(expected.command, valued)
  if (!kind) return none
  const before = kind.isList ? current.slice(0, current.lastIndexOf(',') + 1) : ''
  const words = kind.names === undefined ? [] : await knownNames(kind.names, expected, valued, current, cwd)
  return {
    words: words.map((word) => ({ word: `${before}${word}` })),
    ...(kind.paths === undefined ? {} : { paths: kind.paths }),
  }
}

/** Commands and options need no names, so what looks for them is loaded only here. */
async function knownNames(
  what: NamesOf,
  { given }: Expected,
  valued: Option | Argument,
  typed: string,
  cwd: string,
): Promise<readonly string[]> {
  const { rootAbove } = await import('../ledger-root.js')
  const { namesOf } = await import('./names.js')
  return namesOf(what, {
    root: rootAbove(resolve(cwd, given.get('--ledger') ?? '.')),
    cwd,
    given: (kind) => given.get(kind),
    option: 'flags' in valued ? (valued.long ?? '').slice(2) : '',
    typed,
  })
}
