import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { RecordKind } from '../../src/records/kinds.js'
import { recordKinds } from '../../src/records/kinds.js'
import { shapeOf } from '../../src/records/shape.js'
import { impossibleCount } from '../../src/rules/reading/impossible-count.js'
import { shape } from '../../src/rules/reading/shape.js'
import { unknownKey } from '../../src/rules/reading/unknown-key.js'

const read = (kind: RecordKind, text: string) =>
  shapeOf(recordKinds[kind].schema as z.ZodType, load(text, { schema: CORE_SCHEMA }))

/** Key path and sentence of every fault, as a person is told them. */
function told(kind: RecordKind, text: string): string[] {
  return read(kind, text).faults.flatMap((fault) =>
    [shape, unknownKey, impossibleCount].flatMap((rule) => {
      const found = rule.judge({ file: 'x.yaml', kind: 'shape', fault, record: kind })
      return found ? [`${fault.path.join('.')}: ${rule.says(found.args)}`] : []
    }),
  )
}

const visit = (rest: string) => told('visit', `purpose: routine\nby: okafor\n${rest}`)
const reading = (rest: string) => visit(`readings: {K1: ${rest}}`)

it('says nothing of what fits', () => {
  expect(visit('readings: {none: [K1], K2: {german-cockroach: 3, renewed: yes}}')).toEqual([])
})

describe('a union is judged by the branch whose type the value has', () => {
  it('a misspelt word is told what it may be', () => {
    expect(reading('{sprung: emty}')).toEqual([
      'readings.K1.sprung: `emty` is not one of `empty`, `other-animal`; did you mean `empty`?',
    ])
  })
  it('a map is judged as a map', () => {
    expect(reading('{sprung: {emty: 1}}')).toEqual([
      'readings.K1.sprung.emty: `emty` is not a key here; did you mean `empty`?',
    ])
    expect(reading('{german-cockroach: {nymps: 4}}')).toEqual([
      'readings.K1.german-cockroach.nymps: `nymps` is not a key here; did you mean `nymphs`?',
    ])
  })
  it('text where a count belongs is told what a count is', () => {
    expect(reading('{german-cockroach: some}')).toEqual([
      'readings.K1.german-cockroach: Here is text; what belongs here: how many are on the device now, as a number or by life stage, such as `3`.',
    ])
  })
  it('text where a reading belongs is shown one', () => {
    expect(reading('claer')).toEqual([
      'readings.K1: Here is text; what belongs here: a reading; any key that is not a field names a pest, such as `{german-cockroach: {nymphs: 4, adults: 1}, renewed: yes}`.',
    ])
  })
})

describe('a misspelt field of a reading is not taken for a pest', () => {
  it.each([
    ['{renewd: yes}', 'renewd', 'renewed'],
    ['{unusble: wet}', 'unusble', 'unusable'],
    ['{bait-tken: some}', 'bait-tken', 'bait-taken'],
    ['{notte: greasy}', 'notte', 'note'],
  ])('%s', (text, written, meant) => {
    expect(reading(text)).toEqual([
      `readings.K1.${written}: \`${written}\` is not a key here; did you mean \`${meant}\`?`,
    ])
  })
  it('nor a misspelt list for a device', () => {
    expect(visit('readings: {non: [K1, K2]}')).toEqual([
      'readings.non: `non` is not a key here; did you mean `none`?',
    ])
  })
  it('but a pest with a count stays a pest', () => {
    expect(reading('{notes: 3}')).toEqual([])
  })
})

describe('counts', () => {
  it.each([
    ['-2', '-2 is not a count.'],
    ['1.5', '1.5 is not a count.'],
  ])('%s', (value, sentence) => {
    expect(reading(`{german-cockroach: ${value}}`)).toEqual([`readings.K1.german-cockroach: ${sentence}`])
    expect(reading(`{german-cockroach: {adults: ${value}}}`)).toEqual([
      `readings.K1.german-cockroach.adults: ${sentence}`,
    ])
  })
  it('0 is one', () => {
    expect(reading('{german-cockroach: 0}')).toEqual([])
  })
})

describe('a number where text is wanted', () => {
  it('is told to use quotes, where the text would do', () => {
    expect(told('person', 'name: Ada Okafor\nroles: [clerk]\nphone: 5550100\n')).toEqual([
      'phone: Here is a number; what belongs here: where to reach them at work, such as `555-0100`. If "5550100" is meant, write it in quotes.',
    ])
    expect(visit('set: {K1: {kind: sticky-trap, area: kitchen, marked-as: 17}}')[0]).toMatch(
      /If "17" is meant, write it in quotes\.$/,
    )
  })
  it('and not where quotes would not help', () => {
    expect(reading('{bait-added: 5}')[0]).not.toMatch(/quotes/)
    expect(visit('site-manager: 5')[0]).not.toMatch(/quotes/)
  })
})

