import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { noLog, noSuchArea } from '../cli/overlays.js'
import { git, ledgerFolder, newFolder, writeFiles } from '../cli/run-doorsweep.js'

const project = new URL('../../', import.meta.url).pathname
const script = join(project, 'examples/ci/check-records.sh')

const badRecord = 'sites/oak/visits/2026-03-10-okafor.yaml'

/** Runs the script as it stands, as a CI service would: the program by its path, no one's own settings of git. */
function runScript(folder: string, ...args: string[]) {
  const { status, stdout, stderr } = spawnSync('sh', [script, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: {
      PATH: process.env.PATH,
      HOME: folder,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_NOSYSTEM: '1',
      GIT_TERMINAL_PROMPT: '0',
      DOORSWEEP: join(project, 'bin/doorsweep.js'),
      DOORSWEEP_TODAY: '2026-03-20',
    },
  })
  return { code: status, out: stdout, err: stderr }
}

/** Lines of a check that tell a problem, without the sentence. */
const problemsIn = (out: string) =>
  [...out.matchAll(/^(\S+:\d+:\d+): (\w+): .* \[([a-z-]+)\]$/gm)].map(([, place, level, rule]) => [
    place,
    level,
    rule,
  ])

/** A repository with an old debt on `main`, and a branch `change` with one record more. */
function origin(record: string): string {
  const root = ledgerFolder(noLog)
  git(root, 'init', '--quiet', '--initial-branch=main')
  git(root, 'add', '.')
  git(root, 'commit', '--quiet', '-m', 'records')
  git(root, 'checkout', '--quiet', '-b', 'change')
  writeFiles(root, new Map([[badRecord, record]]))
  git(root, 'add', '.')
  git(root, 'commit', '--quiet', '-m', 'a visit')
  // What others do on main meanwhile is not the branch's.
  git(root, 'checkout', '--quiet', 'main')
  writeFiles(root, new Map([['notes.txt', 'no record\n']]))
  git(root, 'add', '.')
  git(root, 'commit', '--quiet', '-m', 'meanwhile')
  git(root, 'checkout', '--quiet', 'change')
  return root
}

const bad = noSuchArea.replace(/^\n=== .*\n/, '')
const good = bad.replace('kitchn', 'kitchen')

/** A copy as CI services make it; `depth` is how much history comes along. */
function cloneOf(root: string, ...options: string[]): string {
  const folder = join(newFolder(), 'copy')
  git(root, 'clone', '--quiet', ...options, `file://${root}`, folder)
  return folder
}

describe('the script for CI', () => {
  it('fails on the one bad line of a branch and on nothing else', () => {
    const ran = runScript(origin(bad), 'main')
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(problemsIn(ran.out)).toEqual([[`${badRecord}:3:13`, 'error', 'dangling-reference']])
  })

  it('is green when the record is right, whatever else is wrong on main', () => {
    const ran = runScript(origin(good), 'main')
    expect([ran.code, ran.err]).toEqual([0, ''])
    expect(problemsIn(ran.out)).toEqual([])
  })

  it('takes origin/main for the base where nothing is said', () => {
    const ran = runScript(cloneOf(origin(bad)))
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(problemsIn(ran.out)).toHaveLength(1)
  })

  it('fetches the history that a shallow copy of one branch is without', () => {
    const folder = cloneOf(origin(bad), '--depth', '1', '--branch', 'change')
    const ran = runScript(folder)
    expect([ran.code, ran.err]).toEqual([1, ''])
    expect(problemsIn(ran.out)).toEqual([[`${badRecord}:3:13`, 'error', 'dangling-reference']])
  })

  it('hands the format on', () => {
    const { out, code } = runScript(origin(bad), 'main', 'annotations')
    expect(code).toBe(1)
    expect(out.split('\n')[0]).toMatch(new RegExp(`^::error file=${badRecord},line=3,col=13,`))
    const { runs } = JSON.parse(runScript(origin(bad), 'main', 'sarif').out)
    expect(runs[0].results.map(({ ruleId }: { ruleId: string }) => ruleId)).toEqual(['dangling-reference'])
  })

  it.each([
    ['a base that is not there', ['no-such-branch']],
    ['a base that the remote does not have', ['origin/no-such-branch']],
    ['a format that is none', ['main', 'telegram']],
  ])('ends with 2 and shows no result for %s', (_, args) => {
    const ran = runScript(cloneOf(origin(good)), ...args)
    expect(ran.code).toBe(2)
    expect(ran.out).toBe('')
    expect(ran.err).not.toBe('')
  })
})
