import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { reportJson } from '../../src/output/report-json.js'
import { reportText } from '../../src/output/report-text.js'
import { hotspotsReport } from '../../src/reports/hotspots.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { notFinite } from '../measure/not-finite.js'
import { grid, readingsOf, setOf } from './hotspots-grid.js'

const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})
const rowsOf = (report: Report, table: string): readonly Row[] =>
  report.tables.find(({ id }) => id === table)?.rows ?? []
const same = (rows: readonly Row[]) => rows.map((row) => JSON.stringify(row))

/** Every number that any format prints is one, and the report says something. */
function expectSound(report: Report) {
  expect(notFinite(report)).toEqual([])
  const texts = [
    reportJson(report),
    reportCsv(report, 'scans'),
    reportText(report, { paint: plainPainter, showWork: true }),
  ]
  for (const text of texts) expect(text).not.toMatch(/NaN|Infinity|undefined/)
  expect(report.headline).toMatch(/\.$/)
}

const roach = 'german-cockroach'
const corner = new Set([1, 2, 6, 7])

/** Two sites, two pests each: a corner of roaches in one, ants on one board in the other, the rest alike. */
function twoSites(): Map<string, string> {
  const files = oakFiles({})
  for (const site of ['oak', 'elm']) {
    files.set(
      `sites/${site}/site.yaml`,
      `name: ${site}\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}, store: {kind: storage}}\n`,
    )
    const set = [
      ...grid({ area: (at) => (corner.has(at) ? 'kitchen' : 'store') }),
      ...grid({ area: () => 'store', name: 'A', pest: 'ant' }),
    ]
    const head = 'purpose: follow-up\nby: okafor\n'
    files.set(`sites/${site}/visits/2026-03-01-okafor.yaml`, `${head}${setOf(set)}\n`)
    for (const [date, more] of [
      ['2026-03-31', 0],
      ['2026-04-30', 1],
    ] as const) {
      const roaches = readingsOf(20, (at) => (site === 'oak' && corner.has(at) ? 9 : 1) + ((at * at) % 3))
      const ants = readingsOf(20, (at) => (site === 'elm' && at === 5 ? 60 : 1 + ((at * at) % 3)), {
        name: 'A',
        pest: 'ant',
      })
      files.set(
        `sites/${site}/visits/${date}-okafor.yaml`,
        `${head}${roaches.replace(/\}$/, '')}, ${ants.replace(/^readings: \{/, '')}\nconditions: {gap-${more}: {new: gap, area: kitchen, gives: entry}}\n`,
      )
    }
  }
  return files
}

describe('the whole ledger', () => {
  const files = twoSites()
  const all = hotspotsReport(memorySource(files), options())

  it('holds the false discovery rate over every scan and every device', () => {
    expect(rowsOf(all, 'scans')).toHaveLength(4)
    expect(all.cautions[0]).toContain('over all 4 scans')
    expect(all.cautions[0]).toContain('over all 80 devices compared')
    expect(rowsOf(all, 'places').map(({ cells }) => [cells.site, cells.pest])).toEqual([
      ['oak', 'German cockroach'],
    ])
    const [place] = rowsOf(all, 'places')
    // The smallest of four: Benjamini & Hochberg's factor is 4, or less if others are as small.
    const ps = rowsOf(all, 'scans').map(({ cells }) => Number(cells.p))
    expect(ps.filter((p) => p <= Number(place?.cells.p))).toHaveLength(1)
    expect(place?.cells['p-adjusted']).toBeCloseTo(4 * Number(place?.cells.p), 12)
    expect(rowsOf(all, 'devices').map(({ cells }) => [cells.site, cells.device])).toEqual([['elm', 'A5']])
    expectSound(all)
  })

  it.each([{ site: 'oak' }, { site: 'elm' }, { pest: roach }, { pest: 'ant', site: 'elm' }])(
    'the filter %j hides rows and changes none',
    (filter) => {
      const filtered = hotspotsReport(memorySource(files), options(filter))
      const names = { [roach]: 'German cockroach', ant: 'ant, kind not told' }
      const wanted = ({ cells }: Row) =>
        (!('site' in filter) || cells.site === filter.site) &&
        (!('pest' in filter) || cells.pest === names[filter.pest as keyof typeof names])
      for (const { id } of all.tables)
        expect(same(rowsOf(filtered, id))).toEqual(same(rowsOf(all, id).filter(wanted)))
      expect(filtered.cautions).toEqual(all.cautions)
      expectSound(filtered)
    },
  )

  it('is the same whatever the order of its files', () => {
    const turned = new Map([...files].reverse())
    expect(reportJson(hotspotsReport(memorySource(turned), options()))).toBe(reportJson(all))
  })

  it('another site does not change the p of a scan', () => {
    const without = new Map([...files].filter(([path]) => !path.startsWith('sites/elm/')))
    const alone = hotspotsReport(memorySource(without), options())
    const pOf = (report: Report) =>
      rowsOf(report, 'scans')
        .filter(({ cells }) => cells.site === 'oak')
        .map(({ cells }) => cells.p)
    expect(pOf(alone)).toEqual(pOf(all))
  })

  it('a site that cannot be read is told, and the rest stands', () => {
    const broken = new Map(files).set('sites/elm/visits/2026-05-01-okafor.yaml', 'purpose: [')
    const report = hotspotsReport(memorySource(broken), options())
    expect(report.incomplete).toBe(true)
    expect(report.notExamined.join()).toContain('sites/elm')
    expect(rowsOf(report, 'places')).toHaveLength(1)
    expectSound(report)
  })
})

