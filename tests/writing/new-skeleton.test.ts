import { describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { isPlain } from '../../src/files/plain-subset.js'
import { readRecord } from '../../src/files/read-record.js'
import { dayOf } from '../../src/measure/calendar.js'
import type { RecordKind } from '../../src/records/kinds.js'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import { shapeOf } from '../../src/records/shape.js'
import { fieldRows } from '../../src/tools/field-rows.js'
import { placeOf } from '../../src/writing/new/place.js'
import { skeletonOf } from '../../src/writing/new/skeleton.js'

const day = dayOf('2027-04-05') ?? 0

function shaped(kind: RecordKind, text: string) {
  const read = readRecord(Buffer.from(text))
  if ('faults' in read) throw new Error(`${kind}: ${JSON.stringify(read.faults)}\n${text}`)
  return shapeOf(recordKinds[kind].schema as z.ZodType, read.data)
}

/** Takes the `# ` away before every optional field, as its reader is told to. */
const allFields = (text: string) => text.replace(/^( *)# (?=[a-z0-9-]+: )/gm, '$1')

describe.each(allRecordKinds)('a new %s', (kind) => {
  for (const given of [{ day }, { day, by: 'adeyemi' }]) {
    const text = skeletonOf(kind, given)

    it(`has the shape of its kind${'by' in given ? '' : ', also when no one is named'}`, () => {
      expect(shaped(kind, text).faults).toEqual([])
    })

    it(`has it with every optional field as well${'by' in given ? '' : ', also when no one is named'}`, () => {
      expect(shaped(kind, allFields(text)).faults).toEqual([])
    })
  }

  const text = skeletonOf(kind, { day, by: 'adeyemi' })

  it('shows every field at the top of the record, the needed ones as fields and the rest as comments', () => {
    const schema = recordKinds[kind].schema as z.ZodType
    const shape = (schema.def as unknown as { shape: Record<string, z.ZodType> }).shape
    const shown = [...allFields(text).matchAll(/^([a-z][a-z0-9-]*):/gm)].map((match) => match[1])
    expect(shown.sort()).toEqual(Object.keys(shape).sort())
    const needed = [...text.matchAll(/^([a-z][a-z0-9-]*):/gm)].map((match) => match[1])
    expect(needed.sort()).toEqual(
      Object.keys(shape)
        .filter((key) => !shape[key]?.safeParse(undefined).success)
        .sort(),
    )
  })

  it('says what each field means', () => {
    for (const { path, meaning } of fieldRows(recordKinds[kind].schema as z.ZodType))
      if (!/[.[<]/.test(path)) expect(text).toContain(meaning.replaceAll('`', ''))
  })

  it('is read the fast way', () => {
    expect(isPlain(text)).toBe(true)
  })

  it('is the same each time', () => {
    expect(skeletonOf(kind, { day, by: 'adeyemi' })).toBe(text)
  })
})

it('carries the day and the person it was made for', () => {
  expect(skeletonOf('visit', { day, by: 'adeyemi' })).toMatch(/^by: adeyemi /m)
  expect(skeletonOf('district', { day })).toMatch(/^records-begin: 2027-04-05 /m)
  expect(skeletonOf('exception', { day, by: 'adeyemi' })).toMatch(/^by: adeyemi [\s\S]*^from: 2027-04-05 /m)
  expect(skeletonOf('review', { day })).toMatch(/^held: 2027-04-05 /m)
})

it('invents no words: free text that is needed is left to be filled in', () => {
  for (const [kind, key] of [
    ['complaint', 'says'],
    ['repair', 'done'],
    ['incident', 'what'],
    ['exception', 'why'],
    ['person', 'name'],
  ] as const)
    expect(skeletonOf(kind, { day, by: 'adeyemi' })).toMatch(new RegExp(`^${key}: FILL IN `, 'm'))
})

describe('its place', () => {
  const event = { day, site: 'oak', by: 'okafor' }
  it.each([
    [{ kind: 'district', day }, 'district.yaml'],
    [{ kind: 'person', day, id: 'okafor' }, 'people/okafor.yaml'],
    [{ kind: 'product', day, id: 'bait-a' }, 'products/bait-a/product.yaml'],
    [{ kind: 'site', day, id: 'oak' }, 'sites/oak/site.yaml'],
    [{ kind: 'review', day, id: '2026' }, 'reviews/2026.yaml'],
    [{ kind: 'visit', ...event }, 'sites/oak/visits/2027-04-05-okafor.yaml'],
    [{ kind: 'visit', ...event, word: 'evening' }, 'sites/oak/visits/2027-04-05-okafor-evening.yaml'],
    [{ kind: 'education', day, by: 'okafor' }, 'education/2027-04-05-okafor.yaml'],
  ] as const)('%j', (record, file) => {
    expect(placeOf(record)).toEqual({ file })
  })

  it.each([
    [{ kind: 'person', day, id: 'Okafor' }, /^Okafor cannot be/],
    [{ kind: 'person', day, id: 'yes' }, /^yes cannot be/],
    [{ kind: 'person', day, id: '../x' }, /^\.\.\/x cannot be/],
    [{ kind: 'person', day, id: 'a/b' }, /^a\/b cannot be/],
    [{ kind: 'site', day, id: 'Oak Hill' }, /^Oak Hill cannot be/],
    [{ kind: 'visit', ...event, site: '..' }, /^\.\. cannot be/],
    [{ kind: 'visit', ...event, by: 'O' }, /^O cannot be/],
    [{ kind: 'visit', ...event, word: 'Evening shift' }, /^okafor-Evening shift cannot be/],
    [{ kind: 'review', day, id: '26' }, /^26 is not a year/],
  ] as const)('%j is refused', (record, why) => {
    expect(placeOf(record)).toEqual({ refused: expect.stringMatching(why) })
  })
})
