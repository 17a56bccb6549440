import type { Command } from 'commander'
import { rootCommand } from '../root-command.js'
import type { Runner } from '../runner.js'
import type { Surroundings } from '../terminal.js'
import { candidateLines } from './candidate-lines.js'

/**
 * Answers a completion script: `complete [--described] -- WORD…`, the words up to the cursor, the program left out. It
 * runs no other program and never complains: whatever goes wrong, nothing is offered, and the exit code is 0.
 */
export async function main(args: readonly string[], here: Surroundings): Promise<0> {
  try {
    const at = args.indexOf('--')
    if (at === -1) return 0
    const words = args.slice(at + 1)
    const isDescribed = args.slice(0, at).includes('--described')
    here.stdout.on?.('error', () => {})
    const program = await programFor(words, here)
    here.stdout.write(await candidateLines(program, words, here.cwd(), isDescribed))
  } catch {
    // Nothing is offered.
  }
  return 0
}

const neverRun: Runner = () => async () => {}

/** The program, as far as the words go into it: behind `report`, of all commands `report` alone. */
async function programFor(words: readonly string[], here: Surroundings): Promise<Command> {
  const [first = ''] = words
  const add = words.length > 1 && /^[a-z]+$/.test(first) ? await adderOf(first) : undefined
  if (add === undefined) return (await import('../main.js')).programWith(neverRun, here)
  const program = rootCommand(here)
  add(program, neverRun)
  return program
}

type Adder = (program: Command, run: Runner) => void

/** `addReport` of commands/report: every command stands in a file of its name, and a test holds that. */
async function adderOf(name: string): Promise<Adder | undefined> {
  try {
    const file = new URL(`../commands/${name}.js`, import.meta.url).href
    const add: unknown = (await import(file))[`add${name.charAt(0).toUpperCase()}${name.slice(1)}`]
    return typeof add === 'function' ? (add as Adder) : undefined
  } catch {
    return undefined
  }
}
