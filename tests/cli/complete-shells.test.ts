import { execFileSync, spawnSync } from 'node:child_process'
import { chmodSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Shell } from '../../src/cli/complete/shells.js'
import { exampleDistrict } from './completed.js'
import { newFolder, run } from './run-doorsweep.js'

const folder = newFolder()

/** A folder with the program on the path, as it is installed. */
function pathWithProgram(): string {
  const program = join(folder, 'doorsweep')
  const bin = new URL('../../bin/doorsweep.js', import.meta.url).pathname
  writeFileSync(program, `#!/bin/sh\nexec '${process.execPath}' '${bin}' "$@"\n`)
  chmodSync(program, 0o755)
  return `${folder}:${process.env.PATH}`
}

const env = { ...process.env, PATH: pathWithProgram() }

function has(shell: Shell): boolean {
  const found = spawnSync(shell, ['--version']).status === 0
  if (!found) process.stderr.write(`the completion of ${shell} is not tested: there is no ${shell} here\n`)
  return found
}

async function scriptOf(shell: Shell): Promise<string> {
  const { code, out, err } = await run(folder, ['completion', shell])
  expect([code, err]).toEqual([0, ''])
  const file = join(folder, `completion.${shell}`)
  writeFileSync(file, out)
  return file
}

/** Runs lines of a shell on the example district. */
function shellSays(command: string, args: readonly string[]): readonly string[] {
  const out = execFileSync(command, args, { cwd: exampleDistrict, env, encoding: 'utf8' })
  return out.split('\n').filter((line) => line !== '')
}

it('a shell that is not known is refused', async () => {
  const { code, out, err } = await run(folder, ['completion', 'cmd'])
  expect([code, out]).toEqual([2, ''])
  expect(err).toContain('bash, zsh, fish')
})

describe.skipIf(!has('bash'))('bash', () => {
  const asked = async (words: readonly string[]) => {
    const line = words.map((word) => `'${word}'`).join(' ')
    const script = `set -eu
source '${await scriptOf('bash')}'
complete -p doorsweep
COMP_WORDS=(doorsweep ${line})
COMP_CWORD=${words.length}
_doorsweep
printf '<%s>\\n' "\${COMPREPLY[@]}"`
    const [registered, ...offered] = shellSays('bash', ['--norc', '--noprofile', '-c', script])
    expect(registered).toBe('complete -F _doorsweep doorsweep')
    return offered
  }

  it.each([
    [['clip'], ['<clipboard>']],
    [['report', 'tr'], ['<trend>']],
    [
      ['due', '--site', ''],
      ['<ottermere>', '<quarry-road>', '<tamsin-hill>'],
    ],
    // bash makes three words of `--site=ot` and puts the answer behind the last.
    [['due', '--site', '=', 'ot'], ['<ottermere>']],
    [['clipboard', 'ottermere', '--area', 'ki'], ['<kitchen>']],
    [['report', 'service', 'ottermere/2026-03'], ['<ottermere/2026-03-03-okafor>']],
    // Files are left to the shell.
    [['precheck', ''], ['<>']],
    [['no-such-command', ''], ['<>']],
  ])('%j', async (words, offered) => {
    expect(await asked(words)).toEqual(offered)
  })
})

describe.skipIf(!has('zsh'))('zsh', () => {
  // What is offered is handed to `compadd`, which works only while someone types.
  const asked = async (words: readonly string[]) => {
    const before = words.slice(0, -1)
    const script = `compdef() { print -r -- "compdef $*" }
compadd() { while [[ $1 != -- ]] { shift }; shift; printf '<%s>\\n' "$@" }
_files() { print -r -- "files $*" }
compset() { : }
source '${await scriptOf('zsh')}'
COLUMNS=80
words=(doorsweep ${before.map((word) => `'${word}'`).join(' ')} ''); CURRENT=${words.length + 1}; PREFIX='${words.at(-1)}'
_doorsweep`
    const file = join(folder, 'asked.zsh')
    writeFileSync(file, script)
    const [registered, ...offered] = shellSays('zsh', ['-f', file])
    expect(registered).toBe('compdef _doorsweep doorsweep')
    return offered
  }

  it.each([
    [['clip'], ['<clipboard>']],
    [
      ['due', '--site', ''],
      ['<ottermere>', '<quarry-road>', '<tamsin-hill>'],
    ],
    [['due', '--site=ot'], ['<--site=ottermere>']],
    [
      ['report', 'service', 'ot'],
      ['<ottermere/>', 'files '],
    ],
    [['check', '--ledger', ''], ['files -/']],
  ])('%j', async (words, offered) => {
    expect(await asked(words)).toEqual(offered)
  })
})

describe.skipIf(!has('fish'))('fish', () => {
  const asked = async (line: string) =>
    shellSays('fish', ['--no-config', '-c', `source '${await scriptOf('fish')}'; complete -C '${line}'`])

  it.each([
    ['doorsweep due --site ', ['ottermere', 'quarry-road', 'tamsin-hill']],
    ['doorsweep due --site=ot', ['--site=ottermere']],
    ['doorsweep report service ot', ['ottermere/']],
  ])('%j', async (line, offered) => {
    expect(await asked(line)).toEqual(offered)
  })

  it('says what a command is for', async () => {
    expect(await asked('doorsweep clip')).toEqual([expect.stringMatching(/^clipboard\t.+/)])
  })
})
