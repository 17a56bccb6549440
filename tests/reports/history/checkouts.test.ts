import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdirSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { ledgerWith } from '../../../src/rules/base-ledger.js'
import { newFolder, run, writeFiles } from '../../cli/run-doorsweep.js'
import {
  complaint,
  findings,
  gitIn,
  history,
  lind,
  quiet,
  scenario,
  visitFile,
  visitWith,
} from './git-scenario.js'

const silent = { on: '2026-03-08', files: { [visitFile]: visitWith('06:50', '06:55') } }
const told = [[visitFile, 'time', '06:10 to 06:50', '06:10 to 06:55']]
const noted = { on: '2026-03-11', by: lind, files: complaint('2026-03-10') }

describe('a checkout', () => {
  it('that is shallow says where it was cut off, and takes nothing for new that was there', async () => {
    const { folder } = scenario([silent, noted])
    const clone = join(newFolder(), 'clone')
    gitIn('/', ['clone', '-q', '--depth=1', `file://${folder}`, clone])
    const shallow = await history(clone)
    expect(findings(shallow)).toEqual(quiet)
    // The 11 records of the example ledger, and the complaint.
    expect(shallow.notExamined).toEqual([
      expect.stringMatching(
        /^This clone is shallow and was cut off at commit [0-9a-f]{12} of 2026-03-11\. When its 12 records first came into git/,
      ),
    ])
    expect(shallow.code).toBe(2)
    // What is asked for lies after the cut: nothing of it is open.
    expect((await history(clone, '--from', '2026-03-12')).code).toBe(0)
    const deeper = join(newFolder(), 'clone')
    gitIn('/', ['clone', '-q', '--depth=2', `file://${folder}`, deeper])
    expect((await history(deeper)).rows('changed')).toEqual([])
    const whole = join(newFolder(), 'clone')
    gitIn('/', ['clone', '-q', `file://${folder}`, whole])
    expect(findings(await history(whole))).toEqual({ ...quiet, changed: told })
  })

  it('that is a second work tree, detached, or of a branch is read up to its own last commit', async () => {
    const { folder, ids } = scenario([{ ...silent, as: 'silent' }, noted], { checkedOut: true })
    const tree = join(newFolder(), 'tree')
    gitIn(folder, ['worktree', 'add', '-q', '--detach', tree, ids.get('first') ?? ''])
    expect(findings(await history(tree))).toEqual(quiet)
    gitIn(tree, ['checkout', '-q', ids.get('silent') ?? ''])
    expect(findings(await history(tree))).toEqual({ ...quiet, changed: told })
    expect((await history(folder, '--rev', ids.get('first') ?? '')).headline).toMatch(
      /^In one commit git shows no/,
    )
  })

  it('that holds more than the ledger tells only what bears on it', async () => {
    const { folder, history: of } = scenario([silent], { at: 'office/pests' })
    writeFiles(folder, new Map([['elsewhere.txt', 'nothing of the ledger']]))
    gitIn(folder, ['read-tree', 'HEAD'])
    gitIn(folder, ['add', 'elsewhere.txt'])
    gitIn(
      folder,
      ['commit', '-q', '--author=Max Nobody <max@nowhere.example>', '-m', 'Elsewhere'],
      '',
      '2026-03-12T12:00:00Z',
    )
    expect(findings(await of())).toEqual({ ...quiet, changed: told })
    expect((await of()).headline).toMatch(/^In 2 commits/)
  })

  it('into whose folder the ledger moved says so, and takes nothing for new that was moved', async () => {
    const { folder } = scenario([silent], { at: 'pests', checkedOut: true })
    renameSync(join(folder, 'pests'), join(folder, 'records'))
    gitIn(folder, ['add', '-A'])
    gitIn(folder, ['commit', '-q', '-m', 'Moved'], '', '2026-06-01T12:00:00-07:00')
    const moved = await history(join(folder, 'records'))
    expect(findings(moved)).toEqual(quiet)
    expect(moved.notExamined).toEqual([
      expect.stringMatching(
        /^11 records came to this folder with commit [0-9a-f]{12} of 2026-06-01 from elsewhere/,
      ),
    ])
    expect(moved.code).toBe(2)
  })

  it('that is a submodule is read as the repository it is', async () => {
    const { folder } = scenario([silent])
    const outer = newFolder()
    gitIn(outer, ['init', '-q'])
    gitIn(outer, ['submodule', '--quiet', 'add', `file://${folder}`, 'pests'])
    gitIn(outer, ['commit', '-q', '-m', 'With the ledger'])
    expect(findings(await history(join(outer, 'pests')))).toEqual({ ...quiet, changed: told })
  })

  it('with names that are not UTF-8, and long ids, is read', async () => {
    const { history: of, git, folder } = scenario([silent], { format: 'sha256' })
    expect(git('rev-parse', 'HEAD').trim()).toHaveLength(64)
    expect(findings(await of())).toEqual({ ...quiet, changed: told })
    gitIn(folder, ['read-tree', 'HEAD'])
    const id = gitIn(folder, ['hash-object', '-w', '--stdin'], 'by: lind\n').trim()
    const line = Buffer.concat([
      Buffer.from(`100644 ${id}\tsites/oak/complaints/2026-03-10-jos`),
      Buffer.from([0xe9]),
      Buffer.from('.yaml\0'),
    ])
    execFileSync('git', ['update-index', '-z', '--index-info'], { cwd: folder, input: line })
    gitIn(folder, ['commit', '-q', '-m', 'An odd name'], '', '2026-03-11T12:00:00-08:00')
    const odd = await of()
    expect(findings(odd)).toEqual({ ...quiet, changed: told })
    // The site cannot be judged with a file that is no record; that is told, and makes the exit code 2.
    expect([odd.code, odd.notExamined.some((line) => line.startsWith('sites/oak'))]).toEqual([2, true])
  })

  it('with settings and hooks that would run a program runs none, and believes no replaced commit', async () => {
    const { folder, history: of, ids } = scenario([{ ...silent, as: 'silent' }, noted], { checkedOut: true })
    const mark = join(folder, 'was-run')
    const program = join(newFolder(), 'program')
    writeFileSync(program, `#!/bin/sh\ntouch ${mark}\n`)
    chmodSync(program, 0o755)
    mkdirSync(join(folder, '.git/info'))
    writeFileSync(join(folder, '.git/info/attributes'), '*.yaml diff=x filter=x\n')
    for (const setting of [
      'diff.external',
      'diff.x.command',
      'diff.x.textconv',
      'filter.x.clean',
      'filter.x.smudge',
      'core.fsmonitor',
      'core.pager',
      'gpg.program',
    ])
      gitIn(folder, ['config', setting, program])
    gitIn(folder, ['config', 'log.showSignature', 'true'])
    gitIn(folder, ['replace', ids.get('silent') ?? '', ids.get('first') ?? ''])
    expect(findings(await of())).toEqual({ ...quiet, changed: told })
    expect(existsSync(mark)).toBe(false)
  })
})

