import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { locateProblems } from '../../src/check/locate-problems.js'
import type { CheckResult } from '../../src/check/run-check.js'
import { runCheck, standsOn } from '../../src/check/run-check.js'
import { readRecord } from '../../src/files/read-record.js'
import type { Source } from '../../src/files/source.js'
import { workTree } from '../../src/files/work-tree.js'
import type { DeviceHistory } from '../../src/ledger/device-history.js'
import { readLedger } from '../../src/ledger/read-ledger.js'
import type { SiteView } from '../../src/ledger/site-view.js'
import { dayOf } from '../../src/measure/calendar.js'
import { trendOf } from '../../src/measure/count-trend.js'
import type { Verdict } from '../../src/measure/verdict.js'
import { verdictOf } from '../../src/measure/verdict.js'
import type { RecordOf } from '../../src/records/kinds.js'
import { allRecordKinds, recordKinds } from '../../src/records/kinds.js'
import type { RecordPath } from '../../src/records/paths.js'
import { recordPathOf } from '../../src/records/paths.js'
import { deviceTable } from '../../src/records/tables.js'
import { productKinds } from '../../src/records/use-words.js'
import { purposes } from '../../src/records/visit.js'
import { expectedProblems } from '../rules/marked-problems.js'

const folder = new URL('../../examples/', import.meta.url)
const rootOf = (name: string) => new URL(`${name}/`, folder).pathname
const day = (text: string) => dayOf(text) ?? 0

/** Every record of an example, as text. */
function recordsOf(name: string): Map<string, string> {
  const root = rootOf(name)
  const paths = readdirSync(root, { recursive: true, encoding: 'utf8' })
  return new Map(
    paths
      .filter((path) => path.endsWith('.yaml'))
      .map((path) => [path.replaceAll('\\', '/'), readFileSync(root + path, 'utf8')]),
  )
}

interface Checked {
  readonly source: Source
  readonly result: CheckResult
  readonly views: ReadonlyMap<string, SiteView>
}

function check(name: string, asOf: string): Checked {
  const source = workTree(rootOf(name))
  const views = new Map<string, SiteView>()
  const options = { asOf: day(asOf), asOfIsToday: false }
  readLedger(source, options, (view) => views.set(view.id, view))
  return { source, result: runCheck(source, options), views }
}

/** What stands on the day, as `file:line rule`. */
function standing({ source, result }: Checked, asOf: string): string[] {
  const problems = result.problems.filter((problem) => standsOn(problem, day(asOf)))
  return locateProblems(problems, source)
    .map(({ problem, location }) => `${problem.at.file}:${location?.line ?? 1} ${problem.rule}`)
    .sort()
}

const clean = check('clean', '2026-01-31')
const district = check('district', '2026-06-30')
const districtRecords = recordsOf('district')

describe('examples/clean', () => {
  it('is one school with eight visits and no problem on 2026-01-31', () => {
    expect(standing(clean, '2026-01-31')).toEqual([])
    expect(clean.result.excepted).toEqual([])
    expect(clean.result.notChecked).toEqual([])
    expect([...clean.views.values()].map((view) => view.visits.length)).toEqual([8])
  })
})

