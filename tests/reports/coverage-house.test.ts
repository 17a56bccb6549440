import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { plainPainter } from '../../src/output/painter.js'
import { reportCsv } from '../../src/output/report-csv.js'
import { machineTables, reportJson } from '../../src/output/report-json.js'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { reportText } from '../../src/output/report-text.js'
import { coverageReport } from '../../src/reports/coverage.js'
import type { Report } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

import {
  board,
  cellsOf,
  clumpedElm,
  complaint,
  coverageOn,
  needsOf,
  options,
  plan,
  rowsOf,
} from './coverage-ledgers.js'
import { generatedLedger } from './generated-ledger.js'

/** Three sites with boards for two pests, and what people saw of a third, with plans of all kinds. */
function busyLedger(): Map<string, string> {
  const files = generatedLedger(7)
  files.set('plans/ant.yaml', plan('thresholds: {classroom: {act-at: 0.2, per: trap-week}}'))
  files.set('plans/german-cockroach.yaml', plan('thresholds: {elsewhere: {act-at: 0.01, per: trap-night}}'))
  files.set('plans/house-mouse.yaml', plan('act-on-one: [classroom]'))
  for (const site of ['ash', 'elm', 'oak'])
    files.set(`sites/${site}/complaints/2026-06-01-lind.yaml`, complaint('house-mouse', 'room-2'))
  files.set('sites/elm/complaints/2026-06-02-lind.yaml', complaint('silverfish', 'room-3'))
  files.set(
    'sites/elm/visits/2026-07-01-reyes.yaml',
    'purpose: routine\nby: reyes\ninspected: [room-1]\nset: {M1: {kind: glue-board, area: room-2}}\n',
  )
  files.set(
    'sites/elm/visits/2026-07-09-reyes.yaml',
    'purpose: follow-up\nby: reyes\nreadings: {none: [M1]}\n',
  )
  return files
}

const busy = coverageReport(memorySource(busyLedger()), options())
/** Tables with one row for each place or need; those that count over what is shown follow the filter. */
const byPlace = ['needs', 'seen-none-caught', 'chance-to-notice', 'none-caught']

describe('filters only hide', () => {
  it('and there is something to hide', () => {
    for (const table of byPlace) expect(rowsOf(busy, table).length).toBeGreaterThan(0)
  })

  it.each(['ash', 'elm', 'oak'])('site %s', (site) => {
    const filtered = coverageReport(memorySource(busyLedger()), options({ site }))
    for (const table of byPlace)
      expect(rowsOf(filtered, table)).toEqual(rowsOf(busy, table).filter(({ cells }) => cells.site === site))
    expect(rowsOf(filtered, 'by-site')).toEqual(
      rowsOf(busy, 'by-site').filter(({ cells }) => cells.site === site),
    )
    expect(filtered.cautions).toEqual(busy.cautions)
  })

  it.each([
    ['ant', 'ant, kind not told'],
    ['german-cockroach', 'German cockroach'],
    ['house-mouse', 'house mouse'],
  ])('pest %s', (pest, name) => {
    const filtered = coverageReport(memorySource(busyLedger()), options({ pest }))
    for (const table of byPlace)
      expect(rowsOf(filtered, table)).toEqual(rowsOf(busy, table).filter(({ cells }) => cells.pest === name))
    // Areas are of no one pest.
    expect(cellsOf(filtered, 'by-site', 'site', 'areas')).toEqual(cellsOf(busy, 'by-site', 'site', 'areas'))
  })
})

it('the order of files changes no byte', () => {
  const turned = new Map([...busyLedger()].reverse())
  expect(reportJson(coverageReport(memorySource(turned), options()))).toBe(reportJson(busy))
})

it('every row but a total names the files behind it', () => {
  for (const { rows } of busy.tables)
    for (const { cells, records } of rows) {
      if (cells.site === 'all sites') continue
      expect(records.length).toBeGreaterThan(0)
      for (const file of records) expect(busyLedger().has(file)).toBe(true)
    }
})

