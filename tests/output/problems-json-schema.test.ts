import { describe, expect, it } from 'vitest'
import { problemsJson } from '../../src/output/problems-json.js'
import { noLog, noPlacement, noSuchArea, notUsable } from '../cli/overlays.js'
import type { Json } from './check-schema.js'
import { checkSchema, departuresFromCheckSchema } from './check-schema.js'
import { examplePage } from './example-page.js'
import { hostilePage } from './hostile-page.js'
import { logExcepted, pageOf } from './problems-page.js'

const documentOf = (page: ReturnType<typeof pageOf>) => JSON.parse(problemsJson(page))

const compared = () => ({
  ...pageOf(noSuchArea),
  compared: {
    with: 'the merge base of main and HEAD',
    commits: ['0123456789abcdef0123456789abcdef01234567'],
    known: 3,
    notCompared: [{ what: 'sites/oak', why: 'it had no site.yaml' }],
  },
})

describe('the schema of a check as JSON', () => {
  it.each([
    ['nothing wrong', () => pageOf('')],
    ['an error, a warning and a note', () => pageOf(noSuchArea + noLog + noPlacement)],
    ['something excepted', () => pageOf(logExcepted)],
    ['something not checked', () => pageOf(notUsable)],
    ['a comparison', compared],
    ['hostile text', hostilePage],
    ['the example district', examplePage],
  ])('describes every field of a check with %s', (_, page) => {
    expect(departuresFromCheckSchema(documentOf(page()))).toEqual([])
  })

  it.each<[string, (document: ReturnType<typeof documentOf>) => void]>([
    ['a field that is not described', (document) => Object.assign(document.problems[0], { extra: 1 })],
    ['no version', (document) => delete document['format-version']],
    ['another version', (document) => Object.assign(document, { 'format-version': 2 })],
    ['a level of its own', (document) => Object.assign(document.problems[0], { level: 'fatal' })],
    ['line 0', (document) => Object.assign(document.problems[0].location, { line: 0 })],
    ['a day that is none', (document) => Object.assign(document, { 'as-of': 'today' })],
    ['no fingerprint', (document) => delete document.problems[0].fingerprint],
  ])('refuses %s', (_, spoil) => {
    const document = documentOf(pageOf(noSuchArea))
    spoil(document)
    expect(departuresFromCheckSchema(document)).toHaveLength(1)
  })

  it('says what every field means', () => {
    const without: string[] = []
    let fields = 0
    const walk = (schema: unknown, path: string): void => {
      if (typeof schema !== 'object' || schema === null) return
      const { properties, ...rest } = schema as Json
      for (const [name, field] of Object.entries((properties as Json | undefined) ?? {})) {
        fields++
        if (typeof (field as Json).description !== 'string') without.push(`${path}/${name}`)
        walk(field, `${path}/${name}`)
      }
      for (const [key, part] of Object.entries(rest)) walk(part, `${path}/${key}`)
    }
    walk(checkSchema, '')
    expect(fields).toBeGreaterThan(60)
    expect(without).toEqual([])
  })

  it('names itself, and no host that exists', () => {
    expect(checkSchema.$id).toBe('https://doorsweep.example/schemas/results/check.schema.json')
  })
})

describe('fingerprints in JSON', () => {
  it('stay when lines are put in above', () => {
    const moved = documentOf(pageOf(noSuchArea.replace('inspected', '# a remark\n\n\ninspected')))
    const before = documentOf(pageOf(noSuchArea))
    expect(moved.problems[0].location.line).toBe(before.problems[0].location.line + 3)
    expect(moved.problems[0].fingerprint).toBe(before.problems[0].fingerprint)
  })

  it('stay of what is excepted, too', () => {
    const printOf = (overlay: string) => documentOf(pageOf(overlay)).excepted[0].fingerprint
    expect(printOf(logExcepted.replace('time:', '# a remark\n\ntime:'))).toBe(printOf(logExcepted))
  })
})
