import type { VisitFlags } from '../../src/cli/commands/visit.js'
import type { ExitCode } from '../../src/cli/runner.js'
import type { Heard, Lines } from '../../src/cli/visit-lines.js'
import { startOf } from '../../src/cli/visit-start.js'
import { askVisit } from '../../src/cli/visit-terminal.js'
import { plainPainter } from '../../src/output/painter.js'
import { today } from './visit-talk.js'

/**
 * A guided visit in this process, spoken with in place of a terminal; what it keeps is on the disk as ever. One that is
 * simply left is as good as killed: it waits for an answer for ever, and nothing of it runs again.
 */
export class Spoken {
  readonly over: Promise<ExitCode>
  out = ''
  private shown = ''
  private hear: ((heard: Heard) => void) | undefined
  private asked: (() => void) | undefined
  private ending: { readonly code: ExitCode } | { readonly error: unknown } | undefined

  constructor(
    folder: string,
    flags: VisitFlags = {},
    { site = 'fernhollow', on = today, cwd = folder }: { site?: string; on?: string; cwd?: string } = {},
  ) {
    const say = (text: string) => {
      this.shown += text
    }
    const here = {
      args: [],
      stdout: {
        write: (text: string) => {
          this.out += text
        },
      },
      stderr: { write: say },
      env: { DOORSWEEP_TODAY: on },
      cwd: () => cwd,
      painter: plainPainter,
    }
    const lines: Lines = {
      say: (line) => say(`${line}\n`),
      ask: (prompt) => {
        say(`${prompt} > \n`)
        return new Promise((resolve) => {
          this.hear = resolve
          this.asked?.()
        })
      },
      close: () => {},
    }
    this.over = startOf(here, site, flags).then((start) => askVisit(here, start, lines))
    const end = (ending: NonNullable<typeof this.ending>) => {
      this.ending = ending
      this.asked?.()
    }
    this.over.then(
      (code) => end({ code }),
      (error) => end({ error }),
    )
  }

  /** What was said up to the question that now waits; it fails when there is none any more. */
  async prompt(): Promise<string> {
    if (this.hear === undefined && this.ending === undefined)
      await new Promise<void>((resolve) => {
        this.asked = resolve
      })
    const { ending } = this
    if (ending) throw 'error' in ending ? ending.error : new Error(`it ended before it asked:\n${this.shown}`)
    const text = this.shown
    this.shown = ''
    return text
  }

  /** Answers the question that waits, and waits for the next. */
  async answer(line: string): Promise<string> {
    await this.prompt()
    this.say({ is: 'line', text: line })
    return this.prompt()
  }

  /** Answers, or breaks off, for the last time; says the exit code, and what was said last. */
  async last(heard: Heard | string): Promise<{ readonly code: ExitCode; readonly said: string }> {
    await this.prompt()
    this.say(typeof heard === 'string' ? { is: 'line', text: heard } : heard)
    const askedAgain = new Promise<never>((_resolve, reject) => {
      this.asked = () => {
        if (this.ending === undefined) reject(new Error(`it asked again:\n${this.shown}`))
      }
    })
    const code = await Promise.race([this.over, askedAgain])
    return { code, said: this.shown }
  }

  private say(heard: Heard): void {
    const { hear } = this
    this.hear = undefined
    this.asked = undefined
    hear?.(heard)
  }
}
