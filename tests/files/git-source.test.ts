import { execFileSync } from 'node:child_process'
import { symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { index, revision } from '../../src/files/git-source.js'
import { largestRecord } from '../../src/files/source.js'
import { temporaryFolder, writeFiles } from './temporary-folder.js'

const odd = 'sites/oak/Plan "é" – 漢字\ttab.txt'

function git(root: string, ...args: string[]): string {
  const identity = [
    '-c',
    'user.name=Test',
    '-c',
    'user.email=test@example.invalid',
    '-c',
    'init.defaultBranch=main',
  ]
  return execFileSync('git', [...identity, ...args], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  })
}

/** A checkout with one commit, and in its folder `ledger` the ledger, since a ledger need not be the whole of it. */
function checkout(): { readonly top: string; readonly ledger: string } {
  const top = temporaryFolder()
  git(top, 'init', '-q')
  const ledger = join(top, 'ledger')
  writeFiles(ledger, [
    ['district.yaml', 'format: 1\n'],
    ['sites/oak/site.yaml', 'name: Oak\n'],
    [odd, 'plan\n'],
    ['sites/.hidden.yaml', 'hidden\n'],
  ])
  writeFiles(top, [['outside.yaml', 'not of the ledger\n']])
  symlinkSync('../../outside.yaml', join(ledger, 'sites/link.yaml'))
  git(top, 'add', '-A')
  git(top, 'commit', '-q', '-m', 'first')
  return { top, ledger }
}

const textOf = (read: object | undefined) => (read && 'bytes' in read ? String(read.bytes) : read)

describe('a revision', () => {
  it('lists and reads what the commit holds below the ledger, whatever the names and the work tree', () => {
    const { ledger } = checkout()
    writeFileSync(join(ledger, 'sites/oak/site.yaml'), 'name: changed since\n')
    writeFileSync(join(ledger, 'later.yaml'), 'x: y\n')
    const source = revision(ledger, 'HEAD')
    expect(source?.list()).toEqual([
      { path: 'district.yaml', kind: 'file', size: 10 },
      { path: 'sites/link.yaml', kind: 'link', size: 18 },
      { path: odd, kind: 'file', size: 5 },
      { path: 'sites/oak/site.yaml', kind: 'file', size: 10 },
    ])
    expect(textOf(source?.read('sites/oak/site.yaml'))).toBe('name: Oak\n')
    expect(textOf(source?.read(odd))).toBe('plan\n')
  })

  it('reads the same whether or not the files were fetched ahead', () => {
    const { ledger } = checkout()
    const source = revision(ledger, 'main')
    source?.prefetch(['district.yaml', odd, 'not-there.yaml', 'sites/oak/site.yaml'])
    expect(textOf(source?.read(odd))).toBe('plan\n')
    expect(textOf(source?.read('district.yaml'))).toBe('format: 1\n')
    expect(textOf(source?.read('sites/oak/site.yaml'))).toBe('name: Oak\n')
    expect(source?.read('not-there.yaml')).toMatchObject({ refused: 'missing' })
  })

  it('refuses links and what is too large, and reads an empty file', () => {
    const { top, ledger } = checkout()
    writeFileSync(join(ledger, 'empty.yaml'), '')
    writeFileSync(join(ledger, 'big.yaml'), 'x'.repeat(largestRecord + 1))
    git(top, 'add', '-A')
    git(top, 'commit', '-q', '-m', 'second')
    const source = revision(ledger, 'HEAD')
    expect(source?.read('sites/link.yaml')).toMatchObject({ refused: 'link' })
    expect(source?.sha256('sites/link.yaml')).toMatchObject({ refused: 'link' })
    expect(source?.read('big.yaml')).toMatchObject({ refused: 'too-large' })
    expect(source?.read('empty.yaml')).toEqual({ bytes: Buffer.alloc(0) })
    source?.prefetch(['empty.yaml', 'district.yaml'])
    expect(source?.read('empty.yaml')).toEqual({ bytes: Buffer.alloc(0) })
    expect(textOf(source?.read('district.yaml'))).toBe('format: 1\n')
  })

  it('hashes a file of any size', () => {
    const { ledger } = checkout()
    // printf 'plan\n' | sha256sum
    expect(revision(ledger, 'HEAD')?.sha256(odd)).toEqual({
      sha256: '1b4025dc7b8d27cf38df85e77b20ed44a00851a2c28b338560560d85deded8e3',
    })
  })

  it('is nothing where git knows none, and never an option of git', () => {
    const { ledger } = checkout()
    expect(revision(ledger, 'no-such-branch')).toBeNull()
    expect(revision(ledger, '--output=/tmp/x')).toBeNull()
    expect(revision(ledger, '-h')).toBeNull()
    expect(revision(ledger, '')).toBeNull()
    expect(revision(temporaryFolder(), 'HEAD')).toBeNull()
  })
})

describe('the index', () => {
  it('holds what is staged, not what lies on disk', () => {
    const { top, ledger } = checkout()
    writeFileSync(join(ledger, 'sites/oak/site.yaml'), 'name: staged\n')
    git(top, 'add', '-A')
    writeFileSync(join(ledger, 'sites/oak/site.yaml'), 'name: not staged\n')
    const source = index(ledger)
    expect(source?.list().map(({ path, kind }) => `${kind} ${path}`)).toEqual([
      'file district.yaml',
      'link sites/link.yaml',
      `file ${odd}`,
      'file sites/oak/site.yaml',
    ])
    expect(textOf(source?.read('sites/oak/site.yaml'))).toBe('name: staged\n')
    expect(textOf(source?.read(odd))).toBe('plan\n')
    expect(source?.read('sites/link.yaml')).toMatchObject({ refused: 'link' })
  })

  it('refuses what is too large', () => {
    const { top, ledger } = checkout()
    writeFileSync(join(ledger, 'big.yaml'), 'x'.repeat(largestRecord + 1))
    git(top, 'add', '-A')
    expect(index(ledger)?.read('big.yaml')).toHaveProperty('refused', 'too-large')
    const fetched = index(ledger)
    fetched?.prefetch(['big.yaml'])
    expect(fetched?.read('big.yaml')).toHaveProperty('refused', 'too-large')
  })

  it('shows a file in conflict and refuses it, rather than leaving it out', () => {
    const { top, ledger } = checkout()
    git(top, 'checkout', '-q', '-b', 'other')
    writeFileSync(join(ledger, 'sites/oak/site.yaml'), 'name: theirs\n')
    git(top, 'commit', '-q', '-a', '-m', 'theirs')
    git(top, 'checkout', '-q', 'main')
    writeFileSync(join(ledger, 'sites/oak/site.yaml'), 'name: ours\n')
    git(top, 'commit', '-q', '-a', '-m', 'ours')
    expect(() => git(top, 'merge', '-q', 'other')).toThrow()
    const source = index(ledger)
    expect(source?.list().map(({ path }) => path)).toContain('sites/oak/site.yaml')
    source?.prefetch(['sites/oak/site.yaml'])
    expect(source?.read('sites/oak/site.yaml')).toMatchObject({ refused: 'failed' })
    expect(source?.sha256('sites/oak/site.yaml')).toMatchObject({ refused: 'failed' })
  })

  it('is nothing outside a checkout', () => {
    expect(index(temporaryFolder())).toBeNull()
  })
})
