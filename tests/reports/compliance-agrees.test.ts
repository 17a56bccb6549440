import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { isPesticide } from '../../src/ledger/treatments.js'
import { isoOf } from '../../src/measure/calendar.js'
import { dutySections } from '../../src/records/rulebook-duties.js'
import { complianceReport } from '../../src/reports/compliance.js'
import { sectionsOfUses } from '../../src/reports/compliance-duties/assess.js'
import { isOf } from '../../src/reports/compliance-duties/besides.js'
import { allRules } from '../../src/rules/all.js'
import { applicationRecordsRules } from '../../src/rules/application-records/index.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import { labelUseRules } from '../../src/rules/label-use/index.js'
import { licencesRules } from '../../src/rules/licences/index.js'
import { needRules } from '../../src/rules/need/index.js'
import { noticesRules } from '../../src/rules/notices/index.js'
import { productsRules } from '../../src/rules/products/index.js'
import { reentryRules } from '../../src/rules/reentry/index.js'
import type { Row } from '../../src/types.js'
import { day } from '../ledger/small-site.js'
import { baseLedgers, cleanLedger } from '../mutation/base-ledgers.js'

const aboutUses = new Set(
  [
    ...noticesRules,
    ...reentryRules,
    ...licencesRules,
    ...labelUseRules,
    ...applicationRecordsRules,
    ...needRules,
    ...productsRules,
  ].map(({ id }) => id),
)

/**
 * Rules about uses that no assessor of a duty answers for: what they find stands as a row beside the duties. Every other
 * rule asks what a duty asks, so that the duty itself has to come out as not shown, or as one that cannot be checked.
 */
const besideTheDuties = new Set([
  // Custom, under values of a rulebook that are no duties.
  ...needRules.map(({ id }) => id),
  'spot-too-large',
  'weight-rate-of-a-liquid',
  'amounts-do-not-add-up',
  'treated-more-than-area',
  'weather-not-recorded',
  'wet-ground-not-closed',
  'product-without-label',
  'product-without-sds',
])

type Files = ReadonlyMap<string, string>

function viewsOf(files: Files, asOf: number): SiteView[] {
  const views: SiteView[] = []
  readLedger(memorySource(files), { asOf, asOfIsToday: false }, (view) => views.push(view))
  return views
}

/** Before any use in the ledgers below; every day of the period takes its time. */
const beforeAnyRecord = day('2021-01-01')

const reported = new Map<string, readonly Row[]>()

/** Rows of the table of duties. The examples are looked at twice, and reported once. */
function rowsOf(files: Files, asOf: number): readonly Row[] {
  const name = JSON.stringify([asOf, ...files])
  const known = reported.get(name)
  if (known) return known
  const report = complianceReport(memorySource(files), { asOf, asOfIsToday: false, from: beforeAnyRecord })
  const rows = report.tables.find(({ id }) => id === 'duties')?.rows ?? []
  reported.set(name, rows)
  return rows
}

const isOpen = ({ cells }: Row) => cells.outcome === 'not shown' || cells.outcome === 'cannot be checked'

/** What `check` says of a use and the report passes over, in words, and how many such problems there were at all. */
function passedOver(files: Files, asOf: number): { readonly missed: string[]; readonly looked: number } {
  const problems = runCheck(memorySource(files), { asOf, asOfIsToday: false }).problems.filter(
    (problem) => aboutUses.has(problem.rule) && standsOn(problem, asOf),
  )
  const rows = rowsOf(files, asOf).filter(isOpen)
  const missed: string[] = []
  let looked = 0
  for (const view of viewsOf(files, asOf)) {
    for (const treatment of view.treatments) {
      if (!isPesticide(treatment) || treatment.day < view.begins) continue
      const own = rows.filter(
        ({ cells, records }) =>
          records[0] === treatment.record.file &&
          cells.product === treatment.productId &&
          (!treatment.device || String(cells.devices).split(' ').includes(treatment.device.id)),
      )
      for (const problem of problems.filter((one) => one.site === view.id && isOf(one, treatment))) {
        looked++
        const what = `${problem.rule} of ${treatment.id}`
        const clauses = problem.sources.filter(({ kind }) => kind !== 'program').map(({ text }) => text)
        for (const clause of clauses)
          if (!own.some(({ cells }) => cells.clause === clause)) missed.push(`${what}: ${clause}`)
        if (own.length === 0) missed.push(`${what}: no row`)
        if (besideTheDuties.has(problem.rule)) continue
        if (own.some(({ cells }) => cells.section === 'beside the duties' && cells.name === problem.rule))
          missed.push(`${what}: only beside the duties`)
      }
    }
  }
  return { missed, looked }
}

