import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import type { Yaml, YamlMap } from '../../../src/writing/demo/yaml.js'
import { flowText, mapText, recordText, scalarText } from '../../../src/writing/demo/yaml.js'

describe('scalarText', () => {
  it.each([
    'drip under prep sink',
    '2026-03-12',
    '06:10 to 06:50',
    '99999-1',
    '0.6 %',
    'yes',
    "o'clock",
    'L-2211',
  ])('leaves %s plain', (text) => {
    expect(scalarText(text)).toBe(text)
  })

  it.each([
    '',
    '#17',
    '0042',
    '12',
    'true',
    'null',
    '~',
    'a: b',
    'a #b',
    '- x',
    'x ',
    '[x',
    "'x'",
    'a\nb',
    '1e3',
  ])('writes %j so that it reads back as that text', (text) => {
    expect(parse(`key: ${scalarText(text)}`)).toEqual({ key: text })
    expect(parse(flowText({ key: text }))).toEqual({ key: text })
  })

  it('quotes commas and brackets only inside flow collections', () => {
    expect(scalarText('a, b')).toBe('a, b')
    expect(scalarText('a, b', true)).toBe('"a, b"')
  })
})

const text = fc.string({ unit: fc.constantFrom(...'ab z09.-:#,[]{}&*!|>\'"%@`?~\\/_=+e') })
const key = fc.stringMatching(/^[A-Za-z][A-Za-z0-9-]{0,8}$/)
const scalar = fc.oneof(text, fc.integer({ min: -50, max: 5000 }))
const value: fc.Arbitrary<Yaml> = fc.letrec<{ value: Yaml }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small' },
    scalar,
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(key, tie('value'), { maxKeys: 3, noNullPrototype: true }),
  ),
})).value

describe('mapText', () => {
  it('reads back as what was written', () => {
    fc.assert(
      fc.property(fc.dictionary(key, value, { minKeys: 1, noNullPrototype: true }), (map) => {
        expect(parse(mapText(map as YamlMap))).toEqual(map)
      }),
      { numRuns: 400 },
    )
  })

  it('leaves out what is undefined', () => {
    expect(mapText({ a: undefined, b: 1 })).toBe('b: 1\n')
  })
})

describe('recordText', () => {
  it('writes remarks, short maps in flow style and longer ones in blocks', () => {
    const written = recordText([
      'walked from the dock',
      ['purpose', 'routine', 'once a month'],
      ['no-entry', { 'boiler-room': 'no key' }],
      [
        'readings',
        { none: ['K1', 'K2'], K3: { 'german-cockroach': { nymphs: 4, adults: 1 }, renewed: 'yes' } },
      ],
    ])
    expect(written).toBe(`# walked from the dock
purpose: routine   # once a month
no-entry: {boiler-room: no key}
readings:
  none: [K1, K2]
  K3: {german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}
`)
  })

  it('writes a map on one line where that is asked for', () => {
    const written = recordText(
      [['readings', { none: ['S1'], S2: { 'house-mouse': 1, reset: 'yes' } }]],
      ['readings'],
    )
    expect(written).toBe('readings: {none: [S1], S2: {house-mouse: 1, reset: yes}}\n')
  })
})
