import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { index, revision } from '../../src/files/git-source.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'
import { brokenVisit, checkout, commitAll, elm, git } from './git-checkout.js'
import { doorsweep } from './run-main.js'

const visit = 'sites/oak/visits/2026-03-10-okafor.yaml'
const callback = 'purpose: callback\nby: okafor\ntime: 09:00 to 09:10\n'

/** The exit code of a check and where it found what. */
async function checked(root: string, ...args: string[]) {
  const said = await doorsweep(root, 'check', '--format', 'json', ...args)
  expect(said.err).toBe('')
  const page = JSON.parse(said.out) as {
    problems: { rule: string; location: { file: string } }[]
    'not-checked': { what: string }[]
  }
  return {
    code: said.code,
    problems: page.problems.map(({ rule, location }) => `${location.file}: ${rule}`),
    notChecked: page['not-checked'].map(({ what }) => what),
  }
}

const clean = { code: 0, problems: [], notChecked: [] }
const broken = { code: 2, problems: [`${visit}: not-plain-yaml`], notChecked: ['sites/oak'] }

describe('what git does not show as changed is checked all the same', () => {
  it('a record that git was told to assume unchanged', async () => {
    const root = checkout()
    writeFiles(root, [[visit, callback]])
    commitAll(root)
    expect(await checked(root)).toEqual(clean)
    git(root, ['update-index', '--assume-unchanged', visit])
    writeFileSync(join(root, visit), brokenVisit)
    expect(git(root, ['status', '--short'])).toBe('')
    expect(await checked(root)).toEqual(broken)
    expect(await checked(root, '--rev', 'HEAD')).toEqual(clean)
  })

  it('a record that git was told to skip in the work tree, and that lies there', async () => {
    const root = checkout()
    writeFiles(root, [[visit, callback]])
    commitAll(root)
    git(root, ['update-index', '--skip-worktree', visit])
    writeFileSync(join(root, visit), brokenVisit)
    expect(git(root, ['status', '--short'])).toBe('')
    expect(await checked(root)).toEqual(broken)
  })

  it.each(['.gitignore', 'sites/oak/.gitignore', '.git/info/exclude'])(
    'a record that %s hides',
    async (where) => {
      const root = checkout()
      writeFiles(root, [
        [where, '*.yaml\n'],
        [visit, brokenVisit],
      ])
      expect(git(root, ['status', '--short'])).not.toContain('2026-03-10')
      expect(await checked(root)).toEqual(broken)
    },
  )

  it('a record whose size and time are those git remembers', async () => {
    const root = checkout()
    writeFiles(root, [[visit, callback]])
    commitAll(root)
    // As long as what was committed, and written within the same second.
    writeFileSync(
      join(root, visit),
      'purpose: [callbac\nby: okafor\ntime: 09:00 to 09:10\n'.slice(0, callback.length),
    )
    expect(await checked(root)).toEqual(broken)
  })
})

it('ten thousand files that no one committed change nothing but the time', async () => {
  const root = checkout()
  for (const folder of ['sites/oak/photos', 'loose', 'people']) {
    mkdirSync(join(root, folder), { recursive: true })
    for (let at = 0; at < 3_334; at++) writeFileSync(join(root, folder, `photo-${at}.jpg`), '')
  }
  const start = performance.now()
  expect(await checked(root)).toEqual(clean)
  expect(performance.now() - start).toBeLessThan(15_000)
  writeFiles(root, [['sites/oak/photos/9999.yaml', 'x: y\n']])
  expect((await checked(root)).problems).toEqual(['sites/oak/photos/9999.yaml: stray-file'])
})

describe('a ledger in a folder of a larger repository', () => {
  function larger() {
    const top = temporaryFolder()
    const ledger = join(top, 'office/pests')
    writeFiles(top, [
      ['sites/oak/site.yaml', 'name: [\n'],
      ['office/other.yaml', 'x: [\n'],
    ])
    git(top, ['init', '--quiet'])
    const before = commitAll(top)
    writeFiles(ledger, ledgerWith(elm))
    commitAll(top)
    return { top, ledger, before }
  }

  it('is all that is read, from disk and from a revision', async () => {
    const { ledger } = larger()
    expect(await checked(ledger)).toEqual(clean)
    expect(await checked(ledger, '--rev', 'HEAD')).toEqual(clean)
    writeFiles(ledger, [[visit, brokenVisit]])
    expect(await checked(ledger)).toEqual(broken)
    expect(await checked(join(ledger, 'sites/oak'), '--rev', 'HEAD')).toEqual(clean)
  })

  it('is not clean in a revision in which it was not there yet', async () => {
    const { ledger, before } = larger()
    const said = await checked(ledger, '--rev', before)
    expect(said).toEqual({ code: 2, problems: [], notChecked: ['the whole ledger'] })
  })

  it('is found no higher than the top of the checkout it lies in', async () => {
    const { ledger } = larger()
    const inner = join(ledger, 'tools')
    mkdirSync(inner)
    git(inner, ['init', '--quiet'])
    const said = await doorsweep(inner, 'check')
    expect([said.code, said.out]).toEqual([2, ''])
    expect(said.err).toContain('There is no ledger')
  })
})

