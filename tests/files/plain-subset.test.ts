import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readCarefully } from '../../src/files/careful-reader.js'
import { isPlain, readPlainSubset } from '../../src/files/plain-subset.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { yamlText } from './yaml-texts.js'

/** What the fast way makes of a text that readRecord would accept from it; undefined where it hands over. */
function fastly(text: string): unknown {
  const fast = readPlainSubset(text)
  const isMap = typeof fast?.data === 'object' && fast.data !== null && !Array.isArray(fast.data)
  return isMap ? fast?.data : undefined
}

// The order of keys is compared too: a site lists its areas in walking order.
const inOrder = (data: unknown) => JSON.stringify(data)

it('both parsers read every plain text alike', () => {
  let compared = 0
  fc.assert(
    fc.property(yamlText, (text) => {
      const fast = fastly(text)
      if (fast === undefined) return
      compared++
      expect({ text, read: inOrder(readCarefully(text)) }).toEqual({ text, read: inOrder({ data: fast }) })
    }),
    { numRuns: 30_000, seed: 20260312 },
  )
  // A generator that strays out of the subset would prove nothing.
  expect(compared).toBeGreaterThan(5000)
})

describe('corners in which the parsers differ are not plain', () => {
  // Each was found by the property above, or is one of the differences between YAML 1.1 habits and YAML 1.2.
  it.each([
    ['a comment without a blank before it', 'a: {}#b\n'],
    ['an unquoted null as a key', '{null: 1}\n'],
    ['true as a key', 'true: 1\n'],
    ['a collection as a key', 'a: {{}}\n'],
    ['a list in a map without a key', 'a: {b: 1, [c]}\n'],
    ['an empty item before a deeper comment', 'a:\n  - #\n    - \n  #\n  - b\n'],
    ['an item that begins on the next line', 'a:\n  -\n    b: 1\n'],
    ['a value on a line of its own', 'a:\n  b\n'],
    ['a text over two lines', 'a: b\n  c\n'],
    ['a number with more digits than a double holds', 'a: 0.1234567890123456789\n'],
    ['a number with a leading zero', 'lot: 007\n'],
    ['a binary number as a key in a flow map', 'a: {0b11     :}\n'],
    ['a number with an exponent', 'a: 1e3\n'],
    ['a number with a plus', 'a: +1\n'],
    ['minus zero', 'a: -0\n'],
    ['an anchor', 'a: &b c\n'],
    ['a tag', 'a: !!str 1\n'],
    ['a block text', 'a: |\n  b\n'],
    ['an escape', 'a: "\\u0041"\n'],
    ['a quote inside quotes', "a: 'it''s'\n"],
    ['a flow list over two lines', 'a: [b,\n  c]\n'],
    ['a second document', 'a: 1\n---\nb: 2\n'],
    ['a tab', 'a:\tb\n'],
    ['a carriage return', 'a: b\r\n'],
    ['__proto__ as a key', '__proto__: 1\n'],
    ['a merge key', '<<: 1\n'],
    ['a long row of items', `a:\n  ${'- '.repeat(30)}b\n`],
    ['a deep flow list', `a: ${'['.repeat(30)}${']'.repeat(30)}\n`],
    ['a pair in a list', 'a: [b: 1]\n'],
    ['a key longer than YAML allows', `${'a'.repeat(1025)}: 1\n`],
    ['a very deep line', `a:\n${' '.repeat(100)}b: 1\n`],
  ])('%s', (_, text) => {
    expect(isPlain(text)).toBe(false)
  })
})

describe('what records are usually written in is plain', () => {
  it.each([...ledgerWith('')].filter(([path]) => path.endsWith('.yaml')))(
    '%s of the base ledger',
    (_, text) => {
      expect(isPlain(text)).toBe(true)
    },
  )

  it.each([
    'notes: the key ring (brass) hangs at the front - ask Tor\n',
    "notes: ten o'clock, after the 3-5 pm club\n",
    'time: 06:10 to 06:50\n',
    'cost: 84 USD # both doors\n',
    'lot: "007"\n',
    "marked-as: '#17'\n",
    'extent: 900 ft2\nname: Café 漢字\n',
    'readings:\n  none: [K1, K2]\n  K3: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}\n',
    'spans:\n  - from: 2026-03-01\n    tactics: {clean: {do: clean and dry}}\n',
    '# a page of one line\n\nby: okafor\n',
  ])('%j', (text) => {
    expect(isPlain(text)).toBe(true)
    expect({ data: readPlainSubset(text)?.data }).toEqual(readCarefully(text))
  })
})
