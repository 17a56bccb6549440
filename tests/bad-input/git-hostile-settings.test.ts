import { execFileSync } from 'node:child_process'
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { index, revision } from '../../src/files/git-source.js'
import { reportNames } from '../../src/reports/all.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { checkout, commitAll, elm, git } from './git-checkout.js'
import { doorsweep } from './run-main.js'

const withApplication = `
${elm}
=== sites/oak/applications/2026-03-12-okafor.yaml
by: okafor
status: done
product: bait-a
pest: german-cockroach
areas: {kitchen: {amount: 2 g, placements: 4, within-reach: no}}
method: crack-and-crevice
amount: 2 g
`

/**
 * A checkout that names a program wherever git lets one be named. Each leaves a line in a file when it runs. The ledger
 * is a folder in it, so that settings of the whole checkout are met from below as well.
 */
function boobyTrapped() {
  const top = temporaryFolder()
  const trap = temporaryFolder()
  const ledger = join(top, 'ledger')
  writeFiles(ledger, ledgerWith(withApplication))
  writeFileSync(join(top, '.gitattributes'), '* filter=trap diff=trap merge=trap\n')
  git(top, ['init', '--quiet'])
  commitAll(top)
  const ran = join(trap, 'ran.txt')
  const program = join(trap, 'program')
  // What fetches would wait for an answer.
  writeFileSync(program, `#!/bin/sh\necho "$TRAP" "$@" >> '${ran}'\n[ "$1" = fetch ] || cat\n`)
  chmodSync(program, 0o755)
  const named = (name: string) => `env TRAP=${name} '${program}'`
  const hooks = join(trap, 'hooks')
  mkdirSync(hooks)
  for (const hook of ['pre-commit', 'post-checkout', 'post-index-change', 'reference-transaction'])
    cpSync(program, join(hooks, hook))
  const settings: [string, string][] = [
    ['core.fsmonitor', named('fsmonitor')],
    ['core.hooksPath', hooks],
    ['core.pager', named('pager')],
    ['core.editor', named('editor')],
    ['core.askPass', program],
    ['core.sshCommand', named('ssh')],
    ['core.gitProxy', program],
    ['core.alternateRefsCommand', named('alternates')],
    ['credential.helper', `!${named('credential')}`],
    ['filter.trap.clean', named('clean')],
    ['filter.trap.smudge', named('smudge')],
    ['filter.trap.required', 'true'],
    ['diff.external', program],
    ['diff.trap.command', program],
    ['diff.trap.textconv', program],
    ['merge.trap.driver', named('merge')],
    ['gpg.program', program],
    ['gpg.ssh.program', program],
    ['log.showSignature', 'true'],
    ['sequence.editor', named('editor')],
    ['pager.log', named('pager')],
    ['pager.ls-tree', named('pager')],
    ['pager.ls-files', named('pager')],
    ['include.path', join(trap, 'included')],
    ['protocol.allow', 'always'],
    ['protocol.ext.allow', 'always'],
    ['remote.origin.url', `ext::${program} fetch`],
    ['remote.origin.promisor', 'true'],
    ['remote.origin.partialCloneFilter', 'blob:none'],
    ['extensions.partialClone', 'origin'],
    ...['ls-tree', 'ls-files', 'cat-file', 'rev-parse', 'merge-base', 'log', 'rev-list', 'diff-tree'].map(
      (command): [string, string] => [`alias.${command}`, `!${named('alias')}`],
    ),
  ]
  writeFileSync(join(trap, 'included'), `[core]\n\tfsmonitor = ${named('included')}\n`)
  git(top, ['config', 'core.repositoryFormatVersion', '1'])
  for (const [name, value] of settings) git(top, ['config', '--add', name, value])
  return {
    top,
    ledger,
    trap,
    ran: () => (existsSync(ran) ? readFileSync(ran, 'utf8') : ''),
    reset: () => rmSync(ran, { force: true }),
  }
}

/** Takes the content of a committed file out of the repository, as if it had never been fetched. */
function takeAway(top: string, path: string): string {
  const id = git(top, ['rev-parse', `HEAD:ledger/${path}`])
  rmSync(join(top, '.git/objects', id.slice(0, 2), id.slice(2)))
  return id
}

