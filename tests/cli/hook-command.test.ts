import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { GitLedger } from './git-ledger.js'
import { noLog, noSuchArea } from './overlays.js'
import { git, ledgerFolder, newFolder, run } from './run-doorsweep.js'

const today = { DOORSWEEP_TODAY: '2026-03-20' }
const ownHook = '#!/bin/sh\necho own >>"$(dirname "$0")/ran"\n[ ! -f refuse ]\n'

// Whoever runs this may have a folder of hooks for all repositories: nothing is to be written there.
beforeAll(() => {
  vi.stubEnv('GIT_CONFIG_GLOBAL', '/dev/null')
  vi.stubEnv('GIT_CONFIG_NOSYSTEM', '1')
})
afterAll(() => {
  vi.unstubAllEnvs()
})

/** Commits as a person does, with the hook; what it said where it refused. */
function commit(folder: string, ...args: string[]): { readonly done: boolean; readonly said: string } {
  try {
    const said = execFileSync('git', ['-c', 'commit.gpgsign=false', 'commit', '-m', 'records', ...args], {
      cwd: folder,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        ...process.env,
        ...today,
        GIT_AUTHOR_NAME: 'Example',
        GIT_AUTHOR_EMAIL: 'example@invalid.example',
        GIT_COMMITTER_NAME: 'Example',
        GIT_COMMITTER_EMAIL: 'example@invalid.example',
        GIT_CONFIG_GLOBAL: '/dev/null',
        GIT_CONFIG_NOSYSTEM: '1',
      },
    })
    return { done: true, said }
  } catch (error) {
    const { stdout = '', stderr = '' } = error as { stdout?: string; stderr?: string }
    return { done: false, said: `${stdout}${stderr}` }
  }
}

const hookOf = (repository: GitLedger) => join(repository.top, '.git/hooks/pre-commit')
const hook = (repository: GitLedger, what: 'install' | 'remove', ...args: string[]) =>
  run(repository.ledger, ['hook', what, ...args])

function withOwnHook(repository: GitLedger): void {
  mkdirSync(join(repository.top, '.git/hooks'), { recursive: true })
  writeFileSync(hookOf(repository), ownHook)
  chmodSync(hookOf(repository), 0o755)
}

describe('a commit, with the hook set up', () => {
  it('is refused for what it brings, and goes through when that is mended; old problems do not matter', async () => {
    const repository = new GitLedger(noLog)
    expect((await hook(repository, 'install')).code).toBe(0)
    repository.write(noLog + noSuchArea)
    repository.git('add', '-A')
    const refused = commit(repository.top)
    expect(refused.done).toBe(false)
    expect(refused.said).toContain('sites/oak/visits/2026-03-10-okafor.yaml:3:13: error')
    expect(refused.said).toContain('doorsweep: nothing was committed.')
    expect(refused.said).not.toContain('[complaint-log-not-read]')
    repository.write(noLog + noSuchArea.replace('kitchn', 'kitchen'))
    // Mended and not staged is not mended.
    expect(commit(repository.top).done).toBe(false)
    repository.git('add', '-A')
    expect(commit(repository.top).done).toBe(true)
  })

  it('of some files only is judged by those, from within the ledger too', async () => {
    const repository = new GitLedger('')
    await hook(repository, 'install')
    repository.write(noSuchArea)
    repository.git('add', '-A')
    writeFileSync(
      join(repository.ledger, 'people/marsh.yaml'),
      'name: Ines Marsh\nroles: [coordinator, trainer]\n',
    )
    const bad = 'sites/oak/visits/2026-03-10-okafor.yaml'
    expect(commit(repository.ledger, '--', bad).done).toBe(false)
    writeFileSync(join(repository.ledger, 'people/marsh.yaml'), 'name: Ines A. Marsh\nroles: [coordinator]\n')
    expect(commit(repository.ledger, '--', 'people/marsh.yaml').done).toBe(true)
    expect(commit(repository.ledger, '-a').done).toBe(false)
  })

  it('in another work tree of the repository is judged by what is there', async () => {
    const repository = new GitLedger('')
    await hook(repository, 'install')
    const other = join(newFolder(), 'other tree')
    repository.git('worktree', 'add', '-q', '-b', 'side', other)
    const visit = join(other, 'pest records/sites/oak/visits/2026-03-10-okafor.yaml')
    writeFileSync(visit, 'purpose: callback\nby: okafor\ninspected: [kitchn]\n')
    git(other, 'add', '-A')
    const refused = commit(other)
    expect([refused.done, refused.said.includes('2026-03-10-okafor.yaml:3:13')]).toEqual([false, true])
    writeFileSync(visit, 'purpose: callback\nby: okafor\ninspected: [kitchen]\n')
    expect(commit(other, '-a').done).toBe(true)
  })
})

