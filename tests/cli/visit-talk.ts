import type { ChildProcess } from 'node:child_process'
import { spawn } from 'node:child_process'
import { cpSync } from 'node:fs'
import { join } from 'node:path'
import { newFolder } from './run-doorsweep.js'

const project = new URL('../../', import.meta.url).pathname
export const executable = join(project, 'bin/doorsweep.js')

/** A copy of the example ledger without gaps, a month after its last visit. */
export const today = '2026-02-11'
export function cleanLedger(): string {
  const folder = newFolder()
  cpSync(join(project, 'examples/clean'), folder, { recursive: true })
  return folder
}

export const surroundings = { ...process.env, DOORSWEEP_TODAY: today, NO_COLOR: '1' }

/** A guided visit in a process of its own, spoken with over its standard input. */
export class Talk {
  readonly child: ChildProcess
  readonly over: Promise<number | null>
  out = ''
  err = ''
  private heard = 0

  constructor(folder: string, ...args: readonly string[]) {
    this.child = spawn(process.execPath, [executable, 'visit', 'fernhollow', '--terminal', ...args], {
      cwd: folder,
      env: surroundings,
      stdio: ['pipe', 'pipe', 'pipe'],
    })
    this.child.stdout?.on('data', (bytes) => {
      this.out += String(bytes)
    })
    this.child.stderr?.on('data', (bytes) => {
      this.err += String(bytes)
    })
    this.child.stdin?.on('error', () => {})
    this.over = new Promise((resolve) => this.child.on('close', (code) => resolve(code)))
  }

  /** The text up to the next prompt; it fails when the process ends before one. */
  async prompt(): Promise<string> {
    let isOver = false
    this.over.then(() => {
      isOver = true
    })
    for (;;) {
      const found = / > \n$/.exec(this.err.slice(this.heard))
      if (found) {
        const text = this.err.slice(this.heard)
        this.heard = this.err.length
        return text
      }
      if (isOver) throw new Error(`it ended before it asked:\n${this.err}`)
      await new Promise((resolve) => setTimeout(resolve, 10))
    }
  }

  /** Answers, and waits for the next question. */
  async answer(line: string): Promise<string> {
    this.child.stdin?.write(`${line}\n`)
    return this.prompt()
  }

  /** Answers for the last time. */
  last(line: string): Promise<number | null> {
    this.child.stdin?.write(`${line}\n`)
    return this.over
  }

  end(): Promise<number | null> {
    this.child.stdin?.end()
    return this.over
  }

  kill(signal: 'SIGKILL' | 'SIGTERM' | 'SIGHUP' | 'SIGINT'): Promise<number | null> {
    this.child.kill(signal)
    return this.over
  }
}
