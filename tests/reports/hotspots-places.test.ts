import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { hotspotsReport } from '../../src/reports/hotspots.js'
import type { ReportOptions } from '../../src/reports/options.js'
import type { Report } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { grid, readingsOf, setOf } from './hotspots-grid.js'

const options = (more: Partial<ReportOptions> = {}): ReportOptions => ({
  asOf: day('2026-12-31'),
  asOfIsToday: false,
  ...more,
})
const reportOn = (visits: Readonly<Record<string, string>>, others: Readonly<Record<string, string>> = {}) =>
  hotspotsReport(memorySource(oakFiles(visits, others)), options())
const cellsOf = (report: Report, table: string) =>
  (report.tables.find(({ id }) => id === table)?.rows ?? []).map(({ cells }) => cells)

const site = (areas: string) => ({
  'sites/oak/site.yaml': `name: Oak School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: office\ncontract: []\nareas: {${areas}}\n`,
})

describe('only what can be held against each other is', () => {
  it('kinds of device are kept apart: a light trap is no source among sticky traps', () => {
    const boards = grid({ devices: 6, area: () => 'kitchen', pest: 'house-fly' })
    const light = 'L1: {kind: light-trap, area: kitchen, for: [house-fly], at: [5, 5]}'
    const report = reportOn({
      '2026-03-01': setOf([...boards, light]),
      '2026-03-31': readingsOf(6, (at) => at, { pest: 'house-fly' }).replace(
        /\}$/,
        ', L1: {house-fly: 300, renewed: yes}}',
      ),
    })
    expect(
      cellsOf(report, 'scans').map(({ kind, devices, caught, why }) => [kind, devices, caught, why]),
    ).toEqual([
      ['light trap', 1, 300, 'fewer than five devices'],
      ['sticky trap', 6, 21, expect.stringContaining('shuffled')],
    ])
    expect(cellsOf(report, 'devices')).toEqual([])
  })

  it('floors are kept apart, and the grounds; the ground floor is meant where none is said', () => {
    const areas =
      'kitchen: {kind: kitchen}, hall: {kind: dining, floor: 1}, attic: {kind: storage, floor: 3}, cellar: {kind: storage, floor: 0}, yard: {kind: playground, floor: 1}, dock: {kind: loading-dock}'
    const names = ['kitchen', 'hall', 'attic', 'cellar', 'yard', 'dock']
    const report = reportOn(
      {
        '2026-03-01': setOf(grid({ devices: 6, area: (at) => names[at - 1] ?? 'kitchen' })),
        '2026-03-31': readingsOf(6, () => 2),
      },
      site(areas),
    )
    // Kitchen, hall and dock: three devices; one each elsewhere.
    expect(cellsOf(report, 'scans').map(({ floor, devices }) => [floor, devices])).toEqual([
      ['0', 1],
      ['1', 3],
      ['3', 1],
      ['outdoors', 1],
    ])
  })

  it('pests that a device is not for are no zero and no catch', () => {
    const report = reportOn({
      '2026-03-01': setOf(grid({ devices: 5, area: () => 'kitchen' })),
      '2026-03-31': readingsOf(5, () => 1).replace('T1: {', 'T1: {silverfish: 9, '),
    })
    expect(cellsOf(report, 'scans').map(({ pest, caught }) => [pest, caught])).toEqual([
      ['German cockroach', 5],
    ])
  })
})

