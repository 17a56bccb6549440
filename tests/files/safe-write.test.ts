import { readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { safeWrite } from '../../src/files/safe-write.js'
import { temporaryFolder } from './temporary-folder.js'

it('makes the folders between and writes text and bytes', () => {
  const root = temporaryFolder()
  safeWrite(join(root, 'sites/oak/visits/a.yaml'), 'by: é\n')
  safeWrite(join(root, 'label.bin'), Uint8Array.of(0, 255, 1))
  expect(readFileSync(join(root, 'sites/oak/visits/a.yaml'), 'utf8')).toBe('by: é\n')
  expect([...readFileSync(join(root, 'label.bin'))]).toEqual([0, 255, 1])
})

it('replaces a file as a whole and leaves nothing else behind', () => {
  const root = temporaryFolder()
  writeFileSync(join(root, 'a.yaml'), 'x'.repeat(10_000))
  safeWrite(join(root, 'a.yaml'), 'short\n')
  expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('short\n')
  expect(readdirSync(root)).toEqual(['a.yaml'])
})

it('replaces the name, so that whoever has the old file open still reads the whole old file', () => {
  const root = temporaryFolder()
  const outside = join(temporaryFolder(), 'kept.txt')
  writeFileSync(outside, 'old\n')
  symlinkSync(outside, join(root, 'a.yaml'))
  safeWrite(join(root, 'a.yaml'), 'new\n')
  expect(readFileSync(outside, 'utf8')).toBe('old\n')
  expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('new\n')
})

it('refuses to replace anything when the file is to be fresh', () => {
  const root = temporaryFolder()
  writeFileSync(join(root, 'a.yaml'), 'mine\n')
  symlinkSync('nowhere', join(root, 'b.yaml'))
  for (const name of ['a.yaml', 'b.yaml'])
    expect(() => safeWrite(join(root, name), 'yours\n', { fresh: true })).toThrow(
      expect.objectContaining({ code: 'EEXIST' }),
    )
  expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('mine\n')
  expect(readdirSync(root).sort()).toEqual(['a.yaml', 'b.yaml'])
  safeWrite(join(root, 'c.yaml'), 'new\n', { fresh: true })
  expect(readdirSync(root).sort()).toEqual(['a.yaml', 'b.yaml', 'c.yaml'])
})

it('leaves the old file and no other when writing fails on the way', () => {
  const root = temporaryFolder()
  writeFileSync(join(root, 'a.yaml'), 'old\n')
  const notBytes = { length: 3 } as unknown as Uint8Array
  expect(() => safeWrite(join(root, 'a.yaml'), notBytes)).toThrow()
  expect(readFileSync(join(root, 'a.yaml'), 'utf8')).toBe('old\n')
  expect(readdirSync(root)).toEqual(['a.yaml'])
})

it('is not stopped, or led astray, by what a killed run left under the temporary name', () => {
  const root = temporaryFolder()
  const outside = join(temporaryFolder(), 'kept.txt')
  writeFileSync(outside, 'old\n')
  symlinkSync(outside, join(root, `.a.yaml.${process.pid}.tmp`))
  safeWrite(join(root, 'a.yaml'), 'new\n', { fresh: true })
  expect(readFileSync(outside, 'utf8')).toBe('old\n')
  expect(readdirSync(root)).toEqual(['a.yaml'])
})