describe('what many sites lack alike', () => {
  const sites = ['a', 'b', 'c', 'd'].flatMap((site): [string, string][] => [
    [
      `sites/${site}/site.yaml`,
      'name: School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}}\n',
    ],
  ])
  const others = {
    ...Object.fromEntries(sites),
    'plans/german-cockroach.yaml': plan('act-on-one: [kitchen]'),
  }

  it('is one row for people and a row for each site for machines', () => {
    const report = coverageOn({ '2026-01-01': `set: {K1: ${board('kitchen')}}` }, others)
    expect(cellsOf(report, 'needs-shown', 'site', 'area', 'to-add')).toEqual([
      ['4 sites', '4 of 4: kitchen', 4],
    ])
    expect(cellsOf(report, 'needs', 'site', 'area', 'to-add')).toEqual(
      ['a', 'b', 'c', 'd'].map((site) => [site, 'kitchen', 1]),
    )
    expect(machineTables(report).map(({ id }) => id)).not.toContain('needs-shown')
  })
})

describe('bad input', () => {
  const mouse = { 'sites/oak/complaints/2026-12-31-lind.yaml': complaint('house-mouse', 'store') }
  const everyPlan = {
    'plans/german-cockroach.yaml': plan('thresholds: {elsewhere: {act-at: 1, per: trap-week}}'),
    'plans/house-mouse.yaml': plan('act-on-one: [everywhere]'),
  }
  const set = { '2026-03-01': `set: {K1: ${board('kitchen')}}` }

  function isSound(report: Report): void {
    for (const text of [
      reportJson(report),
      reportText(report, { paint: plainPainter, showWork: true }),
      reportMarkdown(report, { showWork: true }),
      ...machineTables(report).map(({ id }) => reportCsv(report, id)),
    ])
      expect(text).not.toMatch(/\bNaN\b|Infinity|\bundefined\b/)
    expect(report.headline).toMatch(/^[A-Z].*\.$/)
  }

  it('an empty ledger, and one without a district', () => {
    for (const files of [new Map<string, string>(), new Map([['sites/oak/site.yaml', 'name: Oak']])]) {
      const report = coverageReport(memorySource(files), options())
      isSound(report)
      expect(report.incomplete).toBe(true)
      expect(report.headline).toBe('No area that is open could be looked at, so nothing can be said.')
    }
  })

  it('no visit and no plan', () => {
    const report = coverageOn({})
    isSound(report)
    expect(needsOf(report)).toEqual([])
    expect(report.headline).toBe(
      'No pest was seen or complained of that a device could show, and without a plan in force no more can be told.',
    )
    expect(report.notExamined).toContain(
      'No plan is in force, so only complaints, sightings and inspections could be looked at.',
    )
  })

  it('a plan that begins after the as-of day, or has ended', () => {
    for (const dates of ['from: 2027-01-01', 'from: 2026-01-01, until: 2026-06-30']) {
      const others = {
        'plans/german-cockroach.yaml': `spans: [{${dates}, act-on-one: [kitchen], tactics: {a: {do: b}}}]`,
      }
      expect(needsOf(coverageOn({}, others))).toEqual([])
    }
  })

  it.each([
    ['one reading', { ...set, '2026-03-15': 'readings: {K1: {german-cockroach: 1}}' }, 14, 1],
    ['none read', set, 30, 1],
    ['a reading on the day it was set', { ...set, '2026-03-01-reyes': 'readings: {none: [K1]}' }, 30, 1],
    ['no access', { ...set, '2026-03-15': 'readings: {K1: {no-access: locked}}' }, 30, 1],
    ['always lost', { ...set, '2026-03-15': 'readings: {K1: {unusable: missing}}' }, 14, 0],
    [
      'renewed twice on a day',
      {
        ...set,
        '2026-03-15': 'readings: {K1: {german-cockroach: 2, renewed: yes}}',
        '2026-03-15-reyes': 'readings: {K1: {german-cockroach: 1, renewed: yes}}',
      },
      14,
      1,
    ],
    ['counts of a million', { ...set, '2026-03-15': 'readings: {K1: {german-cockroach: 1000000}}' }, 14, 1],
    ['a reading on the last day', { ...set, '2026-12-31': 'readings: {none: [K1]}' }, 305, 1],
  ])('%s', (_, visits, nights, traps) => {
    const report = coverageOn(visits, { ...mouse, ...everyPlan })
    isSound(report)
    // Before it was read, a month between routine visits by the contract.
    expect(cellsOf(report, 'chance-to-notice', 'nights', 'traps')).toEqual([[nights, traps]])
    // Seen on the very last day.
    expect(needsOf(report)[0]).toEqual(['oak', 'store', 'house mouse', 'seen, no device for it', 1])
  })

  it.each([
    ['a threshold of a thousand million', '1000000000', ['over 99 %', 0]],
    ['a threshold of next to nothing', '0.000001', ['under 1 %', null]],
  ])('%s', (_, actAt, expected) => {
    const report = coverageOn(
      { ...set, '2026-03-15': 'readings: {none: [K1]}' },
      { 'plans/german-cockroach.yaml': plan(`thresholds: {elsewhere: {act-at: ${actAt}, per: trap-week}}`) },
    )
    isSound(report)
    expect(cellsOf(report, 'chance-to-notice', 'chance-shown', 'to-add')).toEqual([expected])
  })

  it('traps that were not read, where nothing says how often they should be', () => {
    const site =
      'name: Oak\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {kitchen: {kind: kitchen}}\n'
    const report = coverageOn(set, { ...everyPlan, 'sites/oak/site.yaml': site })
    isSound(report)
    const [row] = cellsOf(report, 'chance-to-notice', 'chance-shown', 'chance', 'why')
    expect(row?.slice(0, 2)).toEqual(['cannot tell', undefined])
    expect(row?.[2]).toContain('nothing says how often they should be')
  })

  it('clumping so strong that no number of traps would do', () => {
    // Six boards with 0, 0 and 90: mean 30, χ² = (30² + 30² + 60²)/30 = 180, c = (180 − 2)/60 = 2.97 each.
    const files = Object.fromEntries(
      Object.entries(clumpedElm()).map(([path, text]) => [
        path,
        text.replaceAll('roach: 1,', 'roach: 0,').replaceAll('roach: 7,', 'roach: 90,'),
      ]),
    )
    const report = coverageOn(
      { ...set, '2026-03-15': 'readings: {none: [K1]}' },
      {
        ...files,
        'plans/german-cockroach.yaml': plan('thresholds: {kitchen: {act-at: 0.5, per: trap-week}}'),
      },
    )
    isSound(report)
    const [row] = rowsOf(report, 'chance-to-notice')
    expect(row?.cells.clumping).toBeCloseTo(178 / 60, 10)
    expect(row?.cells['to-add']).toBeNull()
    expect(row?.cells['more-shown']).toBe('over 20')
    expect(cellsOf(report, 'by-site', 'site', 'to-add', 'cannot-tell')[1]).toEqual(['oak', 0, 1])
  })

  it('a site that cannot be read is told, and the rest is looked at', () => {
    const files = oakFiles(
      { '2026-05-01': 'readings: {K1: {german-cockroach: many}}' },
      { ...clumpedElm(), ...everyPlan },
    )
    const report = coverageReport(memorySource(files), options())
    isSound(report)
    expect(report.incomplete).toBe(true)
    expect(report.notExamined[0]).toContain('sites/oak')
    expect(cellsOf(report, 'by-site', 'site')).toEqual([['elm']])
  })

  it('a period that ends after the as-of day is cut, and said so', () => {
    const report = coverageOn(set, everyPlan, { asOf: day('2026-06-30'), to: day('2026-12-31') })
    expect(report.period).toEqual({ from: '2025-07-01', to: '2026-06-30' })
    expect(report.cautions.at(-1)).toContain('ends after the as-of day')
  })

  it('a complaint in an area that the site does not have is held against the whole site', () => {
    const report = coverageOn(set, {
      'sites/oak/complaints/2026-06-01-lind.yaml': complaint('house-mouse', 'attic'),
    })
    isSound(report)
    expect(needsOf(report)).toEqual([['oak', '(area not told)', 'house mouse', 'seen, no device for it', 1]])
  })
})