describe('a device that was moved', () => {
  const others = grid({ devices: 4, area: () => 'kitchen' })
  const mover = 'M: {kind: sticky-trap, area: kitchen, for: [german-cockroach], at: [40, 0]}'
  const readAll = (moverCount: number, more = '') =>
    `${readingsOf(4, () => 1).replace(/\}$/, `, M: {german-cockroach: ${moverCount}, renewed: yes}}`)}${more}`
  const counted = (report: Report) =>
    cellsOf(report, 'scans').map((cells) => [cells.devices, cells.caught, cells['trap-nights']])

  it('counts as two places, each with what it caught there, when it is moved on the day it is read', () => {
    const report = reportOn({
      '2026-03-01': setOf([...others, mover]),
      '2026-03-11': readAll(7, '\nmoved: {M: {area: store, at: [90, 0]}}'),
      '2026-03-31': readAll(0),
    })
    // Four for 30 nights, and 10 and 20 nights of the one that was moved; 8 + 7 + 0 caught.
    expect(counted(report)).toEqual([[6, 15, 150]])
    expect(report.notExamined.join()).not.toContain('had been moved')
  })

  it('counts once for a place to which it came back', () => {
    const report = reportOn({
      '2026-03-01': setOf([...others, mover]),
      '2026-03-11': readAll(7, '\nmoved: {M: {area: store, at: [90, 0]}}'),
      '2026-03-21': readAll(0, '\nmoved: {M: {area: kitchen, at: [40, 0]}}'),
      '2026-03-31': readAll(2),
    })
    expect(counted(report)).toEqual([[6, 21, 150]])
  })

  it('tells nothing of either place when it was moved between two looks, and that is said', () => {
    const report = reportOn({
      '2026-03-01': setOf([...others, mover]),
      '2026-03-11': 'moved: {M: {at: [90, 0]}}',
      '2026-03-31': readAll(9),
      '2026-04-10': readAll(1),
    })
    // The four: 8 in 40 nights each; M only from 31 March on: 1 in 10.
    expect(counted(report)).toEqual([[5, 9, 170]])
    expect(report.notExamined).toContain(
      '1 reading of devices that had been moved since they were last looked at: the catch belongs to no one place.',
    )
  })

  it('is where it was when a look failed for want of access', () => {
    const report = reportOn({
      '2026-03-01': setOf([...others, mover]),
      '2026-03-11': 'readings: {M: {no-access: locked}}\nmoved: {M: {at: [90, 0]}}',
      '2026-03-31': readAll(9),
    })
    expect(counted(report)).toEqual([[4, 4, 120]])
  })

  it('has an unknown position where the new one is not said', () => {
    const report = reportOn({
      '2026-03-01': setOf([...others, mover]),
      '2026-03-11': readAll(7, '\nmoved: {M: {area: store}}'),
      '2026-03-31': readAll(5),
    })
    expect(cellsOf(report, 'no-position')).toEqual([
      { site: 'oak', area: 'store', device: 'M', pest: 'German cockroach', caught: 5, 'trap-nights': 20 },
    ])
    expect(report.notExamined).toContain(
      'No position is recorded for 1 device: state `at: [across, down]` when it is set or moved.',
    )
  })
})

describe('without positions', () => {
  const bare = (devices: readonly string[]) => devices.map((text) => text.replace(/, at: \[[^\]]*\]/, ''))

  it('no place can be told, but a single device can', () => {
    const report = reportOn({
      '2026-03-01': setOf(bare(grid({ area: () => 'kitchen' }))),
      '2026-03-31': readingsOf(20, (at) => (at === 3 ? 40 : 1)),
    })
    expect(cellsOf(report, 'scans').map(({ why }) => why)).toEqual(['no position of a device is recorded'])
    expect(cellsOf(report, 'devices').map(({ device }) => device)).toEqual(['T3'])
    expect(cellsOf(report, 'no-position')).toHaveLength(20)
    expect(report.notExamined).toEqual([
      'The one group of devices (one site, floor, pest and kind of device) could not be scanned for places: no position of a device is recorded.',
      'No position is recorded for 20 devices: state `at: [across, down]` when it is set or moved.',
    ])
  })

  it('fewer than five are too few', () => {
    const devices = grid({ devices: 8, area: () => 'kitchen' })
    const report = reportOn({
      '2026-03-01': setOf([...devices.slice(0, 4), ...bare(devices.slice(4))]),
      '2026-03-31': readingsOf(8, (at) => at),
    })
    expect(cellsOf(report, 'scans').map(({ why }) => why)).toEqual([
      'fewer than five devices have a position on record',
    ])
  })
})
