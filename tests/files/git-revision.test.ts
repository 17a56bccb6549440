import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { revisionInWords } from '../../src/files/git-revision.js'
import { revision } from '../../src/files/git-source.js'
import { workTree } from '../../src/files/work-tree.js'
import { temporaryFolder, writeFiles } from './temporary-folder.js'

function git(root: string, ...args: string[]): string {
  const identity = ['-c', 'user.name=Test', '-c', 'user.email=test@example.invalid']
  return execFileSync('git', [...identity, ...args], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  }).trim()
}

/** A checkout with one commit; the ledger is a folder in it. */
function checkout() {
  const top = temporaryFolder()
  git(top, 'init', '-q')
  const ledger = join(top, 'ledger')
  writeFiles(ledger, [
    ['district.yaml', 'format: 1\n'],
    ['sites/oak/site.yaml', 'name: Oak\n'],
    ['sites/oak/plan – é.txt', 'plan\n'],
    ['.hidden.yaml', 'hidden\n'],
  ])
  writeFiles(top, [['outside.yaml', 'not of the ledger\n']])
  symlinkSync('district.yaml', join(ledger, 'link.yaml'))
  git(top, 'add', '-A')
  git(top, 'commit', '-q', '-m', 'first')
  return { top, ledger, commit: git(top, 'rev-parse', 'HEAD') }
}

const words = (ledger: string) => revisionInWords(ledger, workTree(ledger), undefined)

describe('what ties a page to the records', () => {
  it('is the commit, where every file of the ledger is as in it', () => {
    const { top, ledger, commit } = checkout()
    expect(words(ledger)).toBe(`git commit ${commit}`)
    writeFiles(top, [['outside.yaml', 'changed\n']])
    expect(words(ledger)).toBe(`git commit ${commit}`)
  })

  it('counts what was changed, added and removed since', () => {
    const { ledger, commit } = checkout()
    writeFileSync(join(ledger, 'district.yaml'), 'format: 1 \n')
    expect(words(ledger)).toBe(`git commit ${commit}; one file is not as committed`)
    writeFiles(ledger, [['sites/elm/site.yaml', 'name: Elm\n']])
    rmSync(join(ledger, 'sites/oak/site.yaml'))
    expect(words(ledger)).toBe(`git commit ${commit}; 3 files are not as committed`)
  })

  it('is the commit of a revision that is asked for, whatever lies on disk', () => {
    const { ledger, commit } = checkout()
    const source = revision(ledger, 'HEAD')
    if (!source) throw new Error('the revision cannot be read')
    writeFileSync(join(ledger, 'district.yaml'), 'changed\n')
    expect(revisionInWords(ledger, source, 'HEAD')).toBe(`git commit ${commit} (HEAD)`)
  })

  it('says so where there is no commit', () => {
    const folder = temporaryFolder()
    writeFiles(folder, [['district.yaml', 'format: 1\n']])
    expect(words(folder)).toBe('files as they lie on disk, without a git commit')
  })

  it('names content as git does', () => {
    // `printf 'x\n' | git hash-object --stdin` prints this; git hashes the word blob, the length, a NUL and the bytes.
    const id = createHash('sha1').update('blob 2\0x\n').digest('hex')
    expect(id).toBe('587be6b4c3f93f93c489c0111bba5596147a26cb')
  })
})
