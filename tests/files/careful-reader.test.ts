import { describe, expect, it } from 'vitest'
import { readCarefully } from '../../src/files/careful-reader.js'

function faultsOf(text: string) {
  const read = readCarefully(text)
  if (!('faults' in read)) return []
  return read.faults.map(({ fault, detail, span }) => ({ fault, detail, at: text.slice(...span) }))
}

describe('what a record never needs is refused, at its place', () => {
  it.each([
    ['a: &who Sol\nb: *who\n', 'alias', '&who'],
    ['a: !!binary aGk=\n', 'tag', 'tag:yaml.org,2002:binary'],
    ['a: 1\n---\nb: 2\n', 'several-documents', undefined],
    ['a: 1\n...\nb: 2\n', 'several-documents', undefined],
    ['- a\n', 'not-a-map', 'a list'],
    ['just a text\n', 'not-a-map', 'a single value'],
    ['null: 1\n', 'bad-key', 'null'],
    ['__proto__: 1\n', 'bad-key', '__proto__'],
    ['? [a]\n: 1\n', 'bad-key', 'a list or map as a key'],
    ['lot: 007\n', 'changed-scalar', '007 → 7'],
    ['lot: 1e3\n', 'changed-scalar', '1e3 → 1000'],
    ['lot: 12345678901234567890\n', 'changed-scalar', '12345678901234567890 → 12345678901234567000'],
    ['# nothing here\n', 'empty', ''],
    ['a: [b\n', 'not-yaml', undefined],
  ])('%j is %s', (text, fault, detail) => {
    const [first] = faultsOf(text)
    expect(first?.fault).toBe(fault)
    if (detail !== undefined) expect(first?.detail).toBe(detail)
  })

  it('points at the second of two keys, also where YAML tells them apart as number and text', () => {
    expect(faultsOf('a: 1\nb: 2\na: 3\n')).toEqual([{ fault: 'duplicate-key', detail: 'a', at: 'a' }])
    expect(faultsOf('17: {x: y}\n"17": {x: z}\n')).toEqual([
      { fault: 'duplicate-key', detail: '17', at: '"17"' },
    ])
  })

  it('reports no more than twenty faults of one file', () => {
    expect(faultsOf('a: *b\n'.repeat(500))).toHaveLength(20)
  })
})

describe('deep nesting', () => {
  const list = (depth: number) => `a: ${'['.repeat(depth)}${']'.repeat(depth)}\n`
  it('reads 24 levels and refuses 25', () => {
    expect(faultsOf(list(24))).toEqual([])
    expect(faultsOf(list(25))).toEqual([expect.objectContaining({ fault: 'too-deep' })])
  })

  it.each([
    ['lists never closed', `a: ${'['.repeat(200_000)}`],
    ['maps in maps', `a: ${'{a: '.repeat(100_000)}`],
    ['dashes in a row', `a:\n${'- '.repeat(100_000)}b\n`],
    ['question marks', '? '.repeat(100_000)],
    ['ever deeper lines', Array.from({ length: 800 }, (_, depth) => `${' '.repeat(depth)}a:\n`).join('')],
  ])('refuses %s quickly', (_, text) => {
    const start = performance.now()
    expect(faultsOf(text)).toEqual([expect.objectContaining({ fault: 'too-deep' })])
    expect(performance.now() - start).toBeLessThan(2000)
  })

  it('does not take brackets in quotes and comments for nesting', () => {
    const text = Array.from({ length: 60 }, (_, at) => `k${at}: "[[" # :-{\n`).join('')
    expect(faultsOf(text)).toEqual([])
  })
})

it('takes a time that grows no faster than the file', () => {
  const many = Array.from({ length: 60_000 }, (_, at) => `k${at}: |\n  b\n`).join('')
  const start = performance.now()
  expect(Object.keys(Object(readCarefully(many)).data)).toHaveLength(60_000)
  // Comparing every key with every other would take minutes.
  expect(performance.now() - start).toBeLessThan(20_000)
})