const surroundings = { ...process.env }
afterEach(() => {
  for (const name of Object.keys(process.env)) if (!(name in surroundings)) delete process.env[name]
  Object.assign(process.env, surroundings)
})

/** Every command that only reads, with and without a revision. */
function readingCommands(): string[][] {
  const asOf = ['--as-of', '2026-03-20']
  const needs: Record<string, string[]> = {
    service: ['oak/2026-03-05-okafor'],
    application: ['oak/2026-03-12-okafor'],
  }
  const reports = Object.keys(reportNames).map((name) => ['report', name, ...(needs[name] ?? [])])
  const both = [['check'], ['due'], ['labels', 'oak'], ['clipboard', 'oak'], ...reports]
  return [
    ...both.flatMap((command) => [
      [...command, ...asOf],
      [...command, ...asOf, '--rev', 'HEAD'],
    ]),
    ['report', 'compliance', ...asOf, '--format', 'json'],
    ['notice', 'oak/2026-03-12-okafor'],
    ['visit', 'oak', '--blank'],
    ['new', 'visit', '--site', 'oak', '--by', 'okafor', '--print'],
    ['rulebook', 'list'],
    ['sds', 'bait-a'],
    ['precheck', 'sites/oak/applications/2026-03-12-okafor.yaml'],
  ]
}

describe('a checkout whose settings name programs', () => {
  it('would run them for anyone who asks git about it without care', () => {
    const { top, ran } = boobyTrapped()
    writeFileSync(join(top, 'ledger/district.yaml'), 'format: 2\n')
    const id = takeAway(top, 'people/marsh.yaml')
    for (const args of [['status'], ['diff'], ['log', '-p', '-1'], ['cat-file', '-p', id]]) {
      try {
        git(top, args)
      } catch {
        // What these print, and whether they end well, is of no interest here.
      }
    }
    expect(ran()).toContain('clean')
    expect(ran()).toMatch(/included|fsmonitor/)
    expect(ran()).toContain('district.yaml')
    expect(ran()).toContain('fetch')
  })

  it('runs none of them, whatever is asked of the ledger', async () => {
    const { ledger, ran } = boobyTrapped()
    writeFileSync(join(ledger, 'people/new.yaml'), 'name: New Person\nroles: [clerk]\n')
    const silent: string[] = []
    for (const args of readingCommands()) {
      const said = await doorsweep(ledger, ...args)
      expect([args, said.err.includes('fault of the program')]).toEqual([args, false])
      expect([args, ran()]).toEqual([args, ''])
      if (said.out === '') silent.push(`${args.join(' ')}: ${said.err}`)
    }
    expect(silent).toEqual([])
  })

  it('fetches nothing for what is not in the repository, and says that it could not be read', async () => {
    const { top, ledger, ran } = boobyTrapped()
    takeAway(top, 'people/marsh.yaml')
    const said = await doorsweep(ledger, 'check', '--rev', 'HEAD')
    expect(said.code).toBe(2)
    expect(said.out).toContain('could not be read from git')
    expect(ran()).toBe('')
  })
})

