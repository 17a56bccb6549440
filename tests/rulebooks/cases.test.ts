import { readdirSync, readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { dayOf } from '../../src/measure/calendar.js'
import { builtInRulebooks } from '../../src/records/tables.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import type { Problem } from '../../src/types.js'

/**
 * Pairs of cases for every rulebook: a lawful ledger, and the same with one fact changed that breaks a duty. What a
 * pair expects is worked out by hand from the clause it names, never taken from the program.
 */
const edit = z.union([
  z.strictObject({ in: z.string(), replace: z.string(), with: z.string() }),
  /** The day of an event stands in its path. */
  z.strictObject({ in: z.string(), 'lies-at': z.string() }),
])
const caseTable = z.strictObject({
  rulebook: z.string(),
  'written-on': z.string(),
  'as-of': z.string(),
  bases: z.record(z.string(), z.string()),
  pairs: z.record(
    z.string(),
    z.strictObject({
      clause: z.string(),
      differs: z.string(),
      base: z.string(),
      first: z.array(edit).optional(),
      broken: edit,
      expect: z.array(z.string()).min(1),
      /** Another day than the table's, such as one on which a law was still in force. */
      'as-of': z.string().optional(),
    }),
  ),
})

const folder = new URL('.', import.meta.url)
const tables = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => caseTable.parse(load(readFileSync(new URL(name, folder), 'utf8'), { schema: CORE_SCHEMA })))

it('there is a table for every rulebook of the program', () => {
  expect(tables.map(({ rulebook }) => rulebook).sort()).toEqual([...builtInRulebooks].sort())
})

describe.each(tables)('$rulebook', (table) => {
  it('has at least twelve pairs', () => {
    expect(Object.keys(table.pairs).length).toBeGreaterThanOrEqual(12)
  })

  it.each(Object.entries(table.pairs))('%s', (_name, pair) => {
    const lawful = (pair.first ?? []).reduce(edited, ledgerWith(table.bases[pair.base] ?? ''))
    const broken = edited(lawful, pair.broken)
    const asOf = pair['as-of'] ?? table['as-of']
    expect(standing(lawful, asOf).map(shown)).toEqual([])
    const problems = standing(broken, asOf)
    expect(problems.map(({ rule }) => rule).sort()).toEqual([...pair.expect].sort())
    for (const problem of problems) {
      expect(problem.sources.map(({ text }) => text).join('; ')).toContain(pair.clause)
    }
  })
})

/** One change of one file; what is replaced must stand there exactly once. */
function edited(files: ReadonlyMap<string, string>, change: z.infer<typeof edit>): Map<string, string> {
  const text = files.get(change.in)
  if ('lies-at' in change) {
    if (text === undefined || files.has(change['lies-at'])) throw new Error(`${change.in} cannot be moved`)
    const moved = new Map(files).set(change['lies-at'], text)
    moved.delete(change.in)
    return moved
  }
  if (text?.split(change.replace).length !== 2)
    throw new Error(`${change.in} holds \`${change.replace}\` not exactly once`)
  return new Map(files).set(
    change.in,
    text.replace(change.replace, () => change.with),
  )
}

function standing(files: Map<string, string>, asOf: string): Problem[] {
  const day = dayOf(asOf) ?? Number.NaN
  const { problems } = runCheck(memorySource(files), { asOf: day, asOfIsToday: true })
  return problems.filter((problem) => standsOn(problem, day))
}

const shown = ({ rule, at, args }: Problem) =>
  `${rule} ${at.file} ${at.path.join('.')} ${JSON.stringify(args)}`
