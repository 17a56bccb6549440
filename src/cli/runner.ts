import type { Painter } from '../output/painter.js'
import type { Surroundings } from './terminal.js'

export type ExitCode = 0 | 1 | 2 | 130

/** What a command may use: streams, environment, and a painter for standard output. */
export interface Here extends Surroundings {
  /** The words of the command line. */
  readonly args: readonly string[]
  readonly painter: Painter
}

/** Wraps a command's work so that its exit code and its known errors are handled in one place. */
export type Runner = (
  work: (here: Here, args: readonly unknown[]) => Promise<ExitCode>,
) => (...args: unknown[]) => Promise<void>
