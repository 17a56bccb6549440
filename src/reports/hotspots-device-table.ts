import { compareText } from '../ledger/compare-text.js'
import { ratioToOthers } from '../measure/ratio-to-others.js'
import type { Row, Table } from '../types.js'
import { compareMaps } from './hotspots-collect.js'
import type { JudgedDevice } from './hotspots-judge.js'
import { animals, filesOf, nights, people, scanCells, work } from './hotspots-tables.js'
import { measuredCells, measuredColumns } from './measured.js'

const timesColumn = { id: 'times', title: 'rate', unit: 'times the others', decimals: 1 }

/** Surest first. */
export function sortDevices(devices: readonly JudgedDevice[]): JudgedDevice[] {
  return [...devices].sort(
    (a, b) =>
      a.comparison.adjustedP - b.comparison.adjustedP ||
      b.place.count - a.place.count ||
      compareMaps(a.map, b.map) ||
      compareText(a.place.device, b.place.device) ||
      a.place.areaRank - b.place.areaRank,
  )
}

export function devicesTable(devices: readonly JudgedDevice[]): Table {
  return {
    id: 'devices',
    title: 'Single devices that caught far more than the others of their kind on the floor',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'floor', title: 'floor', ...work },
      { id: 'area', title: 'area' },
      { id: 'device', title: 'device' },
      { id: 'kind', title: 'kind of device', ...work },
      { id: 'pest', title: 'pest' },
      { id: 'caught-shown', title: 'caught in nights', ...people },
      { id: 'caught', title: 'caught', ...animals, ...work },
      { id: 'trap-nights', title: 'effort', ...nights, ...work },
      { id: 'expected', title: 'at the rate of the others', unit: 'animals', decimals: 1 },
      ...measuredColumns(timesColumn),
      { id: 'others', title: 'others', unit: 'devices', decimals: 0, ...work },
      { id: 'others-caught', title: 'others caught', ...animals, ...work },
      { id: 'others-trap-nights', title: 'effort of the others', ...nights, ...work },
      { id: 'dispersion', title: 'dispersion of the others', decimals: 2, ...work },
      { id: 'p', title: 'p', decimals: 5, ...work },
      { id: 'p-adjusted', title: 'adjusted p', decimals: 4, ...work },
      { id: 'method', title: 'method', ...work },
    ],
    rows: devices.map(deviceRow),
    empty: 'None does surely.',
  }
}

const deviceMethod =
  'exact comparison given the total, beta-binomial for clumped catches (Skellam 1948), one-sided p adjusted (Benjamini & Hochberg 1995); interval by turning the same comparison round'

function deviceRow({ map, place, others, comparison }: JudgedDevice): Row {
  const limits = ratioToOthers({
    count: place.count,
    effort: place.trapNights,
    othersCount: others.count,
    othersEffort: others.trapNights,
    dispersion: comparison.dispersion,
  })
  return {
    cells: {
      ...scanCells(map),
      area: place.areaName,
      device: place.device,
      'caught-shown': `${place.count} in ${place.trapNights}`,
      caught: place.count,
      'trap-nights': place.trapNights,
      expected: comparison.expected,
      ...measuredCells(timesColumn, {
        value: comparison.ratio,
        low: limits?.lower ?? null,
        high: limits?.upper ?? null,
      }),
      others: others.devices,
      'others-caught': others.count,
      'others-trap-nights': others.trapNights,
      dispersion: comparison.dispersion,
      p: comparison.p,
      'p-adjusted': comparison.adjustedP,
      method: deviceMethod,
    },
    records: filesOf(map.places),
  }
}
