import { spawn, spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { cleanLedger, executable, surroundings } from './visit-talk.js'

/** `script` of util-linux gives a process a terminal; it is not on every machine. */
const { status, stdout } = spawnSync('script', ['--version'], { encoding: 'utf8' })
const hasScript = status === 0 && stdout.includes('util-linux')

it.skipIf(!hasScript)(
  'on a real terminal Ctrl-C keeps what was answered (needs `script` of util-linux)',
  async () => {
    const folder = cleanLedger()
    const command = `'${process.execPath}' '${executable}' visit fernhollow --by sorrel; echo "code $?"`
    const child = spawn('script', ['-q', '-c', command, '/dev/null'], {
      cwd: folder,
      env: { ...surroundings, TERM: 'dumb', SHELL: '/bin/sh' },
      stdio: ['pipe', 'pipe', 'ignore'],
    })
    let shown = ''
    child.stdout.on('data', (bytes) => {
      shown += String(bytes)
    })
    const seen = async (text: string) => {
      while (!shown.includes(text)) {
        if (child.exitCode !== null) throw new Error(`it ended without ${text}:\n${shown}`)
        await new Promise((resolve) => setTimeout(resolve, 20))
      }
    }
    await seen('Began at')
    child.stdin.write('06:00\r')
    await seen('Purpose [routine]')
    child.stdin.write('\u0003')
    await seen('code 130')
    child.stdin.end()
    expect(shown).toContain('is kept')
    const kept = readFileSync(join(folder, '.doorsweep/visit-fernhollow.jsonl'), 'utf8')
    expect(kept.split('\n')[1]).toBe('{"to":"start","text":"06:00"}')
    expect(existsSync(join(folder, '.doorsweep/visit-fernhollow.lock'))).toBe(false)
  },
  60_000,
)
