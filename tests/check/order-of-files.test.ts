import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { locateExceptions, locateProblems } from '../../src/check/locate-problems.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import type { Entry, Source } from '../../src/files/source.js'
import { problemsJson } from '../../src/output/problems-json.js'
import { reportJson } from '../../src/output/report-json.js'
import { gapsReport } from '../../src/reports/gaps.js'
import { thresholdsReport } from '../../src/reports/thresholds.js'
import { trendReport } from '../../src/reports/trend.js'
import { day } from '../ledger/small-site.js'
import { generatedLedger } from '../reports/generated-ledger.js'

/** The same files, listed in another order. */
function listedAs(files: ReadonlyMap<string, string>, order: (entries: Entry[]) => Entry[]): Source {
  const source = memorySource(files)
  return { ...source, list: () => order([...source.list()]) }
}

/** A fixed shuffle: by a mix of the letters of the path. */
const mixOf = (path: string, seed: number) =>
  [...path].reduce((mix, letter) => (mix * 31 + letter.charCodeAt(0)) % 1_000_003, seed)
const orders: ((entries: Entry[]) => Entry[])[] = [
  (entries) => entries.reverse(),
  (entries) => entries.sort((a, b) => mixOf(a.path, 7) - mixOf(b.path, 7)),
  (entries) => entries.sort((a, b) => mixOf(a.path, 99) - mixOf(b.path, 99)),
]

const asOf = day('2026-06-30')
const options = { asOf, asOfIsToday: false }

function everythingOf(source: Source): string {
  const result = runCheck(source, options)
  const page = {
    asOf: '2026-06-30',
    source: 'memory',
    problems: locateProblems(
      result.problems.filter((problem) => standsOn(problem, asOf)),
      source,
    ),
    excepted: locateExceptions(result.excepted, source),
    notChecked: result.notChecked,
    records: result.records,
    sites: result.sites,
    later: result.later,
    hidden: 0,
  }
  const reports = [gapsReport, trendReport, thresholdsReport].map((make) => reportJson(make(source, options)))
  return [problemsJson(page), ...reports].join('')
}

/** The example district, which has problems of many kinds, two exceptions for one thing, and two records that cannot be read. */
function exampleDistrict(): Map<string, string> {
  const root = new URL('../../examples/district/', import.meta.url).pathname
  const files = new Map<string, string>()
  for (const entry of readdirSync(root, { recursive: true, withFileTypes: true }))
    if (entry.isFile()) {
      const path = join(entry.parentPath, entry.name)
      files.set(path.slice(root.length), readFileSync(path, 'utf8'))
    }
  const exception = files.get('exceptions/ottermere-boiler-room.yaml') ?? ''
  files.set('exceptions/the-same-again.yaml', exception)
  files.set('people/broken.yaml', 'name: [')
  files.set('people/also-broken.yaml', 'name: 3\n')
  return files
}

it.each([
  ['the example district', exampleDistrict()],
  ['a generated ledger', generatedLedger(3)],
])(
  '%s: problems, gaps, trends and thresholds do not depend on the order in which files are listed',
  (_, files) => {
    const sorted = everythingOf(memorySource(files))
    expect(sorted.length).toBeGreaterThan(5000)
    for (const order of orders) expect(everythingOf(listedAs(files, order))).toBe(sorted)
  },
)