describe('submodules', () => {
  const allowed = ['-c', 'protocol.file.allow=always']

  it('a ledger in one is read like any other', async () => {
    const top = temporaryFolder()
    git(top, ['init', '--quiet'])
    git(top, [...allowed, 'submodule', 'add', '--quiet', checkout(), 'pests'])
    commitAll(top)
    const ledger = join(top, 'pests')
    expect(await checked(ledger)).toEqual(clean)
    expect(await checked(ledger, '--rev', 'HEAD')).toEqual(clean)
    writeFiles(ledger, [[visit, brokenVisit]])
    expect(await checked(ledger)).toEqual(broken)
    expect(await checked(ledger, '--rev', 'HEAD')).toEqual(clean)
  })

  it('one where records belong is told in a revision, which does not hold its files', async () => {
    const other = temporaryFolder()
    writeFiles(other, [['site.yaml', brokenVisit]])
    git(other, ['init', '--quiet'])
    commitAll(other)
    const root = checkout()
    git(root, [...allowed, 'submodule', 'add', '--quiet', other, 'sites/fir'])
    commitAll(root)
    expect(await checked(root)).toMatchObject({ code: 2, problems: ['sites/fir/site.yaml: not-plain-yaml'] })
    expect(await checked(root, '--rev', 'HEAD')).toEqual({
      code: 2,
      problems: ['sites/fir: unreadable-file'],
      notChecked: ['sites/fir'],
    })
    for (const source of [revision(root, 'HEAD'), index(root)]) {
      expect(source?.list().find(({ path }) => path === 'sites/fir')?.kind).toBe('other')
      expect(source?.read('sites/fir')).toMatchObject({ refused: 'not-a-file' })
      expect(source?.sha256('sites/fir')).toMatchObject({ refused: 'not-a-file' })
      source?.prefetch(['sites/fir', 'district.yaml'])
      expect(source?.read('district.yaml')).toHaveProperty('bytes')
    }
  })
})

it.each([
  ['1970', '@0 +0000'],
  ['1970, east of Greenwich', '@1 +1400'],
  ['2100', '@4102444800 +0000'],
])('commits that say they are of %s are read like any other', async (_, date) => {
  const root = checkout()
  writeFiles(root, [[visit, callback]])
  commitAll(root, { GIT_AUTHOR_DATE: date, GIT_COMMITTER_DATE: date })
  expect(await checked(root)).toEqual(clean)
  expect(await checked(root, '--rev', 'HEAD')).toEqual(clean)
  expect(await checked(root, '--rev', 'HEAD~1')).toEqual(clean)
  const said = await doorsweep(root, 'report', 'compliance', '--from', '2026-03-01')
  expect(said.out).toContain(git(root, ['rev-parse', 'HEAD']))
})

describe('names that are no UTF-8', () => {
  const named = (root: string, ...parts: (string | number[])[]) =>
    Buffer.concat([Buffer.from(`${root}/`), ...parts.map((part) => Buffer.from(part as string))])

  /** Two records whose names differ in one byte only, and a folder, as an old program left them behind. */
  function oddlyNamed() {
    const root = checkout()
    writeFileSync(named(root, 'people/jos', [0xe9], '.yaml'), 'name: Jo\nroles: [clerk]\n')
    writeFileSync(named(root, 'people/jos', [0xe8], '.yaml'), 'name: Jo\nroles: [clerk]\n')
    mkdirSync(named(root, 'sites/ch', [0xea], 'ne'))
    writeFileSync(named(root, 'sites/ch', [0xea], 'ne/site.yaml'), 'name: Oak\n')
    writeFileSync(named(root, 'products/bait-a/', [0xff, 0xfe], '.txt'), 'x\n')
    return root
  }

  it('are told one by one in a revision, byte for byte', async () => {
    const root = oddlyNamed()
    commitAll(root)
    const { code, problems } = await checked(root, '--rev', 'HEAD')
    expect(code).toBe(2)
    expect(problems).toEqual([
      'people/jos\\xe8.yaml: stray-file',
      'people/jos\\xe9.yaml: stray-file',
      'sites/ch\\xeane/site.yaml: stray-file',
    ])
    expect(
      revision(root, 'HEAD')
        ?.list()
        .map(({ path }) => path),
    ).toContain('products/bait-a/\\xff\\xfe.txt')
  })

  it('are told on disk in the same way, and so is a folder of such a name', async () => {
    const { code, problems, notChecked } = await checked(oddlyNamed())
    expect(code).toBe(2)
    expect(problems).toEqual([
      'people/jos\\xe8.yaml: stray-file',
      'people/jos\\xe9.yaml: stray-file',
      'sites/ch\\xeane: unreadable-file',
    ])
    expect(notChecked).toContain('sites/ch\\xeane')
  })
})