describe('without what it needs', () => {
  const refused = async (folder: string, ...args: string[]) => {
    const { code, out, err } = await run(folder, ['history', ...args], { DOORSWEEP_TODAY: '2026-06-30' })
    expect([code, out]).toEqual([2, ''])
    return err
  }

  it('no git checkout is said so', async () => {
    const folder = newFolder()
    writeFiles(folder, ledgerWith(''))
    expect(await refused(folder)).toMatch(
      /^doorsweep: The ledger at .* is in no git checkout that can be read/,
    )
  })

  it('a checkout without a commit, or without one of the ledger, is said so', async () => {
    const folder = newFolder()
    writeFiles(folder, ledgerWith(''))
    gitIn(folder, ['init', '-q'])
    expect(await refused(folder)).toMatch(/^doorsweep: There is no commit yet/)
    gitIn(folder, ['commit', '-q', '--allow-empty', '-m', 'Nothing'])
    expect(await refused(folder)).toMatch(/^doorsweep: No commit holds anything of the ledger/)
  })

  it.each([
    [['--rev', 'no-such-branch'], 'git knows no revision no-such-branch here.'],
    [['--site', 'okk'], 'There is no site okk; did you mean oak?'],
    [
      ['--from', '2026-04-01', '--to', '2026-03-01'],
      'The period ends before it starts: 2026-04-01 to 2026-03-01.',
    ],
    [['--from', 'soon'], '--from soon: write a day as year-month-day, such as 2026-03-12.'],
    [
      ['--format', 'csv', '--table', 'nothing'],
      'This report has no table nothing; it has late, changed, gone, merges, dates, authors, unsigned, corrections, typed.',
    ],
  ])('%j', async (args, says) => {
    const { ledger } = scenario([])
    expect(await refused(ledger, ...args)).toBe(`doorsweep: ${says}\n`)
  })

  it('a repository that lost what it held is told, and is no clean page', async () => {
    const { folder, ledger } = scenario([silent])
    const blob = gitIn(folder, ['rev-parse', `HEAD~1:${visitFile}`]).trim()
    gitIn(folder, ['repack', '-q', '-a', '-d'])
    // Everything loose, so that one object can be taken away.
    const packs = join(folder, '.git/objects/pack')
    const { readdirSync, readFileSync, rmSync } = await import('node:fs')
    const pack = readdirSync(packs).find((name) => name.endsWith('.pack')) ?? ''
    const bytes = readFileSync(join(packs, pack))
    rmSync(packs, { recursive: true })
    execFileSync('git', ['unpack-objects', '-q'], { cwd: folder, input: bytes })
    rmSync(join(folder, '.git/objects', blob.slice(0, 2), blob.slice(2)))
    const broken = await history(ledger)
    expect(broken.code).toBe(2)
    expect(broken.headline).toMatch(/Not everything could be looked at; what could not is told below\.$/)
    expect(broken.notExamined).toEqual([
      expect.stringMatching(`^${visitFile}: what it was before commit [0-9a-f]{12} cannot be read`),
    ])
  })
})

