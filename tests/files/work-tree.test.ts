import { execFileSync } from 'node:child_process'
import { symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { largestRecord } from '../../src/files/source.js'
import { workTree } from '../../src/files/work-tree.js'
import { temporaryFolder, writeFiles } from './temporary-folder.js'

function smallLedger(): string {
  const root = temporaryFolder()
  writeFiles(root, [
    ['district.yaml', 'format: 1\n'],
    ['sites/oak/site.yaml', 'name: Oak\n'],
    ['sites/oak/Plan of the hall – é.txt', 'plan\n'],
    ['.git/config', 'hidden\n'],
    ['sites/.hidden.yaml', 'hidden\n'],
    ['node_modules/a/b.yaml', 'hidden\n'],
  ])
  return root
}

it('lists everything but dot files and node_modules, sorted by path', () => {
  expect(
    workTree(smallLedger())
      .list()
      .map(({ path, kind }) => `${kind} ${path}`),
  ).toEqual([
    'file district.yaml',
    'folder sites',
    'folder sites/oak',
    'file sites/oak/Plan of the hall – é.txt',
    'file sites/oak/site.yaml',
  ])
})

it('reads and hashes a file', () => {
  const source = workTree(smallLedger())
  expect(source.read('sites/oak/site.yaml')).toEqual({ bytes: Buffer.from('name: Oak\n') })
  // printf 'plan\n' | sha256sum
  expect(source.sha256('sites/oak/Plan of the hall – é.txt')).toEqual({
    sha256: '1b4025dc7b8d27cf38df85e77b20ed44a00851a2c28b338560560d85deded8e3',
  })
})

describe('what is refused, and why', () => {
  it('a file that is not there, a folder, a file where a folder should be', () => {
    const source = workTree(smallLedger())
    expect(source.read('people/lind.yaml')).toMatchObject({ refused: 'missing' })
    expect(source.read('district.yaml/x')).toMatchObject({ refused: 'missing' })
    expect(source.read('sites/oak')).toMatchObject({ refused: 'folder' })
    expect(source.sha256('sites/oak')).toMatchObject({ refused: 'not-a-file' })
  })

  it('a link, even one that stays inside, for reading and for hashing', () => {
    const root = smallLedger()
    symlinkSync('site.yaml', join(root, 'sites/oak/other.yaml'))
    symlinkSync('/nowhere/at/all', join(root, 'sites/oak/broken.yaml'))
    const source = workTree(root)
    for (const path of ['sites/oak/other.yaml', 'sites/oak/broken.yaml']) {
      expect(source.read(path)).toMatchObject({ refused: 'link' })
      expect(source.sha256(path)).toMatchObject({ refused: 'link' })
    }
    expect(source.list().filter(({ kind }) => kind === 'link')).toHaveLength(2)
  })

  it('what lies behind a linked folder that leads out of the ledger', () => {
    const root = smallLedger()
    const outside = temporaryFolder()
    writeFileSync(join(outside, 'secret.yaml'), 'name: x\n')
    symlinkSync(outside, join(root, 'sites/oak/visits'))
    const source = workTree(root)
    expect(source.list().map(({ path, kind }) => `${kind} ${path}`)).toContain('link sites/oak/visits')
    expect(source.list().some(({ path }) => path.includes('secret'))).toBe(false)
    expect(source.read('sites/oak/visits/secret.yaml')).toMatchObject({ refused: 'link' })
    expect(source.sha256('sites/oak/visits/secret.yaml')).toMatchObject({ refused: 'link' })
    expect(source.read('../secret.yaml')).toHaveProperty('refused')
  })

  it('a file larger than a record can be, without reading it', () => {
    const root = smallLedger()
    const path = join(root, 'sites/oak/big.yaml')
    writeFileSync(path, '')
    truncateSync(path, largestRecord)
    expect(workTree(root).read('sites/oak/big.yaml')).toHaveProperty('bytes')
    truncateSync(path, largestRecord + 1)
    expect(workTree(root).read('sites/oak/big.yaml')).toMatchObject({ refused: 'too-large' })
  })

  it('a named pipe, at once', () => {
    const root = smallLedger()
    execFileSync('mkfifo', [join(root, 'sites/oak/pipe.yaml')])
    const source = workTree(root)
    expect(source.read('sites/oak/pipe.yaml')).toMatchObject({ refused: 'not-a-file' })
    expect(source.sha256('sites/oak/pipe.yaml')).toMatchObject({ refused: 'not-a-file' })
    expect(source.list().find(({ path }) => path.endsWith('pipe.yaml'))?.kind).toBe('other')
  })
})

it('a ledger reached through a link is read like any other', () => {
  const folder = temporaryFolder()
  symlinkSync(smallLedger(), join(folder, 'ledger'))
  expect(workTree(join(folder, 'ledger')).read('sites/oak/site.yaml')).toHaveProperty('bytes')
})

it('a folder that is not there holds nothing', () => {
  const root = join(temporaryFolder(), 'gone')
  expect(workTree(root).list()).toEqual([])
  expect(workTree(root).read('district.yaml')).toMatchObject({ refused: 'missing' })
})

it('tells a plain file from all else, also one that came a moment ago', () => {
  const root = smallLedger()
  const source = workTree(root)
  symlinkSync(join(root, 'sites/oak'), join(root, 'sites/elm'))
  expect(source.isFile('sites/oak/label.txt')).toBe(false)
  writeFileSync(join(root, 'sites/oak/label.txt'), 'an invented label')
  const plain = [
    'sites/oak/site.yaml',
    'sites/oak/label.txt',
    'sites/oak',
    'sites/.hidden.yaml',
    'sites/elm/site.yaml',
  ]
  expect(plain.filter((path) => source.isFile(path))).toEqual(['sites/oak/site.yaml', 'sites/oak/label.txt'])
})
