import { Chalk } from 'chalk'
import type { Source } from '../files/source.js'
import type { Painter } from '../output/painter.js'
import { plainPainter } from '../output/painter.js'

/** The surroundings of one run: the only things a command may ask of the machine. */
export interface Surroundings {
  readonly stdout: Out
  readonly stderr: Out
  readonly env: Readonly<Record<string, string | undefined>>
  cwd(): string
  /** A work tree that was looked at already on the way here, so that it is not looked at twice. */
  readonly looked?: { readonly root: string; readonly source: Source }
}

export interface Out {
  write(text: string): unknown
  readonly isTTY?: boolean
  readonly columns?: number
  on?(event: 'error', listener: (error: Error) => void): unknown
}

/** Whether to use colour on a stream: flags beat NO_COLOR and FORCE_COLOR, which beat what the stream is. */
export function painterFor(stream: Out, env: Surroundings['env'], flag: boolean | undefined): Painter {
  return wantsColour(stream, env, flag) ? colourPainter() : plainPainter
}

function wantsColour(stream: Out, env: Surroundings['env'], flag: boolean | undefined): boolean {
  if (flag !== undefined) return flag
  if (env.NO_COLOR !== undefined && env.NO_COLOR !== '') return false
  if (env.FORCE_COLOR !== undefined) return env.FORCE_COLOR !== '0'
  return stream.isTTY === true && env.TERM !== 'dumb'
}

function colourPainter(): Painter {
  const chalk = new Chalk({ level: 1 })
  return {
    strong: chalk.bold,
    faint: chalk.dim,
    error: chalk.red.bold,
    warning: chalk.yellow.bold,
    note: chalk.cyan.bold,
  }
}
