import { readFileSync } from 'node:fs'
import { expect } from 'vitest'

interface PublishedValue {
  path: string
  value: number
  tolerance: number
}

export interface ReferenceCase<Input, Expected> {
  id: string
  input: Input
  expected: Expected
  published?: { citation: string; values: PublishedValue[] }
}

interface ReferenceKind<Input, Expected> {
  relative_tolerance: number
  absolute_tolerance: number
  cases: ReferenceCase<Input, Expected>[]
}

/** One kind of cases of tests/reference/stats, whose README names the source. */
export function referenceKind<Input, Expected>(kind: string): ReferenceKind<Input, Expected> {
  const file = new URL(`../reference/stats/${kind}.json`, import.meta.url)
  return JSON.parse(readFileSync(file, 'utf8')) as ReferenceKind<Input, Expected>
}

export type ReferenceNumber = number | 'Infinity' | null

/** Holds a figure to a reference figure within the tolerance its file states. */
export function expectAgrees(
  actual: number | null | undefined,
  expected: ReferenceNumber | undefined,
  tolerance: { relative_tolerance: number; absolute_tolerance: number },
  what: string,
) {
  if (expected === undefined) throw new Error(`${what}: the reference has no such figure`)
  if (expected === null || expected === 'Infinity') {
    expect(actual, what).toBe(expected === null ? null : Infinity)
    return
  }
  expect(actual, what).toBeTypeOf('number')
  const distance = Math.abs((actual ?? Number.NaN) - expected)
  const allowed = tolerance.absolute_tolerance + tolerance.relative_tolerance * Math.abs(expected)
  expect(distance, `${what}: ${actual} against ${expected}`).toBeLessThanOrEqual(allowed)
}

/**
 * Holds figures to those printed in the cited work, within what its rounding allows; null for one that is not
 * built.
 */
export function expectPublished<I, E>(
  reference: ReferenceCase<I, E>,
  figures: Readonly<Record<string, number | null>>,
) {
  for (const { path, value, tolerance } of reference.published?.values ?? []) {
    const actual = figures[path]
    if (actual === undefined) throw new Error(`${reference.id}: nothing to compare with ${path}`)
    if (actual === null) continue
    expect(Math.abs(actual - value), `${reference.id} ${path}`).toBeLessThanOrEqual(tolerance)
  }
}