describe('what check says of a use, the report says of it too', () => {
  const examples = allRules.flatMap(({ id, failing, passing }) =>
    [failing, passing].map((overlay, n) => ({ name: `${id} ${n === 0 ? 'failing' : 'passing'}`, overlay })),
  )
  const asOf = day('2026-03-20')

  let problems = 0

  it.each(examples)('$name', ({ overlay }) => {
    const { missed, looked } = passedOver(ledgerWith(overlay), asOf)
    problems += looked
    expect(missed).toEqual([])
  })

  it('the examples held many such problems', () => {
    expect(problems).toBeGreaterThan(40)
  })
})

describe('where check finds nothing, nothing is not shown', () => {
  it.each(allRules.map(({ id, passing }) => ({ id, passing })))('$id', ({ passing }) => {
    const rows = rowsOf(ledgerWith(passing), day('2026-03-20'))
    expect(rows.filter(({ cells }) => cells.outcome === 'not shown').map(({ cells }) => cells)).toEqual([])
  })

  it.each(baseLedgers)('generated from seed $seed', (options) => {
    const { files, lastDay } = cleanLedger(options)
    const rows = rowsOf(files, lastDay)
    expect(rows.length).toBeGreaterThan(20)
    expect(rows.filter(({ cells }) => cells.outcome === 'not shown').map(({ cells }) => cells)).toEqual([])
    expect(passedOver(files, lastDay).missed).toEqual([])
  })
})

describe('no duty in force is passed over', () => {
  const shipped = (name: string): Map<string, string> => {
    const root = new URL(`../../examples/${name}`, import.meta.url).pathname
    const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((path) =>
      statSync(join(root, path)).isFile(),
    )
    return new Map(files.map((path) => [path, readFileSync(join(root, path), 'utf8')]))
  }
  const ledgers: [string, Files, number][] = [
    ['district', shipped('district'), day('2026-06-30')],
    [
      'generated',
      cleanLedger({ sites: 2, years: 1, seed: 13, until: '2026-03-20' }).files,
      day('2026-03-20'),
    ],
  ]

  it.each(ledgers)('every use of %s has a row for each of them', (_, files, asOf) => {
    const rows = rowsOf(files, asOf)
    const told = new Set(
      rows.flatMap(({ cells, records }) =>
        (cells.devices === null ? [''] : String(cells.devices).split(' ')).map((device) =>
          [records[0], cells.product, device, cells.section, cells.rulebook, cells.name, cells.clause].join(
            '|',
          ),
        ),
      ),
    )
    let looked = 0
    for (const view of viewsOf(files, asOf))
      for (const treatment of view.treatments) {
        if (!isPesticide(treatment) || treatment.day < view.begins) continue
        for (const section of sectionsOfUses)
          for (const { rulebook, name, citation } of view.district.rulebooks.duties(section, treatment.day)) {
            looked++
            const { record, productId, device } = treatment
            expect(told).toContain(
              [record.file, productId, device?.id ?? '', section, rulebook, name, citation.text].join('|'),
            )
          }
      }
    expect(looked).toBeGreaterThan(50)
  })

  it.each(ledgers)(
    'and every clause of %s is listed, also those of years, people and papers',
    (_, files, asOf) => {
      const report = complianceReport(memorySource(files), {
        asOf,
        asOfIsToday: false,
        from: asOf - 364,
      })
      const listed = report.tables.find(({ id }) => id === 'by-clause')?.rows.map(({ cells }) => cells) ?? []
      const [view] = viewsOf(files, asOf)
      for (const section of dutySections)
        for (const { rulebook, name, citation } of view?.district.rulebooks.duties(section, asOf) ?? [])
          expect(listed).toContainEqual(
            expect.objectContaining({ section, rulebook, name, clause: citation.text }),
          )
      expect(listed.length).toBeGreaterThan(10)
    },
  )

  it('passes over none of what check says of the shipped district', () => {
    const { missed, looked } = passedOver(shipped('district'), day('2026-06-30'))
    expect(missed).toEqual([])
    expect(looked, isoOf(day('2026-06-30'))).toBeGreaterThan(0)
  })
})
