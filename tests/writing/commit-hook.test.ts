import { spawnSync } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { installHook, removeHook } from '../../src/writing/commit-hook.js'
import { hookFound, hookScript } from '../../src/writing/commit-hook-script.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'

const identity = [
  '-c',
  'user.name=Test',
  '-c',
  'user.email=test@example.invalid',
  '-c',
  'init.defaultBranch=main',
]
const settings = { GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' }

/** A repository with files, and a stand-in for the program, which a shell runs: it writes down what it was asked. */
function around(ledgers: readonly string[], exitCode = 0) {
  const folder = temporaryFolder()
  const top = join(folder, "it's a repository")
  const program = join(folder, "the $program's `file`")
  const asked = join(folder, 'asked')
  writeFileSync(program, `printf 'program %s\\n' "$*" >>'${asked}'\nexit ${exitCode}\n`)
  writeFiles(top, [
    ['other.txt', 'x\n'],
    ...ledgers.map((ledger): [string, string] => [join(ledger, 'district.yaml'), 'format: 1\n']),
  ])
  const git = (args: string[], path = process.env.PATH) =>
    spawnSync('git', [...identity, ...args], {
      cwd: top,
      encoding: 'utf8',
      env: { ...process.env, ...settings, PATH: path },
    })
  git(['init', '-q'])
  const hooks = join(top, '.git/hooks')
  return {
    top,
    hooks,
    git,
    program: { node: '/bin/sh', file: program },
    asked: () => (existsSync(asked) ? readFileSync(asked, 'utf8').split('\n').slice(0, -1) : []),
    commitAll: () => {
      git(['add', '-A'])
      return git(['commit', '-q', '-m', 'x'])
    },
  }
}

describe('the hook as git runs it', () => {
  it('asks the program for each ledger, whatever is in the names', () => {
    const odd = 'odd $HOME `x` "é" \\n'
    const at = around(['', odd])
    installHook(at.hooks, '', at.program)
    installHook(at.hooks, odd, at.program)
    expect(at.commitAll().status).toBe(0)
    expect(at.asked()).toEqual([
      `program check --staged --ledger ${at.top}/`,
      `program check --staged --ledger ${at.top}/${odd}/`,
    ])
  })

  it.each([1, 2])('refuses when the program answers %d', (exitCode) => {
    const at = around(['records'], exitCode)
    installHook(at.hooks, 'records', at.program)
    const refused = at.commitAll()
    expect([refused.status === 0, at.asked().length]).toEqual([false, 1])
    expect(refused.stderr).toContain('doorsweep: nothing was committed.')
    expect(at.git(['commit', '-q', '--no-verify', '-m', 'x']).status).toBe(0)
  })

  it('does not ask when nothing of the ledger is staged, nor where there is no such ledger', () => {
    const at = around(['records'])
    at.commitAll()
    installHook(at.hooks, 'records', at.program)
    installHook(at.hooks, 'elsewhere', at.program)
    writeFiles(at.top, [['other.txt', 'y\n']])
    expect([at.commitAll().status, at.asked()]).toEqual([0, []])
  })

  it('refuses where the ledger is taken away', () => {
    const at = around(['records'])
    at.commitAll()
    installHook(at.hooks, 'records', at.program)
    at.git(['mv', 'records', 'moved'])
    const refused = at.git(['commit', '-q', '-m', 'x'])
    expect([refused.status === 0, at.asked()]).toEqual([false, []])
    expect(refused.stderr).toContain(
      'If the ledger has moved, run `doorsweep hook install` in its new place.',
    )
  })

  it('refuses when the program is gone, and takes one that is installed with the records', () => {
    const at = around([''])
    const gone = { node: '/no/such/node', file: '/no/such/program.js' }
    installHook(at.hooks, '', gone)
    at.git(['add', '-A'])
    // Without a doorsweep that someone may have on the PATH.
    const bare = '/usr/bin:/bin'
    const refused = at.git(['commit', '-q', '-m', 'x'], bare)
    expect(refused.status).not.toBe(0)
    expect(refused.stderr).toContain(
      'the program is no longer at /no/such/program.js and nowhere else to be found',
    )
    const installed = join(at.top, 'node_modules/.bin/doorsweep')
    writeFiles(at.top, [
      ['node_modules/.bin/doorsweep', `#!/bin/sh\n. "${at.program.file.replace(/[$`]/g, '\\$&')}"\n`],
    ])
    chmodSync(installed, 0o755)
    expect([at.git(['commit', '-q', '-m', 'x'], bare).status, at.asked().length]).toEqual([0, 1])
  })

  it.each([
    [
      'a shell script, which finds itself by its name',
      '#!/bin/sh\necho "before $(basename "$0")" >>"$OUT"\n',
    ],
    ['one for another shell', '#!/usr/bin/env bash\n[[ 1 ]] && echo "before $(basename "$0")" >>"$OUT"\n'],
  ])('runs first the hook that was there: %s', (_, text) => {
    const at = around([''])
    const out = join(at.top, '.git/out')
    mkdirSync(at.hooks, { recursive: true })
    const hook = join(at.hooks, 'pre-commit')
    writeFileSync(hook, text.replace('"$OUT"', `'${out.replaceAll("'", "'\\''")}'`))
    chmodSync(hook, 0o755)
    installHook(at.hooks, '', at.program)
    expect(at.commitAll().status).toBe(0)
    expect([readFileSync(out, 'utf8'), at.asked().length]).toEqual(['before pre-commit\n', 1])
  })

  it('does not ask the program when the hook before refuses, and passes by one that may not be run', () => {
    const at = around([''])
    mkdirSync(at.hooks, { recursive: true })
    const hook = join(at.hooks, 'pre-commit')
    writeFileSync(hook, '#!/usr/bin/perl\nexit 3;\n')
    installHook(at.hooks, '', at.program)
    expect([at.commitAll().status, at.asked().length]).toEqual([0, 1])
    chmodSync(`${hook}.before-doorsweep`, 0o755)
    writeFiles(at.top, [['other.txt', 'y\n']])
    expect([at.commitAll().status === 0, at.asked().length]).toEqual([false, 1])
  })
})

