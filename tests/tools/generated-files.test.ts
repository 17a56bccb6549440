import { execFileSync } from 'node:child_process'
import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Ajv } from 'ajv'
import { describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import * as units from '../../src/records/units.js'
import { fieldRows, unitsOf } from '../../src/tools/field-rows.js'
import { generatedFiles, staleFiles } from '../../src/tools/generated-files.js'
import { jsonSchemaOf } from '../../src/tools/json-schemas.js'
import { temporaryFolder, writeFiles } from '../files/temporary-folder.js'

const root = fileURLToPath(new URL('../../', import.meta.url))

describe('committed files', () => {
  it('are what `npm run generate` writes', () => {
    expect(staleFiles(root)).toEqual({ stale: [], leftOver: [] })
  })

  it('are told apart from stale, missing and left-over ones', () => {
    const copy = temporaryFolder()
    writeFiles(copy, [['src/rules/.keep', '']])
    execFileSync('cp', ['-r', join(root, 'src/rules'), join(copy, 'src')])
    execFileSync('cp', ['-r', join(root, 'src/data'), join(copy, 'src')])
    writeFiles(copy, [['examples/.keep', '']])
    execFileSync('cp', ['-r', join(root, 'examples/district'), join(copy, 'examples')])
    writeFiles(copy, generatedFiles(root))
    expect(staleFiles(copy)).toEqual({ stale: [], leftOver: [] })
    writeFileSync(join(copy, 'schemas/visit.schema.json'), '{}\n')
    writeFileSync(join(copy, 'schemas/ghost.schema.json'), '{}\n')
    rmSync(join(copy, 'schemas/README.md'))
    expect(staleFiles(copy)).toEqual({
      stale: ['schemas/visit.schema.json', 'schemas/README.md'],
      leftOver: ['schemas/ghost.schema.json'],
    })
  })
})

type Json = { readonly [key: string]: unknown }
const isMap = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Every named field of a JSON Schema, at any depth, by the way to it. */
function fieldsOf(schema: unknown, path = ''): [string, Json][] {
  if (Array.isArray(schema)) return schema.flatMap((part, at) => fieldsOf(part, `${path}/${at}`))
  if (!isMap(schema)) return []
  const here = isMap(schema.properties)
    ? Object.entries(schema.properties).map(([key, field]): [string, Json] => [
        `${path}/${key}`,
        field as Json,
      ])
    : []
  const below = Object.entries(schema).flatMap(([key, part]) =>
    key === 'properties' && isMap(part)
      ? Object.entries(part).flatMap(([name, field]) => fieldsOf(field, `${path}/${name}`))
      : key === 'examples' || key === 'enum'
        ? []
        : fieldsOf(part, `${path}/${key}`),
  )
  return [...here, ...below]
}

describe.each(allRecordKinds)('the schema of a %s', (kind) => {
  const schema = jsonSchemaOf(kind)
  const fields = fieldsOf(schema)

  it('says what every field means', () => {
    expect(fields.length).toBeGreaterThan(2)
    expect(fields.filter(([, field]) => typeof field.description !== 'string').map(([path]) => path)).toEqual(
      [],
    )
  })

  it('names itself, and no host that exists', () => {
    expect(schema.$id).toBe(`https://doorsweep.example/schemas/${kind}.schema.json`)
    expect(schema.title).toBe(kind)
    expect(schema.description).toMatch(/Lies at [a-z]+/)
  })

  it('is accepted by a strict validator, and accepts its own examples', () => {
    const ajv = new Ajv({ strict: true })
    ajv.compile(schema)
    for (const [path, field] of fields) {
      for (const example of (field.examples as unknown[] | undefined) ?? []) {
        const fits = new Ajv({ strict: true }).validate(field, example)
        expect({ path, example, fits }).toEqual({ path, example, fits: true })
      }
    }
  })

  it('has a row in the field reference for every field', () => {
    const rows = fieldRows(recordKinds[kind].schema as z.ZodType)
    expect(rows.every(({ path, holds, meaning }) => path !== '' && holds !== '' && meaning !== '')).toBe(true)
    expect(rows.filter(({ holds, meaning }) => /[<>]/.test(holds + meaning)).map(({ path }) => path)).toEqual(
      [],
    )
  })
})

it('the command line of ajv accepts every schema', () => {
  const cli = join(root, 'node_modules/ajv-cli/dist/index.js')
  const said = execFileSync(
    process.execPath,
    [cli, 'compile', '--strict=true', '-s', join(root, 'schemas/*.schema.json')],
    {
      encoding: 'utf8',
    },
  )
  expect(said.match(/is valid/g)).toHaveLength(allRecordKinds.length)
})

it('quantities show their units in the field reference', () => {
  const rows = allRecordKinds.flatMap((kind) => fieldRows(recordKinds[kind].schema as z.ZodType))
  const known = new Set<string>([...Object.values(units).flat(), 'USD'])
  const withUnits = rows.filter((row) => row.units.length > 0)
  expect(withUnits.length).toBeGreaterThan(20)
  expect(withUnits.flatMap((row) => row.units).filter((unit) => !known.has(unit))).toEqual([])
  // The example of a field without units is never a number followed by one of them.
  const looksLikeOne = new RegExp(
    `^[0-9.]+ (?:${[...known].map((unit) => unit.replace(/[/%]/g, '\\$&')).join('|')})$`,
  )
  const form = 'text, in the form of the example'
  expect(
    rows.filter((row) => row.units.length === 0 && row.holds === form && looksLikeOne.test(row.example)),
  ).toEqual([])
  expect(unitsOf(recordKinds.site.schema)).toEqual([])
})
