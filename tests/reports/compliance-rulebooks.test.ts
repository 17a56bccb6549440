import { readdirSync, readFileSync } from 'node:fs'
import { CORE_SCHEMA, load } from 'js-yaml'
import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { complianceReport } from '../../src/reports/compliance.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import type { Row } from '../../src/types.js'
import { day } from '../ledger/small-site.js'

/**
 * The pairs of tests/rulebooks: a lawful ledger, and the same with one fact changed that breaks a duty, each worked out
 * by hand from its clause. What is told of the broken one has to name that clause, and nothing may be told of the lawful.
 */
type Edit =
  | { readonly in: string; readonly replace: string; readonly with: string }
  | { readonly in: string; readonly 'lies-at': string }

interface Pair {
  readonly clause: string
  readonly base: string
  readonly first?: readonly Edit[]
  readonly broken: Edit
  readonly expect: readonly string[]
  readonly 'as-of'?: string
}

interface Cases {
  readonly rulebook: string
  readonly 'as-of': string
  readonly bases: Readonly<Record<string, string>>
  readonly pairs: Readonly<Record<string, Pair>>
}

const folder = new URL('../rulebooks/', import.meta.url)
const tables = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => load(readFileSync(new URL(name, folder), 'utf8'), { schema: CORE_SCHEMA }) as Cases)

/** About visits, traps and what was seen: values of custom, which are no duties and about no application. */
const notOfThisReport: ReadonlySet<string> = new Set([
  'sighting-unidentified',
  'termite-sign-no-action',
  'social-nest-no-action',
  'cockroach-by-day-no-follow-up',
  'lost-device-not-renewed',
  'run-spacing',
  'light-trap-too-high',
])

describe.each(tables)('$rulebook', ({ bases, pairs, 'as-of': usual }) => {
  it.each(Object.entries(pairs))('%s', (_name, pair) => {
    const asOf = day(pair['as-of'] ?? usual)
    const lawful = (pair.first ?? []).reduce(edited, ledgerWith(bases[pair.base] ?? ''))
    expect(open(lawful, asOf, ['not shown'])).toEqual([])
    if (pair.expect.every((rule) => notOfThisReport.has(rule))) return
    const told = open(edited(lawful, pair.broken), asOf, ['not shown', 'cannot be checked'])
    const before = new Set(open(lawful, asOf, ['not shown', 'cannot be checked']))
    const added = told.filter((row) => !before.has(row))
    expect(added.filter((row) => row.includes(pair.clause))).not.toEqual([])
  })
})

/** Rows of every table with one of some outcomes, each as one line of text. */
function open(files: ReadonlyMap<string, string>, asOf: number, outcomes: readonly string[]): string[] {
  const report = complianceReport(memorySource(files), { asOf, asOfIsToday: true, from: day('2000-01-01') })
  return report.tables
    .filter(({ for: whom }) => whom !== 'people')
    .flatMap(({ id, rows }) => rows.filter(hasOutcome(outcomes)).map((row) => `${id}: ${lineOf(row)}`))
}

const hasOutcome =
  (outcomes: readonly string[]) =>
  ({ cells }: Row) =>
    Object.values(cells).some((cell) => outcomes.includes(String(cell)))

const lineOf = ({ cells }: Row) => Object.values(cells).join(' | ')

function edited(files: ReadonlyMap<string, string>, change: Edit): Map<string, string> {
  const text = files.get(change.in) ?? ''
  if (!('lies-at' in change))
    return new Map(files).set(
      change.in,
      text.replace(change.replace, () => change.with),
    )
  const moved = new Map(files).set(change['lies-at'], text)
  moved.delete(change.in)
  return moved
}