describe('hooks of several ledgers', () => {
  it('are one hook, which goes with the last of them', () => {
    const at = around(['a', 'b'])
    installHook(at.hooks, 'b', at.program)
    installHook(at.hooks, 'a', at.program)
    expect(removeHook(at.hooks, 'c', at.program)).toEqual({ is: 'none' })
    expect(removeHook(at.hooks, 'b', at.program)).toEqual({ is: 'kept-for-others', ledgers: ['a'] })
    expect(at.commitAll().status).toBe(0)
    expect(at.asked()).toEqual([`program check --staged --ledger ${at.top}/a/`])
    expect(removeHook(at.hooks, 'a', at.program)).toEqual({ is: 'removed', isBeforeBack: false })
    expect(existsSync(join(at.hooks, 'pre-commit'))).toBe(false)
  })
})

describe('what lies where the hook should go', () => {
  it('a link is kept as a link', () => {
    const at = around([''])
    mkdirSync(at.hooks, { recursive: true })
    const hook = join(at.hooks, 'pre-commit')
    symlinkSync('nowhere', hook)
    expect(installHook(at.hooks, '', at.program)).toEqual({ is: 'installed', keepsBefore: true })
    expect(removeHook(at.hooks, '', at.program)).toEqual({ is: 'removed', isBeforeBack: true })
    expect(existsSync(hook)).toBe(false)
    expect(() => symlinkSync('nowhere', hook)).toThrow('EEXIST')
  })

  it('a second foreign hook, put there after ours, is not written over, nor is the first', () => {
    const at = around([''])
    writeFiles(at.hooks, [['pre-commit', 'one']])
    installHook(at.hooks, '', at.program)
    writeFiles(at.hooks, [['pre-commit', 'two']])
    expect(installHook(at.hooks, '', at.program)).toEqual({ is: 'two-before' })
    expect(removeHook(at.hooks, '', at.program)).toEqual({ is: 'not-ours' })
    expect(readFileSync(join(at.hooks, 'pre-commit'), 'utf8')).toBe('two')
    expect(readFileSync(join(at.hooks, 'pre-commit.before-doorsweep'), 'utf8')).toBe('one')
  })

  it('a file in place of the folder', () => {
    const at = around([''])
    writeFiles(at.top, [['hooks', '']])
    expect(installHook(join(at.top, 'hooks'), '', at.program)).toEqual({ is: 'no-folder' })
  })
})

describe('the text of a hook', () => {
  const text = hookScript({ ledgers: ['b', '', 'b'], program: { node: 'n', file: "it's" } })

  it('is known for ours, with its ledgers', () => {
    expect(hookFound(text)).toEqual({ is: 'ours', ledgers: ['', 'b'] })
  })

  it.each([
    ['changed-by-hand', `${text}\n`],
    ['changed-by-hand', text.replace('#!/bin/sh', '#!/bin/bash')],
    ['changed-by-hand', text.replaceAll('\n', '\r\n')],
    ['not-ours', ''],
    ['not-ours', '#!/bin/sh\ndoorsweep check\n'],
  ])('is %s otherwise: %#', (is, other) => {
    expect(hookFound(other)).toEqual({ is })
  })
})