describe('hook install', () => {
  it('says where it is, and twice is as once', async () => {
    const repository = new GitLedger('')
    const first = await hook(repository, 'install')
    expect([first.code, first.err]).toEqual([0, ''])
    expect(first.out).toContain(`The hook is set up: ${hookOf(repository)}\n`)
    expect(first.out).toContain('what is staged of pest records;')
    expect(statSync(hookOf(repository)).mode & 0o111).toBe(0o111)
    const text = readFileSync(hookOf(repository), 'utf8')
    chmodSync(hookOf(repository), 0o644)
    const second = await hook(repository, 'install')
    expect([second.code, second.out.startsWith('The hook was set up already: ')]).toEqual([0, true])
    expect(readFileSync(hookOf(repository), 'utf8')).toBe(text)
    expect(statSync(hookOf(repository)).mode & 0o111).toBe(0o111)
  })

  it('keeps the hook that is there, which runs first and can refuse; removal puts it back', async () => {
    const repository = new GitLedger('')
    withOwnHook(repository)
    const set = await hook(repository, 'install')
    expect(set.out).toContain('The hook that was there before is kept, and runs first.')
    await hook(repository, 'install')
    const ran = join(repository.top, '.git/hooks/ran')
    repository.git('commit', '-q', '--allow-empty', '-m', 'nothing')
    expect(readFileSync(ran, 'utf8')).toBe('own\n')
    writeFileSync(join(repository.top, 'refuse'), '')
    expect(commit(repository.top, '--allow-empty').done).toBe(false)
    rmSync(join(repository.top, 'refuse'))
    const removed = await hook(repository, 'remove')
    expect(removed.out).toBe(
      `The hook is gone: ${hookOf(repository)}\nThe hook that was there before is back in its place.\n`,
    )
    expect([readFileSync(hookOf(repository), 'utf8'), statSync(hookOf(repository)).mode & 0o111]).toEqual([
      ownHook,
      0o111,
    ])
    expect(existsSync(`${hookOf(repository)}.before-doorsweep`)).toBe(false)
  })

  it('goes where core.hooksPath says', async () => {
    const repository = new GitLedger('')
    repository.git('config', 'core.hooksPath', 'my hooks')
    const set = await hook(repository, 'install')
    const path = join(repository.top, 'my hooks/pre-commit')
    expect(set.out).toContain(`The hook is set up: ${path}\n`)
    expect(set.out).toContain('core.hooksPath')
    repository.write(noSuchArea)
    repository.git('add', '-A')
    expect(commit(repository.top).said).toContain('[dangling-reference]')
    expect((await hook(repository, 'remove')).code).toBe(0)
    expect(existsSync(path)).toBe(false)
  })

  it('does not write where hooks are switched off', async () => {
    const repository = new GitLedger('')
    repository.git('config', 'core.hooksPath', '/dev/null')
    for (const what of ['install', 'remove'] as const) {
      const ran = await hook(repository, what)
      expect([ran.out, ran.err.includes('fault of the program')]).toEqual([
        what === 'install' ? '' : ran.out,
        false,
      ])
    }
    expect((await hook(repository, 'install')).err).toContain('/dev/null is where git looks for hooks')
  })

  it('goes to the shared folder from any work tree, and from anywhere with --ledger', async () => {
    const repository = new GitLedger('')
    const other = join(newFolder(), 'other tree')
    repository.git('worktree', 'add', '-q', '-b', 'side', other)
    const set = await run(newFolder(), ['hook', 'install', '--ledger', join(other, 'pest records')])
    expect([set.code, set.out.includes(`${hookOf(repository)}\n`)]).toEqual([0, true])
    expect((await hook(repository, 'install')).out).toContain('was set up already')
  })

  it('is a mistake outside git, and where there is no ledger', async () => {
    const folder = ledgerFolder()
    for (const what of ['install', 'remove']) {
      const outside = await run(folder, ['hook', what])
      expect([outside.code, outside.out]).toEqual([2, ''])
      expect(outside.err).toMatch(/^doorsweep: git can read no checkout at .*`git init` starts one/)
      const none = await run(newFolder(), ['hook', what])
      expect([none.code, none.out]).toEqual([2, ''])
      expect(none.err).toMatch(/^doorsweep: There is no ledger at /)
    }
  })
})

describe('hook remove', () => {
  it('leaves alone what it did not write', async () => {
    const repository = new GitLedger('')
    withOwnHook(repository)
    const ran = await hook(repository, 'remove')
    expect(ran).toEqual({
      code: 2,
      out: '',
      err: `doorsweep: ${hookOf(repository)} is a hook that doorsweep did not write; it was left alone.\n`,
    })
    expect(readFileSync(hookOf(repository), 'utf8')).toBe(ownHook)
  })

  it('with none there is done', async () => {
    const repository = new GitLedger('')
    const ran = await hook(repository, 'remove')
    expect([ran.code, ran.out]).toEqual([
      0,
      `There is no hook of doorsweep for this ledger at ${hookOf(repository)}; nothing was changed.\n`,
    ])
  })

  it('and install leave alone one of ours that was changed by hand', async () => {
    const repository = new GitLedger('')
    await hook(repository, 'install')
    const changed = `${readFileSync(hookOf(repository), 'utf8')}# mine\n`
    writeFileSync(hookOf(repository), changed)
    for (const what of ['install', 'remove'] as const) {
      const ran = await hook(repository, what)
      expect([ran.code, ran.out]).toEqual([2, ''])
      expect(ran.err).toContain('changed by hand since, so it was left alone')
    }
    expect(readFileSync(hookOf(repository), 'utf8')).toBe(changed)
  })

  it('says in words that there is no such thing to do', async () => {
    const repository = new GitLedger('')
    const ran = await run(repository.ledger, ['hook', 'instal'])
    expect([ran.code, ran.out, ran.err.includes('fault of the program')]).toEqual([2, '', false])
  })
})