describe('words', () => {
  it('true and false are told that they are yes and no here', () => {
    expect(visit('set: {K1: {kind: sticky-trap, area: kitchen, secured: true}}')).toEqual([
      'set.K1.secured: `true` is not one of `yes`, `no`; did you mean `yes`?',
    ])
    expect(reading('{renewed: false}')).toEqual(['readings.K1.renewed: `false` is not one of `yes`.'])
  })
  it('a word far from every other gets no guess', () => {
    expect(told('visit', 'purpose: inspection of everything\nby: okafor\n')[0]).not.toMatch(/did you mean/)
  })
})

describe('what is missing, empty or out of range', () => {
  it.each<[RecordKind, string, string]>([
    [
      'visit',
      'by: okafor\n',
      ': `purpose` is missing: why the visit was made; a routine visit is the service of the contract.',
    ],
    [
      'visit',
      'purpose: routine\nby: okafor\nset: {K1: {kind: snap-trap}}\n',
      'set.K1: `area` is missing: area it stands in.',
    ],
    ['visit', 'purpose: routine\nby: okafor\ninspected: []\n', 'inspected: At least 1 belong here.'],
    [
      'visit',
      'purpose: routine\nby: okafor\ntime:\n',
      'time: Here is nothing; what belongs here: start and end, such as `06:10 to 06:50`.',
    ],
    [
      'visit',
      'purpose: routine\nby: okafor\ntime: 06:10\n',
      'time: `06:10` does not read as: start and end, such as `06:10 to 06:50`.',
    ],
    [
      'visit',
      'purpose: routine\nby: okafor\nset: {K1: {kind: snap-trap, area: dock, traps: 40}}\n',
      'set.K1.traps: 40 is out of range: at most 20.',
    ],
    [
      'visit',
      'purpose: routine\nby: okafor\nset: {K1: {kind: snap-trap, area: dock, at: [1, 2, 3]}}\n',
      'set.K1.at: A list of 3 is out of range: at most 2.',
    ],
    [
      'visit',
      'purpose: routine\nby: okafor\nset: {17: {kind: snap-trap, area: dock}}\n',
      'set.17: `17` cannot be a name here; names are letters, digits and hyphens, begin with a letter, and are never words like yes, no or null, such as `kitchen`.',
    ],
    [
      'person',
      'name: A\nroles: [clerk]\ntraining: {a: {on: 2026-01-01, topic: x, hours: 0}}\n',
      'training.a.hours: 0 is out of range: more than 0.',
    ],
    [
      'review',
      'held: 12 June 2026\nby: marsh\npresent: [all]\ndecisions: {}\n',
      'held: `12 June 2026` does not read as: day it was held, such as `2026-06-10`.',
    ],
  ])('%s %j', (kind, text, expected) => {
    expect(told(kind, text)).toEqual([expected])
  })

  it('a whole record of the wrong kind', () => {
    expect(told('visit', '[]')).toEqual([': Here is a list; what belongs here: one visit to one site.'])
  })
})

describe('what can still be used', () => {
  it('an unknown key is reported and set aside, and the rest stands', () => {
    const shaped = read(
      'visit',
      'purpose: routine\nby: okafor\ncolour: red\nfound: {a: {area: kitchen, evidence: live, sixe: 3}}\n',
    )
    expect(shaped.usable).toBe(true)
    expect(shaped.record).toEqual({
      purpose: 'routine',
      by: 'okafor',
      found: { a: { area: 'kitchen', evidence: 'live' } },
    })
    expect(shaped.faults.map(({ path }) => path.join('.'))).toEqual(['found.a.sixe', 'colour'])
  })
  it('with any other fault it is not used', () => {
    expect(read('visit', 'purpose: routine\n').usable).toBe(false)
  })
  it('keys that JavaScript objects have by birth are keys like any other', () => {
    for (const key of ['constructor', 'toString', 'hasOwnProperty', 'valueOf']) {
      const shaped = read('visit', `purpose: routine\nby: okafor\n${key}: x\n`)
      expect(shaped.faults.map(({ fault }) => fault)).toEqual(['unknown-key'])
      expect(shaped.usable).toBe(true)
    }
    expect(reading('{constructor: claer}')[0]).toMatch(/^readings.K1.constructor: Here is text/)
  })
})
