import { catchMapsOf } from '../../../dist/reports/hotspots-collect.js'
import { judgeDevices, judgeScans } from '../../../dist/reports/hotspots-judge.js'
import { nearSource } from '../../../dist/writing/demo/trial.js'
import { percent } from './tally.js'

const pest = 'german-cockroach'

/** Is the planted source found, and how often a place or a device where none is? */
export function tallySources({ view, period, trial, isPlanted }, tally) {
  const { maps } = catchMapsOf(view, period)
  const scans = judgeScans(maps)
  const { outlying } = judgeDevices(maps)
  if (isPlanted) {
    const near = devicesNear(view, trial.pests[pest].source)
    if (near.size > 0) tallyFound(scans, outlying, near, tally)
    return
  }
  tally.count(
    'any place where none is',
    scans.some(({ clusters }) => clusters.some(({ standsOut }) => standsOut)),
  )
  tally.count('any device where none is', outlying.length > 0)
  for (const { clusters } of scans)
    if (clusters.length > 0)
      tally.count('scans where nothing is, p at most 0.05', clusters[0].cluster.p <= 0.05)
}

function tallyFound(scans, outlying, near, tally) {
  const isNear = ({ device }) => near.has(device)
  const clusters = scans.filter(({ map }) => map.pest === pest).flatMap((scan) => scan.clusters)
  const holding = clusters.filter(({ members }) => members.some(isNear))
  const asPlace = holding.some(({ standsOut }) => standsOut)
  const asDevice = outlying.some(({ map, place }) => map.pest === pest && isNear(place))
  tally.count('devices near the source', near.size)
  tally.count(
    'source in a cluster of p at most 0.05',
    holding.some(({ cluster }) => cluster.p <= 0.05),
  )
  tally.count('source found as a place', asPlace)
  tally.count('source found', asPlace || asDevice)
  tally.count(
    'place of the source without it',
    clusters.some(({ standsOut, members }) => standsOut && !members.some(isNear)),
  )
}

/** Devices that stood near the source for half of their readings at least. */
function devicesNear(view, source) {
  const near = new Set()
  for (const device of view.devices) {
    if (!device.for.includes(pest) || device.checks.length === 0) continue
    const there = device.checks.filter(({ moment }) => {
      const stand = device.stands.findLast(({ from }) => from.day < moment.day) ?? device.stands[0]
      return nearSource(source, stand.facts.at) > 1
    })
    if (2 * there.length >= device.checks.length) near.add(device.id)
  }
  return near
}

export const sourcesTable = {
  title: 'Places: a planted source, and places where none is',
  head: [
    'hardship',
    'devices at the source',
    'in a circle of p at most 0.05',
    'told as a place',
    'as a place or a device',
    'another place told',
    'none there: scans with p at most 0.05',
    'ledgers with a place told',
    'with a device told',
  ],
  row: (sums, mean) => [
    mean(sums['devices near the source']),
    percent(sums['source in a cluster of p at most 0.05']),
    percent(sums['source found as a place']),
    percent(sums['source found']),
    percent(sums['place of the source without it']),
    percent(sums['scans where nothing is, p at most 0.05']),
    percent(sums['any place where none is']),
    percent(sums['any device where none is']),
  ],
}
