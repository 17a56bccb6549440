import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { writeAll } from '../../../src/writing/import/write-all.js'
import { newFolder } from '../../cli/run-doorsweep.js'

const three = ['a', 'b', 'c'].map((name) => ({ file: `sites/oak/visits/${name}.yaml`, text: `${name}\n` }))

it('writes all of them', () => {
  const root = newFolder()
  expect(writeAll(root, three)).toEqual({ is: 'written' })
  expect(three.map(({ file }) => readFileSync(join(root, file), 'utf8'))).toEqual(['a\n', 'b\n', 'c\n'])
})

it('or none, where one is there already: that one stays as it is', () => {
  const root = newFolder()
  mkdirSync(join(root, 'sites/oak/visits'), { recursive: true })
  writeFileSync(join(root, 'sites/oak/visits/c.yaml'), 'mine\n')
  expect(writeAll(root, three)).toEqual({
    is: 'stopped',
    file: 'sites/oak/visits/c.yaml',
    detail: 'is there already',
    left: [],
  })
  expect(three.map(({ file }) => existsSync(join(root, file)))).toEqual([false, false, true])
  expect(readFileSync(join(root, 'sites/oak/visits/c.yaml'), 'utf8')).toBe('mine\n')
})

it('or none, where one would lie outside the ledger', () => {
  const root = newFolder()
  const elsewhere = newFolder()
  mkdirSync(join(root, 'sites'))
  symlinkSync(elsewhere, join(root, 'sites/elm'))
  const done = writeAll(root, [...three, { file: 'sites/elm/visits/a.yaml', text: 'a\n' }])
  expect(done).toMatchObject({ is: 'stopped', file: 'sites/elm/visits/a.yaml', left: [] })
  expect(three.map(({ file }) => existsSync(join(root, file)))).toEqual([false, false, false])
  expect(existsSync(join(elsewhere, 'visits'))).toBe(false)
})