describe('another repository than the one around the ledger', () => {
  /** A ledger with a person whom no other repository knows. */
  const ledgerOf = (top: string) => {
    const ledger = join(top, 'ledger')
    mkdirSync(ledger)
    writeFiles(ledger, [
      ['district.yaml', 'format: 1\n'],
      ['people/okafor.yaml', 'name: Ada Okafor\nroles: [technician]\n'],
    ])
    git(top, ['init', '--quiet'])
    commitAll(top)
    return ledger
  }
  const paths = (ledger: string) =>
    revision(ledger, 'HEAD')
      ?.list()
      .map(({ path }) => path)
  const all = ['district.yaml', 'people/okafor.yaml']

  it('is not read because core.worktree points to its files', () => {
    const top = temporaryFolder()
    const ledger = ledgerOf(top)
    git(top, ['config', 'core.worktree', temporaryFolder()])
    expect(paths(ledger)).toEqual(all)
  })

  it.each([
    'GIT_DIR',
    'GIT_COMMON_DIR',
    'GIT_OBJECT_DIRECTORY',
    'GIT_INDEX_FILE',
    'GIT_WORK_TREE',
    'GIT_PREFIX',
  ])('is not read because %s names it, as in a hook of git', (name) => {
    const ledger = ledgerOf(temporaryFolder())
    process.env[name] = checkout()
    expect(paths(ledger)).toEqual(all)
    expect(revision(ledger, 'HEAD')?.read('people/okafor.yaml')).toHaveProperty('bytes')
  })

  it('is not read when it lies among the records as plain files', async () => {
    const top = temporaryFolder()
    const ledger = ledgerOf(top)
    const other = boobyTrapped()
    git(other.top, ['config', 'core.bare', 'true'])
    for (const name of ['HEAD', 'objects', 'refs', 'config'])
      cpSync(join(other.top, '.git', name), join(ledger, name), { recursive: true })
    // Git takes such a folder for a repository: nothing of it is run, and nothing is said to be its revision.
    expect(
      execFileSync('git', ['rev-parse', '--is-bare-repository'], { cwd: ledger, encoding: 'utf8' }),
    ).toBe('true\n')
    expect(paths(ledger)).toBeUndefined()
    const said = await doorsweep(ledger, 'check', '--rev', 'HEAD')
    expect([said.code, said.out, other.ran()]).toEqual([2, '', ''])
  })

  it('is not asked for the content that replaces what was committed', () => {
    const top = temporaryFolder()
    const ledger = ledgerOf(top)
    const was = git(top, ['rev-parse', 'HEAD:ledger/people/okafor.yaml'])
    writeFileSync(join(top, 'other'), 'name: Someone Else\nroles: [clerk]\n')
    git(top, ['replace', was, git(top, ['hash-object', '-w', 'other'])])
    const read = revision(ledger, 'HEAD')?.read('people/okafor.yaml')
    expect(read && 'bytes' in read ? String(read.bytes) : read).toContain('Ada Okafor')
  })
})

describe('the index that git names to the hooks of a commit', () => {
  /** The index a commit of some files only is made from: it holds one person more than the usual one. */
  function commitInTheMaking() {
    const root = checkout()
    const making = join(root, '.git/next-index-1.lock')
    cpSync(join(root, '.git/index'), making)
    writeFileSync(join(root, 'people/vale.yaml'), 'name: A Vale\nroles: [clerk]\n')
    git(root, ['add', 'people/vale.yaml'], { GIT_INDEX_FILE: making })
    return { root, making }
  }
  const hasVale = (root: string) =>
    index(root)
      ?.list()
      .some(({ path }) => path === 'people/vale.yaml')

  it('is the one that is read, by its full name or from the top of the checkout', () => {
    const { root, making } = commitInTheMaking()
    expect(hasVale(root)).toBe(false)
    for (const name of [making, '.git/next-index-1.lock']) {
      process.env.GIT_INDEX_FILE = name
      expect(hasVale(root)).toBe(true)
    }
  })

  it('is not read for a ledger of another checkout', () => {
    process.env.GIT_INDEX_FILE = commitInTheMaking().making
    expect(hasVale(checkout())).toBe(false)
  })

  it('is found from a linked work tree, which keeps its index elsewhere', () => {
    const { root } = commitInTheMaking()
    const linked = join(temporaryFolder(), 'linked')
    git(root, ['worktree', 'add', '--quiet', linked])
    expect(hasVale(linked)).toBe(false)
    expect(revision(linked, 'HEAD')?.list().length).toBe(revision(root, 'HEAD')?.list().length)
    writeFileSync(join(linked, 'people/vale.yaml'), 'name: A Vale\nroles: [clerk]\n')
    const own = join(root, '.git/worktrees/linked')
    cpSync(join(own, 'index'), join(own, 'next-index-1.lock'))
    process.env.GIT_INDEX_FILE = join(own, 'next-index-1.lock')
    git(linked, ['add', 'people/vale.yaml'], { GIT_INDEX_FILE: process.env.GIT_INDEX_FILE })
    expect(hasVale(linked)).toBe(true)
  })
})

it('a file named git in the ledger is never taken for git', () => {
  const top = checkout()
  const ran = join(temporaryFolder(), 'ran.txt')
  writeFileSync(join(top, 'git'), `#!/bin/sh\necho ran > '${ran}'\n`)
  chmodSync(join(top, 'git'), 0o755)
  process.env.PATH = `.:${process.env.PATH}`
  expect(revision(top, 'HEAD')?.list().length).toBeGreaterThan(10)
  expect(existsSync(ran)).toBe(false)
})
