import type { ChildProcess } from 'node:child_process'
import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { cleanLedger, executable, surroundings } from './visit-talk.js'

/** `script` of util-linux gives a process a terminal; it is not on every machine. */
const { status, stdout } = spawnSync('script', ['--version'], { encoding: 'utf8' })
const hasScript = status === 0 && stdout.includes('util-linux')

const keptIn = (folder: string) => join(folder, '.doorsweep/visit-fernhollow.jsonl')
const lockIn = (folder: string) => join(folder, '.doorsweep/visit-fernhollow.lock')
const answersKept = (folder: string) => readFileSync(keptIn(folder), 'utf8').split('\n').slice(1)

/** A guided visit on a terminal of its own. `exec` makes it the one that the terminal belongs to. */
class OnTerminal {
  readonly child: ChildProcess
  shown = ''

  constructor(folder: string, after: string) {
    const visit = `'${process.execPath}' '${executable}' visit fernhollow --by sorrel`
    this.child = spawn(
      'script',
      ['-q', '-c', after === '' ? `exec ${visit}` : `${visit}; ${after}`, '/dev/null'],
      {
        cwd: folder,
        env: { ...surroundings, TERM: 'dumb', SHELL: '/bin/sh' },
        stdio: ['pipe', 'pipe', 'ignore'],
      },
    )
    this.child.stdin?.on('error', () => {})
    this.child.stdout?.on('data', (bytes) => {
      this.shown += String(bytes)
    })
  }

  async seen(text: string): Promise<void> {
    while (!this.shown.includes(text)) {
      if (this.child.exitCode !== null) throw new Error(`it ended without ${text}:\n${this.shown}`)
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }

  type(text: string): void {
    this.child.stdin?.write(text)
  }
}

describe.skipIf(!hasScript)('on a real terminal (needs `script` of util-linux)', () => {
  it('Ctrl-C keeps what was answered, and drops a line that was not finished', async () => {
    const folder = cleanLedger()
    const terminal = new OnTerminal(folder, 'echo "code $?"')
    await terminal.seen('Began at')
    terminal.type('06:00\r')
    await terminal.seen('Purpose [routine]')
    terminal.type('trap-ch')
    await terminal.seen('trap-ch')
    terminal.type('\u0003')
    await terminal.seen('code 130')
    terminal.child.stdin?.end()
    expect(terminal.shown).toContain('is kept')
    expect(answersKept(folder)).toEqual(['{"to":"start","text":"06:00"}', ''])
    expect(existsSync(lockIn(folder))).toBe(false)
  }, 60_000)

  it('a window that is closed amid a line keeps what was answered, and takes no half a line for an answer', async () => {
    const folder = cleanLedger()
    const terminal = new OnTerminal(folder, '')
    await terminal.seen('Began at')
    terminal.type('06:00\r')
    await terminal.seen('Purpose [routine]')
    expect(existsSync(lockIn(folder))).toBe(true)
    terminal.type('trap-check')
    await terminal.seen('trap-check')
    // The terminal is gone at once, as when its window is closed.
    terminal.child.kill('SIGKILL')
    const since = performance.now()
    while (existsSync(lockIn(folder)) && performance.now() - since < 20_000)
      await new Promise((resolve) => setTimeout(resolve, 20))
    expect(answersKept(folder)).toEqual(['{"to":"start","text":"06:00"}', ''])
    expect(existsSync(lockIn(folder))).toBe(false)
  }, 60_000)
})
