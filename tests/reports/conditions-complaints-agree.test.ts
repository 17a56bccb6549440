import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { complaintsReport } from '../../src/reports/complaints.js'
import { conditionsReport } from '../../src/reports/conditions.js'
import type { Report } from '../../src/types.js'
import { day } from '../ledger/small-site.js'

function filesOf(folder: string, under = ''): [string, string][] {
  return readdirSync(join(folder, under)).flatMap((name): [string, string][] => {
    const path = under === '' ? name : `${under}/${name}`
    const whole = join(folder, path)
    if (statSync(whole).isDirectory()) return filesOf(folder, path)
    return [[path, readFileSync(whole, 'utf8')]]
  })
}

const example = new Map(filesOf(new URL('../../examples/district', import.meta.url).pathname))
/** A complaint of the example that no visit answered, so that there is one to find. */
const unanswered = 'sites/ottermere/complaints/2026-02-09-quill.yaml'
const files = new Map([
  ...example,
  [unanswered, 'by: quill\nfrom: staff\narea: kitchen\npest: house-mouse\nsays: droppings under the sink\n'],
])

const overdueIn = (report: Report) =>
  (report.tables.find(({ id }) => id === 'open')?.rows ?? []).filter(
    ({ cells }) => Number(cells['overdue-days']) > 0,
  ).length

describe('what is overdue', () => {
  it.each([
    '2025-01-10',
    '2025-02-20',
    '2025-12-12',
    '2026-02-14',
    '2026-02-20',
    '2026-05-15',
    '2026-05-16',
    '2026-06-30',
  ])('is what the rules find on %s', (date) => {
    const options = { asOf: day(date), asOfIsToday: false }
    const source = memorySource(files)
    const checked = runCheck(source, options)
    const standing = (rule: string) =>
      [...checked.problems, ...checked.excepted.map(({ problem }) => problem)].filter(
        (problem) => problem.rule === rule && standsOn(problem, options.asOf),
      ).length
    expect(overdueIn(conditionsReport(source, options))).toBe(standing('condition-overdue'))
    expect(overdueIn(complaintsReport(source, options))).toBe(standing('complaint-not-answered'))
  })

  it('is found at all, or the agreement would say nothing', () => {
    const on = (date: string) => ({ asOf: day(date), asOfIsToday: false })
    expect(overdueIn(complaintsReport(memorySource(files), on('2026-02-20')))).toBe(1)
    // The fly screen of Ottermere was to be mended by 15 May.
    expect(overdueIn(conditionsReport(memorySource(files), on('2026-05-16')))).toBe(1)
  })
})
