import { mkdirSync, rmSync, unlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { leftOutOfCheckout, withLeftOut } from '../../src/files/git-absent.js'
import { workTree } from '../../src/files/work-tree.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { day } from '../ledger/small-site.js'
import { checkout, commitAll, elm, git } from './git-checkout.js'
import { doorsweep } from './run-main.js'

/** What the check says of the files on disk, told which of them git left out. */
function checked(root: string) {
  const source = withLeftOut(workTree(root), leftOutOfCheckout(root))
  const asOf = day('2026-03-20')
  const result = runCheck(source, { asOf, asOfIsToday: false })
  const standing = result.problems.filter((problem) => standsOn(problem, asOf))
  const told = [...source.notChecked, ...result.notChecked]
  return {
    notChecked: [...new Map(told.map((part) => [part.what, part])).values()],
    problems: standing.map(({ rule, at }) => `${at.file}: ${rule}`),
    details: standing.map(({ args }) => String(args.detail)),
  }
}

describe('files that git left out of a checkout', () => {
  it('are none in a plain checkout, nor outside one', () => {
    const root = checkout()
    const nothing = { files: [], submodules: [] }
    expect(leftOutOfCheckout(root)).toEqual(nothing)
    expect(checked(root)).toEqual({ notChecked: [], problems: [], details: [] })
    const folder = temporaryFolder()
    writeFiles(folder, [['district.yaml', 'format: 1\n']])
    expect(leftOutOfCheckout(folder)).toEqual(nothing)
  })

  it('are told, a site as one, and nothing is told of what they would have shown', () => {
    const root = checkout()
    git(root, ['sparse-checkout', 'set', 'people', 'firms', 'plans', 'products', 'sites/oak'])
    expect(leftOutOfCheckout(root).files).toEqual([
      'sites/elm/site.yaml',
      'sites/elm/visits/2026-03-05-okafor.yaml',
    ])
    const { notChecked, problems, details } = checked(root)
    expect(notChecked.map(({ what }) => what)).toEqual(['sites/elm'])
    expect(problems).toEqual(['sites/elm/site.yaml: unreadable-file'])
    expect(details[0]).toContain('was left out of this checkout by git')
    expect(details[0]).toContain('with 1 more of its site')
  })

  it('make the exit code 2, are named, and are there in a revision', async () => {
    const root = checkout()
    git(root, ['update-index', '--skip-worktree', 'products/bait-a/label.txt'])
    unlinkSync(join(root, 'products/bait-a/label.txt'))
    const said = await doorsweep(root, 'check')
    expect(said.code).toBe(2)
    expect(said.out).toContain('products/bait-a/label.txt')
    git(root, ['sparse-checkout', 'set', 'people', 'firms', 'plans', 'products', 'sites/oak'])
    const sparse = await doorsweep(root, 'check')
    expect(sparse.code).toBe(2)
    expect(sparse.out).toContain('was left out of this checkout by git')
    expect((await doorsweep(root, 'check', '--rev', 'HEAD')).code).toBe(0)
  })

  it('are told with an index that holds whole folders only', () => {
    const root = checkout()
    git(root, [
      'sparse-checkout',
      'set',
      '--sparse-index',
      'people',
      'firms',
      'plans',
      'products',
      'sites/oak',
    ])
    expect(git(root, ['ls-files', '--sparse'])).toContain('sites/elm/\n'.trim())
    expect(checked(root).notChecked.map(({ what }) => what)).toEqual(['sites/elm'])
  })

  it('make references to them no fault of whoever refers to them', () => {
    const root = checkout()
    git(root, ['update-index', '--skip-worktree', 'people/lind.yaml', 'plans/house-mouse.yaml'])
    unlinkSync(join(root, 'people/lind.yaml'))
    unlinkSync(join(root, 'plans/house-mouse.yaml'))
    const { notChecked, problems } = checked(root)
    expect(problems).toEqual(['people/lind.yaml: unreadable-file', 'plans/house-mouse.yaml: unreadable-file'])
    expect(notChecked.map(({ what }) => what)).toEqual(['person lind', 'plan house-mouse'])
  })

  it('are told when they lie beside a record, and are not said to be missing', () => {
    const root = checkout()
    git(root, ['update-index', '--skip-worktree', 'products/bait-a/label.txt'])
    unlinkSync(join(root, 'products/bait-a/label.txt'))
    const { notChecked, problems } = checked(root)
    expect(problems).toEqual([])
    expect(notChecked).toEqual([
      { what: 'products/bait-a/label.txt', why: expect.stringContaining('left out of this checkout') },
    ])
  })

  it('are checked as they lie on disk, if they do', () => {
    const root = checkout()
    git(root, ['update-index', '--skip-worktree', 'people/lind.yaml'])
    writeFileSync(join(root, 'people/lind.yaml'), 'name: Tor Lind\nroles: janitor\n')
    expect(leftOutOfCheckout(root).files).toEqual([])
    expect(checked(root).problems).toEqual(['people/lind.yaml: shape'])
  })

  it('are not those that someone took away', () => {
    const root = checkout()
    rmSync(join(root, 'people/lind.yaml'))
    git(root, ['update-index', '--assume-unchanged', 'people/marsh.yaml'])
    rmSync(join(root, 'people/marsh.yaml'))
    expect(leftOutOfCheckout(root).files).toEqual([])
    expect(checked(root).problems).toContain('sites/oak/site.yaml: dangling-reference')
  })

  it('are those of the ledger only, where the checkout holds more, and are told from its folder', () => {
    const top = temporaryFolder()
    writeFiles(top, [
      ['ledger/district.yaml', 'format: 1\n'],
      ['ledger/sites/é/b.txt', 'x\n'],
      ['ledger/sites/.kept/x', 'x\n'],
      ['other/a.yaml', 'x\n'],
    ])
    git(top, ['init', '--quiet'])
    commitAll(top)
    git(top, [
      'update-index',
      '--skip-worktree',
      'ledger/sites/é/b.txt',
      'other/a.yaml',
      'ledger/sites/.kept/x',
    ])
    for (const path of ['ledger/sites/é/b.txt', 'other/a.yaml', 'ledger/sites/.kept/x'])
      unlinkSync(join(top, path))
    expect(leftOutOfCheckout(join(top, 'ledger'))).toEqual({ files: ['sites/é/b.txt'], submodules: [] })
  })

  it('may be any where git cannot say, and that is told', () => {
    const root = checkout()
    writeFileSync(join(root, '.git/index'), 'no index')
    expect(leftOutOfCheckout(root).unsure).toContain('git could not be asked')
    expect(checked(root).notChecked.map(({ what }) => what)).toEqual([
      'what git may have left out of this checkout',
    ])
  })

  it('are named by their bytes where those are no letters', () => {
    const root = checkout()
    const bytes = Buffer.concat([
      Buffer.from(`${root}/people/caf`),
      Buffer.from([0xe9]),
      Buffer.from('.yaml'),
    ])
    writeFileSync(bytes, 'name: A\nroles: [clerk]\n')
    commitAll(root)
    git(root, ['ls-files', '-z', 'people'])
    git(root, ['sparse-checkout', 'set', 'firms', 'plans', 'products', 'sites'])
    expect(leftOutOfCheckout(root).files).toContain('people/caf\\xe9.yaml')
    expect(checked(root).problems).toContain('people/caf\\xe9.yaml: stray-file')
  })
})

describe('a submodule', () => {
  /** A ledger one of whose sites is a repository of its own, committed and then cloned without it. */
  function ledgerWithSubmodule() {
    const other = temporaryFolder()
    writeFiles(other, [['site.yaml', 'name: Fir School\ncomplaint-log: front office\n']])
    git(other, ['init', '--quiet'])
    commitAll(other)
    const root = checkout(elm)
    git(root, ['-c', 'protocol.file.allow=always', 'submodule', 'add', '--quiet', other, 'sites/fir'])
    commitAll(root)
    return root
  }

  it('that was not fetched is told', () => {
    const clone = join(temporaryFolder(), 'clone')
    git(temporaryFolder(), ['clone', '--quiet', ledgerWithSubmodule(), clone])
    mkdirSync(join(clone, 'sites/fir'), { recursive: true })
    expect(checked(clone).notChecked).toEqual([
      { what: 'sites/fir', why: expect.stringContaining('git submodule update --init') },
    ])
  })

  it('that was fetched is read from disk like any folder', () => {
    const root = ledgerWithSubmodule()
    expect(leftOutOfCheckout(root)).toEqual({ files: [], submodules: [] })
    expect(checked(root).problems.some((line) => line.startsWith('sites/fir/site.yaml'))).toBe(true)
  })
})