describe('whatever stands in the ledger', () => {
  const board = (more = '') => setOf(grid({ devices: 6, area: () => 'kitchen' })) + more
  const nothing = 'No device or group of devices surely catches more than its neighbours.'
  const cases: [string, Record<string, string>, string, string | undefined][] = [
    [
      'no visit',
      {},
      'No trap that counts animals was read in this period, so nothing can be said.',
      undefined,
    ],
    [
      'devices that were never read',
      { '2026-03-01': board() },
      'No trap that counts animals was read in this period, so nothing can be said.',
      undefined,
    ],
    [
      'all zeros',
      { '2026-03-01': board(), '2026-03-31': 'readings: {none: [T1, T2, T3, T4, T5, T6]}' },
      'Nothing was caught in this period by the traps that were read, so no place stands out.',
      'nothing was caught',
    ],
    [
      'all unusable',
      {
        '2026-03-01': board(),
        '2026-03-31': `readings: {${[1, 2, 3, 4, 5, 6].map((at) => `T${at}: {unusable: wet}`).join(', ')}}`,
      },
      'No trap that counts animals was read in this period, so nothing can be said.',
      undefined,
    ],
    [
      'read on the day they were set, without a night',
      {
        '2026-03-01': board(),
        '2026-03-01-reyes': `purpose: follow-up\nby: reyes\n${readingsOf(6, () => 3)}`,
      },
      'Too few devices caught anything side by side to tell one place from another.',
      'no usable trap-night',
    ],
    [
      'one reading of one device',
      { '2026-03-01': board(), '2026-03-31': `readings: {T1: {${roach}: 4}}` },
      'Too few devices caught anything side by side to tell one place from another.',
      'fewer than five devices',
    ],
    [
      'two devices that caught anything',
      { '2026-03-01': board(), '2026-03-31': readingsOf(6, (at) => (at < 3 ? 2 : 0)) },
      'Too few devices caught anything side by side to tell one place from another.',
      'fewer than three devices caught anything',
    ],
    [
      'all at one position',
      {
        '2026-03-01': board().replace(/at: \[[^\]]*\]/g, 'at: [3, 3]'),
        '2026-03-31': readingsOf(6, (at) => at),
      },
      'Too few devices caught anything side by side to tell one place from another.',
      'all devices are recorded at one position',
    ],
    [
      'two visits on one day, and a device renewed the same day',
      {
        '2026-03-01': board(),
        '2026-03-31': readingsOf(6, (at) => at),
        '2026-03-31-reyes': `purpose: follow-up\nby: reyes\n${readingsOf(6, () => 1)}`,
      },
      nothing,
      'shuffled catches stand together as much',
    ],
    [
      'the last reading on the as-of day',
      { '2026-03-01': board(), '2026-12-31': readingsOf(6, (at) => at) },
      nothing,
      'shuffled catches stand together as much',
    ],
  ]

  it.each(cases)('%s', (_, visits, headline, why) => {
    const report = hotspotsReport(memorySource(oakFiles(visits)), options())
    expect(report.headline).toBe(headline)
    expect(rowsOf(report, 'scans')[0]?.cells.why).toBe(why)
    expect(report.incomplete).toBe(false)
    expectSound(report)
  })

  it('what was caught on a day without a night is counted with the nights that follow', () => {
    const visits = {
      '2026-03-01': board(),
      '2026-03-01-reyes': `purpose: follow-up\nby: reyes\n${readingsOf(6, (at) => at)}`,
      '2026-03-11': readingsOf(6, () => 1),
    }
    const [scan] = rowsOf(hotspotsReport(memorySource(oakFiles(visits)), options()), 'scans')
    // 1 + 2 + … + 6 = 21, and one each ten nights later.
    expect(scan?.cells).toMatchObject({ caught: 27, 'trap-nights': 60 })
  })

  it('a million caught by one device', () => {
    const visits = { '2026-03-01': board(), '2026-03-31': readingsOf(6, (at) => (at === 2 ? 1_000_000 : at)) }
    const report = hotspotsReport(memorySource(oakFiles(visits)), options())
    expect(rowsOf(report, 'scans')[0]?.cells.caught).toBe(1_000_019)
    expectSound(report)
  })

  it('an empty ledger is told as not examined', () => {
    const report = hotspotsReport(memorySource(new Map()), options())
    expect(report.incomplete).toBe(true)
    expect(report.notExamined).toContain('the whole ledger: district.yaml is missing or cannot be used.')
    expectSound(report)
  })

  it('a period that ends after the as-of day is told up to it', () => {
    const visits = { '2026-03-01': board(), '2026-03-31': readingsOf(6, (at) => at) }
    const late = options({ from: day('2026-01-01'), to: day('2027-06-30') })
    const report = hotspotsReport(memorySource(oakFiles(visits)), late)
    expect(report.period).toEqual({ from: '2026-01-01', to: '2026-12-31' })
    expect(report.cautions[0]).toContain('ends after the as-of day')
  })

  it('readings outside the period are left out', () => {
    const visits = {
      '2026-03-01': board(),
      '2026-03-31': readingsOf(6, () => 5),
      '2026-04-30': readingsOf(6, (at) => at),
    }
    const april = options({ from: day('2026-04-01'), to: day('2026-04-30') })
    const [scan] = rowsOf(hotspotsReport(memorySource(oakFiles(visits)), april), 'scans')
    expect(scan?.cells).toMatchObject({ caught: 21, 'trap-nights': 180 })
  })
})