describe('examples/district', () => {
  it('has exactly the marked problems on 2026-06-30, and all of it is checked', () => {
    const expected = expectedProblems(districtRecords)
    expect(expected.length).toBeGreaterThanOrEqual(12)
    expect(expected.length).toBeLessThanOrEqual(16)
    expect(standing(district, '2026-06-30')).toEqual(expected)
    expect(district.result.notChecked).toEqual([])
  })

  it('has one more problem that an exception in force covers', () => {
    const excepted = district.result.excepted.filter(({ problem }) => standsOn(problem, day('2026-06-30')))
    expect(excepted.map(({ problem, exception }) => [problem.rule, exception])).toEqual([
      ['no-entry-running', 'exceptions/ottermere-boiler-room.yaml'],
    ])
  })

  it('lists in the README exactly the marked problems', () => {
    const readme = readFileSync(new URL('README.md', folder), 'utf8')
    const rows = [...readme.matchAll(/^\| `([^`]+\.yaml)` \| `([a-z-]+)` \| .+ \|$/gm)]
    const listed = rows.map((row) => `${row[1]} ${row[2]}`).sort()
    const marked = expectedProblems(districtRecords).map((mark) => mark.replace(/:\d+ /, ' '))
    expect(listed).toEqual(marked.sort())
  })

  it('shows every kind of record, device, product, visit and state of an application', () => {
    const seen = kindsIn(districtRecords)
    expect(seen.records).toEqual(new Set(allRecordKinds))
    expect(seen.devices).toEqual(new Set(Object.keys(deviceTable())))
    expect(seen.products).toEqual(new Set(productKinds))
    expect(seen.purposes).toEqual(new Set(purposes))
    expect(seen.applications).toEqual(new Set(['done', 'planned', 'cancelled']))
    expect(seen.notices).toEqual(new Set(['sent', 'posted']))
  })

  it('has at least eight devices a school, each read at least eight times', () => {
    expect(district.views.size).toBe(3)
    for (const view of district.views.values()) {
      const longRead = view.devices.filter((device) => device.checks.length >= 8)
      expect(longRead.length, view.id).toBeGreaterThanOrEqual(8)
    }
  })
})

describe('every record of the examples', () => {
  it.each(['clean', 'district'])('has the shape of its kind in %s', (name) => {
    for (const [file, text] of recordsOf(name)) {
      const path = recordPathOf(file)
      expect(path, file).toHaveProperty('kind')
      const read = readRecord(Buffer.from(text))
      if (!('data' in read)) throw new Error(`${file} cannot be read`)
      const shaped = recordKinds[(path as RecordPath).kind].schema.safeParse(read.data)
      expect(shaped.success, file).toBe(!text.includes('# expect: unknown-key'))
    }
  })
})

describe('the stories of examples/district', () => {
  it('cockroaches in the kitchen at Ottermere rise until the gel of January 2026 and fade after it', () => {
    const kitchen = devicesIn('ottermere', 'kitchen')
    expect(verdict(kitchen, 'german-cockroach', '2025-08-12', '2026-01-06')).toBe('rising')
    expect(verdict(kitchen, 'german-cockroach', '2025-12-09', '2026-06-30')).toBe('falling')
    expect(caughtOf(kitchen, 'german-cockroach', '2025-11-04', '2025-12-02')).toBe(8)
    expect(caughtOf(kitchen, 'german-cockroach', '2026-04-07', '2026-06-30')).toBe(0)
  })

  it('ants at Ottermere are steady over two years', () => {
    const boards = (district.views.get('ottermere')?.devices ?? []).filter((device) =>
      device.for.includes('odorous-house-ant'),
    )
    expect(verdict(boards, 'odorous-house-ant', '2024-08-27', '2026-06-30')).toBe('steady')
  })

  it('mice come to the dock at Tamsin Hill until the door sweep of March 2025, but for one that was inside', () => {
    const dock = devicesIn('tamsin-hill', 'dock')
    expect(caughtOf(dock, 'house-mouse', '2024-11-07', '2025-03-12')).toBe(25)
    expect(caughtOf(dock, 'house-mouse', '2025-03-12', '2025-03-28')).toBe(1)
    expect(caughtOf(dock, 'house-mouse', '2025-03-28', '2025-05-08')).toBe(0)
    expect(dock.every((device) => device.takenUp !== undefined)).toBe(true)
  })

  it('fungus gnats in the library at Quarry Road fade once the plants were treated away from the building', () => {
    const library = devicesIn('quarry-road', 'library')
    expect(caughtOf(library, 'fungus-gnat', '2025-08-26', '2025-12-10')).toBe(23)
    expect(caughtOf(library, 'fungus-gnat', '2026-01-14', '2026-06-30')).toBe(2)
  })
})

function kindsIn(records: ReadonlyMap<string, string>) {
  const seen = {
    records: new Set<string>(),
    devices: new Set<string>(),
    products: new Set<string>(),
    purposes: new Set<string>(),
    applications: new Set<string>(),
    notices: new Set<string>(),
  }
  for (const [file, text] of records) {
    const { kind } = recordPathOf(file) as RecordPath
    const read = readRecord(Buffer.from(text))
    const data = 'data' in read ? read.data : undefined
    seen.records.add(kind)
    if (kind === 'product') seen.products.add((data as RecordOf<'product'>).kind)
    if (kind === 'application') seen.applications.add((data as RecordOf<'application'>).status)
    if (kind === 'notice') {
      const notice = data as RecordOf<'notice'>
      if (notice.sent) seen.notices.add('sent')
      if (notice.posted) seen.notices.add('posted')
    }
    if (kind === 'visit') {
      const visit = data as RecordOf<'visit'>
      seen.purposes.add(visit.purpose)
      for (const device of Object.values(visit.set ?? {})) seen.devices.add(device.kind)
    }
  }
  return seen
}

function devicesIn(site: string, area: string): DeviceHistory[] {
  return (district.views.get(site)?.devices ?? []).filter((device) => device.setFacts.area === area)
}

/** Checks of some devices after `after` and up to `upTo`: day, catch and trap-nights. */
function observations(devices: readonly DeviceHistory[], pest: string, after: string, upTo: string) {
  return devices.flatMap((device) =>
    device.checks
      .filter((check) => check.moment.day > day(after) && check.moment.day <= day(upTo))
      .flatMap((check) => {
        const count = check.caught.get(pest)
        return count === undefined ? [] : [{ day: check.moment.day, count, exposure: check.trapNights }]
      }),
  )
}

function caughtOf(devices: readonly DeviceHistory[], pest: string, after: string, upTo: string): number {
  return observations(devices, pest, after, upTo).reduce((sum, { count }) => sum + count, 0)
}

/** The verdict on one series alone, so that its p is not adjusted for others. */
function verdict(
  devices: readonly DeviceHistory[],
  pest: string,
  after: string,
  upTo: string,
): Verdict | undefined {
  const trend = trendOf(observations(devices, pest, after, upTo))
  if (!trend.estimable) return undefined
  return verdictOf(trend, trend.p, trend.degreesOfFreedom + 2).verdict
}