describe('only a part', () => {
  it('of the sites, and of the days of the commits', async () => {
    const overlay =
      '=== sites/elm/site.yaml\nname: Elm School\nsite-manager: [{from: 2026-03-01, who: lind}]\ncomplaint-log: office\ncontract: [{from: 2026-03-01, contractor: Own, routine-visits: monthly}]\nareas:\n  hall: {kind: classroom}\n'
    const { history: of } = scenario(
      [silent, { on: '2026-04-20', by: 'Max Nobody <x@y.example>', files: complaint('2026-03-10') }],
      { overlay },
    )
    expect(findings(await of('--site', 'elm'))).toEqual(quiet)
    expect((await of('--site', 'oak')).rows('changed')).toHaveLength(1)
    const april = await of('--from', '2026-04-01', '--to', '2026-04-30')
    expect(findings(april)).toEqual({
      ...quiet,
      late: [['sites/oak/complaints/2026-03-10-lind.yaml']],
      authors: [['Max Nobody', 'x@y.example', 1]],
    })
    const march = await of('--as-of', '2026-03-31')
    expect(findings(march)).toEqual({ ...quiet, changed: told })
    expect(march.notExamined).toContain('One commit dated after the as-of day was not looked at.')
    expect(march.code).toBe(0)
    expect(march.headline).toMatch(/^In 2 commits/)
  })

  it('text, Markdown and CSV tell the same', async () => {
    const { ledger } = scenario([silent])
    const as = async (...args: string[]) =>
      (await run(ledger, ['history', ...args], { DOORSWEEP_TODAY: '2026-06-30' })).out
    expect(await as()).toContain('* Dates, authors and order are what whoever made a commit had git write')
    expect(await as()).toContain('06:10 to 06:50')
    expect(await as('--format', 'markdown')).toContain(
      `| ${visitFile} | event | time | 06:10 to 06:50 | 06:10 to 06:55 |`,
    )
    expect(await as('--format', 'csv', '--table', 'changed')).toMatch(
      new RegExp(
        `^record,what,key,before,after,commit,committed,author,since,records\n${visitFile},event,time,06:10 to 06:50,06:10 to 06:55,`,
      ),
    )
  })
})
