import fs, { appendFileSync, truncateSync, writeFileSync } from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import { workTree } from '../../src/files/work-tree.js'
import { temporaryFolder } from '../files/temporary-folder.js'

const { readSync } = fs

/** What someone else does to the file between two steps of reading it. */
const meanwhile = { happens: () => {} }

// For every module that reads, without taking the place of one: all files of tests share their modules.
beforeAll(() => {
  fs.readSync = ((...args: Parameters<typeof readSync>) => {
    meanwhile.happens()
    return readSync(...args)
  }) as typeof readSync
  syncBuiltinESMExports()
})
afterAll(() => {
  fs.readSync = readSync
  syncBuiltinESMExports()
})
afterEach(() => {
  meanwhile.happens = () => {}
})

function someFile(text: string) {
  const root = temporaryFolder()
  const path = join(root, 'district.yaml')
  writeFileSync(path, text)
  return { path, read: () => workTree(root).read('district.yaml') }
}

/** Does something the first so many times that it is asked. */
function times(count: number, happens: () => void): void {
  let left = count
  meanwhile.happens = () => {
    if (left-- > 0) happens()
  }
}

it('a file that grows while it is read is read as it is in the end', () => {
  const { path, read } = someFile('format: 1\n')
  times(1, () => appendFileSync(path, 'name: Example\n'))
  expect(read()).toEqual({ bytes: Buffer.from('format: 1\nname: Example\n') })
})

it('a file that is cut short while it is read is read as it is in the end', () => {
  const { path, read } = someFile('format: 1\nname: Example\n')
  times(1, () => truncateSync(path, 10))
  expect(read()).toEqual({ bytes: Buffer.from('format: 1\n') })
})

it('a file that is written anew at the same length is not read half and half', () => {
  const { path, read } = someFile('a'.repeat(100))
  times(1, () => writeFileSync(path, 'b'.repeat(100)))
  expect(read()).toEqual({ bytes: Buffer.from('b'.repeat(100)) })
})

it('a file that never stands still is refused, not read in part', () => {
  const { path, read } = someFile('format: 1\n')
  times(1000, () => appendFileSync(path, '# more\n'))
  expect(read()).toMatchObject({
    refused: 'failed',
    detail: expect.stringContaining('changed again and again'),
  })
})
