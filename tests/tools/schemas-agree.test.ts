import { Ajv } from 'ajv'
import * as fc from 'fast-check'
import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { RecordKind } from '../../src/records/kinds.js'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import { recordPathOf } from '../../src/records/paths.js'
import { quicklyAccepts } from '../../src/records/quick-accept.js'
import { recordExamples } from '../../src/records/record-examples.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { jsonSchemaOf } from '../../src/tools/json-schemas.js'

type Path = readonly (string | number)[]

const parse = (text: string) => load(text, { schema: CORE_SCHEMA })

/** Valid records of a kind to start from. */
function validRecords(kind: RecordKind): unknown[] {
  const ofBase = [...ledgerWith('')].filter(([file]) => Object(recordPathOf(file)).kind === kind)
  return [recordExamples[kind].text, ...ofBase.map(([, text]) => text)].map(parse)
}

/** Every path in a record, the record itself among them. */
function pathsOf(data: unknown, path: Path = []): Path[] {
  if (typeof data !== 'object' || data === null) return [path]
  const steps = Array.isArray(data) ? [...data.keys()] : Object.keys(data)
  return [
    path,
    ...steps.flatMap((step) => pathsOf((data as Record<string | number, unknown>)[step], [...path, step])),
  ]
}

function changedAt(
  data: unknown,
  path: Path,
  change: (parent: Record<string, unknown>, key: string) => void,
): unknown {
  const copy = { root: structuredClone(data) }
  const way = ['root', ...path]
  let parent: unknown = copy
  for (const step of way.slice(0, -1)) parent = (parent as Record<string | number, unknown>)[step]
  change(parent as Record<string, unknown>, String(way.at(-1)))
  return copy.root
}

const oddTexts = [
  '',
  ' ',
  'x',
  'yes',
  'no',
  'none',
  'other',
  'monthly',
  'K1',
  'Kitchen',
  'constructor',
  'prototype',
  '2026-03-12',
  '2026-3-12',
  '2026-03-12 to 2026-03-14',
  '06:10',
  '24:00',
  '06:10 to 06:50',
  '06:10-07:00 to 06:50',
  '4.5 g',
  '4,5 g',
  '04 g',
  '5 %',
  '1 block',
  'every 3 days',
  '../x.txt',
  '/x.txt',
  'a/../b',
  'a\\b',
  'a\nb',
  'é',
  '🪤'.repeat(150),
  'x'.repeat(201),
  '2026-03-12-okafor',
  '2026-03-12-okafor/sink',
  '99999-1',
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
]
const oddNumbers = [0, -0, 1, -1, 1.5, 2, 12, 13, 1e15, 2 ** 53, 1e300]
const oddValue = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom<unknown>(...oddTexts) },
  { weight: 2, arbitrary: fc.constantFrom<unknown>(...oddNumbers) },
  {
    weight: 1,
    arbitrary: fc.constantFrom<unknown>(
      null,
      true,
      false,
      [],
      {},
      [[]],
      [null],
      ['x', 'x'],
      { x: 1 },
      [1, 2],
    ),
  },
)
const oddKey = fc.constantFrom(
  'x',
  'K9',
  'notes',
  'note',
  'none',
  'yes',
  'on',
  '17',
  '',
  'a b',
  'constructor',
  'toString',
  'german-cockroach',
  'from',
  'until',
  'by',
  'file',
)

const mutation = fc.record({
  at: fc.nat(),
  kind: fc.constantFrom('replace', 'replace', 'delete', 'add', 'rename', 'repeat', 'borrow'),
  value: oddValue,
  key: oddKey,
  from: fc.nat(),
})

function mutated(
  data: unknown,
  { at, kind, value, key, from }: typeof mutation extends fc.Arbitrary<infer M> ? M : never,
): unknown {
  const paths = pathsOf(data)
  const path = paths[at % paths.length] ?? []
  return changedAt(data, path, (parent, last) => {
    const here = parent[last]
    if (kind === 'replace') parent[last] = value
    else if (kind === 'delete') Array.isArray(parent) ? parent.splice(Number(last), 1) : delete parent[last]
    else if (kind === 'rename') {
      delete parent[last]
      parent[`${last}s`] = here
    } else if (kind === 'borrow') {
      // A value from elsewhere in the record: of the right make, in the wrong place.
      const other = paths[from % paths.length] ?? []
      parent[last] = other.reduce<unknown>((inner, step) => Object(inner)[step], structuredClone(data))
    } else if (Array.isArray(here)) here.push(kind === 'repeat' ? here[0] : value)
    else if (typeof here === 'object' && here !== null) (here as Record<string, unknown>)[key] = value
    else parent[last] = value
  })
}

describe.each(allRecordKinds)('%s', (kind) => {
  const validate = new Ajv({ strict: true }).compile(jsonSchemaOf(kind))
  const schema = recordKinds[kind].schema as z.ZodType
  const records = validRecords(kind)

  it('starts from valid records', () => {
    for (const record of records) expect(schema.safeParse(record).error?.issues).toBeUndefined()
  })

  it('is judged alike by the schema the program uses and the one that editors use', () => {
    const seen = { valid: 0, invalid: 0 }
    fc.assert(
      fc.property(
        fc.constantFrom(...records),
        fc.array(mutation, { minLength: 1, maxLength: 3 }),
        (record, mutations) => {
          // Through JSON, as a file would come: no undefined, no holes.
          const data: unknown = JSON.parse(JSON.stringify(mutations.reduce(mutated, record)) ?? 'null')
          const program = schema.safeParse(data).success
          seen[program ? 'valid' : 'invalid']++
          expect({ data, valid: validate(data) }).toEqual({ data, valid: program })
          // The quick way may doubt, but here every kind of check is one it knows, so it never has to.
          expect({ data, quick: quicklyAccepts(schema, data) }).toEqual({ data, quick: program })
        },
      ),
      { numRuns: 600, seed: 20260312 },
    )
    // Both answers must have been asked for.
    expect(seen.valid).toBeGreaterThan(20)
    expect(seen.invalid).toBeGreaterThan(200)
  })
})
