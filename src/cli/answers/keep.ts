import type { OpenLedger } from '../find-ledger.js'
import { timeZoneOf } from '../find-ledger.js'
import type { ExitCode, Here } from '../runner.js'
import { answerPlace } from './answer.js'

/** What a command found, and where it looked. */
export interface Said {
  readonly text: string
  readonly exitCode: ExitCode
  /** Where the ledger was looked for, as on the command line. */
  readonly start: string
  /** The only site that was read. */
  readonly site?: string
  /** The state of the files before any was read; undefined where that is not to be relied on. */
  readonly state: string | undefined
}

/** Keeps what was said for the next time. What was changed while it was made gives the files another state, so it is made anew. */
export function keepAnswer(here: Here, { root, source, asOf, asOfIsToday }: OpenLedger, said: Said): void {
  const { text, exitCode, start, site = null, state } = said
  const forToday = asOfIsToday ? { timeZone: timeZoneOf(source), day: asOf } : null
  if (state !== undefined)
    answerPlace(here.args, here)?.keep({ start, root, site, forToday, state, exitCode, text })
}
