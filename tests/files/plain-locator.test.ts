import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import * as fc from 'fast-check'
import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import { positionedDocument } from '../../src/files/careful-reader.js'
import { spanOf } from '../../src/files/locate.js'
import { plainSpanOf } from '../../src/files/plain-locator.js'
import { isPlain } from '../../src/files/plain-subset.js'
import { yamlText } from './yaml-texts.js'

type Path = (string | number)[]

function pathsOf(data: unknown, path: Path = []): Path[] {
  if (typeof data !== 'object' || data === null) return [path]
  const steps = Array.isArray(data) ? [...data.keys()] : Object.keys(data)
  return [
    path,
    ...steps.flatMap((step) => pathsOf((data as Record<string | number, unknown>)[step], [...path, step])),
  ]
}

/** Every path of a text, and below each one that is not there; of those that are, how many the quick way was certain of. */
function agree(text: string): { asked: number; certain: number } {
  const data = load(text, { schema: CORE_SCHEMA })
  const document = positionedDocument(text)
  let asked = 0
  let certain = 0
  for (const found of pathsOf(data)) {
    for (const path of [found, [...found, 'not-there']]) {
      for (const onKey of [false, true]) {
        const quick = plainSpanOf(text, path, onKey)
        if (path === found) {
          asked++
          if (quick !== undefined) certain++
        }
        if (quick === undefined) continue
        expect({ text, path, onKey, span: quick }).toEqual({
          text,
          path,
          onKey,
          span: spanOf(document, path, onKey),
        })
      }
    }
  }
  return { asked, certain }
}

describe('the quick way to a place', () => {
  it('gives the place the document gives, for every path of the example district', () => {
    const root = new URL('../../examples/', import.meta.url).pathname
    const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.yaml'),
    )
    const totals = { asked: 0, certain: 0, files: 0 }
    for (const file of files) {
      const text = readFileSync(join(root, file), 'utf8')
      if (!isPlain(text)) continue
      const { asked, certain } = agree(text)
      totals.files++
      totals.asked += asked
      totals.certain += certain
    }
    expect(totals.files).toBeGreaterThan(150)
    expect(totals.certain / totals.asked).toBeGreaterThan(0.9)
  })

  it.each(["a: {b: [x 'y], c: 1}\n", "a: [o'clock, d 'e, f]\n", "a: {b: 'c', d: e 'f}\n"])(
    'an apostrophe that closes nothing: %s',
    (text) => {
      expect(isPlain(text)).toBe(true)
      const { asked, certain } = agree(text)
      // Only the record itself, asked for by its value and by its key, is left to the document.
      expect(certain).toBe(asked - 2)
    },
  )

  it('gives the same place in any plain text', () => {
    let certain = 0
    fc.assert(
      fc.property(yamlText, (text) => {
        if (!isPlain(text)) return
        try {
          load(text, { schema: CORE_SCHEMA })
        } catch {
          return
        }
        if (positionedDocument(text).errors.length === 0) certain += agree(text).certain
      }),
      { numRuns: 4000, seed: 20260312 },
    )
    expect(certain).toBeGreaterThan(2000)
  })
})
