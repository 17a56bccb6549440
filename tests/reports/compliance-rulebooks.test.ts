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
    const before = openOfLawful(lawful, asOf)
    expect(before.filter(({ outcome }) => outcome === 'not shown')).toEqual([])
    if (pair.expect.every((rule) => notOfThisReport.has(rule))) return
    const known = new Set(before.map(({ line }) => line))
    const added = open(edited(lawful, pair.broken), asOf).filter(({ line }) => !known.has(line))
    expect(added.filter(({ line }) => line.includes(pair.clause))).not.toEqual([])
  })
})

/** Early enough for every row of every pair: earlier days add none, and every day of the period takes its time. */
const beforeAnyRecord = day('2021-01-01')

interface OpenRow {
  readonly outcome: string
  /** The whole row, as text. */
  readonly line: string
}

/** Rows of every table that say that something is not shown, or cannot be checked. */
function open(files: ReadonlyMap<string, string>, asOf: number): OpenRow[] {
  const report = complianceReport(memorySource(files), { asOf, asOfIsToday: true, from: beforeAnyRecord })
  return report.tables
    .filter(({ for: whom }) => whom !== 'people')
    .flatMap(({ id, rows }) =>
      rows.flatMap((row) => outcomesIn(row).map((outcome) => ({ outcome, line: `${id}: ${lineOf(row)}` }))),
    )
}

const ofLawful = new Map<string, OpenRow[]>()

/** The same of a lawful ledger, on which many pairs rest: reported once. */
function openOfLawful(files: ReadonlyMap<string, string>, asOf: number): OpenRow[] {
  const name = JSON.stringify([asOf, ...files])
  const known = ofLawful.get(name) ?? open(files, asOf)
  ofLawful.set(name, known)
  return known
}

const outcomesIn = ({ cells }: Row) =>
  ['not shown', 'cannot be checked'].filter((outcome) =>
    Object.values(cells).some((cell) => String(cell) === outcome),
  )

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
