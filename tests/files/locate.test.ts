import { describe, expect, it } from 'vitest'
import { locatable } from '../../src/files/locate.js'
import type { KeyPath } from '../../src/types.js'

const text = `purpose: routine
readings:
  none: [K1, K2]
  K3: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}
inspected:
  - kitchen
  - dock # by the gate
empty:
`

/** What stands at the location, cut out of the file line by line as an editor would. */
function at(content: string, path: KeyPath, onKey = false): string {
  const { line, column, endLine, endColumn, lineText } = locatable(Buffer.from(content)).locate(path, onKey)
  const found =
    endLine === line ? lineText.slice(column - 1, endColumn - 1) : `${lineText.slice(column - 1)}…`
  return `${line}:${column} ${found}`
}

describe('where a key path stands', () => {
  it.each<[string, KeyPath, boolean, string]>([
    ['a value', ['purpose'], false, '1:10 routine'],
    ['its key', ['purpose'], true, '1:1 purpose'],
    ['a value in a flow map', ['readings', 'K3', 'german-cockroach', 'nymphs'], false, '4:35 4'],
    ['a key in a flow map', ['readings', 'K3', 'renewed'], true, '4:50 renewed'],
    ['a map, by its key', ['readings', 'K3'], false, '4:3 K3'],
    ['a list item in brackets', ['readings', 'none', 1], false, '3:14 K2'],
    ['a list item on a line of its own', ['inspected', 1], false, '7:5 dock'],
    ['a key without a value', ['empty'], false, '8:1 empty'],
    ['a missing key, at its parent', ['readings', 'K3', 'lamp'], false, '4:3 K3'],
    ['a missing item, at its list', ['inspected', 7], false, '5:1 inspected'],
    ['a path through a missing key', ['readings', 'K9', 'lamp'], false, '2:1 readings'],
    ['a path that goes on below a value', ['purpose', 'x'], false, '1:1 purpose'],
  ])('%s', (_, path, onKey, expected) => {
    expect(at(text, path, onKey)).toBe(expected)
  })

  it('the whole file, or a missing key at its top, is the first line', () => {
    expect(at(text, []).startsWith('1:1')).toBe(true)
    expect(at(text, ['by']).startsWith('1:1')).toBe(true)
  })

  it('a number as a key', () => {
    expect(at('set:\n  17: {kind: snap-trap}\n', ['set', '17', 'kind'])).toBe('2:14 snap-trap')
  })
})

describe('line ends, marks and wide characters', () => {
  it('carriage returns belong to the line end', () => {
    const { line, column, lineText } = locatable(Buffer.from('a: 1\r\nb: two\r\n')).locate(['b'], false)
    expect({ line, column, lineText }).toEqual({ line: 2, column: 4, lineText: 'b: two' })
  })

  it('a byte order mark counts for nothing', () => {
    expect(at('\ufeffa: 1\n', ['a'])).toBe('1:4 1')
  })

  it('columns count UTF-16 units, as editors do', () => {
    expect(at('a: {名前: x, b: 🪤🪤, c: y}\n', ['a', 'c'])).toBe('1:24 y')
    expect('a: {名前: x, b: 🪤🪤, c: y}'.indexOf('y') + 1).toBe(24)
  })

  it('a value over several lines ends on its last line', () => {
    const { line, endLine } = locatable(Buffer.from('a: [b,\n  c]\nd: "e\n  f"\n')).locate(['d'], false)
    expect([line, endLine]).toEqual([3, 4])
  })
})

describe('spans of a text that could not be read', () => {
  it('are lines and columns', () => {
    const { line, column, endColumn } = locatable(Buffer.from('a: b\nc: *d\n')).locateSpan([8, 10])
    expect([line, column, endColumn]).toEqual([2, 4, 6])
  })

  it('stay inside the file, also at its very end or in an empty one', () => {
    expect(locatable(Buffer.from('a: [')).locateSpan([4, 4])).toMatchObject({
      line: 1,
      column: 5,
      lineText: 'a: [',
    })
    expect(locatable(new Uint8Array()).locateSpan([0, 0])).toMatchObject({ line: 1, column: 1, lineText: '' })
    expect(locatable(Uint8Array.of(0xff, 0xfe)).locate(['a'], false)).toMatchObject({ line: 1, column: 1 })
  })
})
