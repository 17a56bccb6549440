import type { Source } from '../files/source.js'
import { compareText } from '../ledger/compare-text.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { Report } from '../types.js'
import type { CatchMap } from './hotspots-collect.js'
import { catchMapsOf } from './hotspots-collect.js'
import type { ConditionThere } from './hotspots-conditions.js'
import { conditionsTable, conditionsThere, spottedIn } from './hotspots-conditions.js'
import { devicesTable, sortDevices } from './hotspots-device-table.js'
import { headlineOf } from './hotspots-headline.js'
import type { JudgedScan } from './hotspots-judge.js'
import { hotspotSettings, judgeDevices, judgeScans } from './hotspots-judge.js'
import { placesFound, placesTable, scansTable, unplacedTable } from './hotspots-tables.js'
import { reasonWords } from './hotspots-words.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'

/**
 * Where is it coming from? Devices of one kind, for one pest, on one floor: whether those that caught much stand side
 * by side, and which single ones caught far more than the others, with the conditions that were open in the same areas.
 * Kinds are not mixed, because a light trap among sticky traps would look like a source. The false discovery rate is
 * held over every scan, and over every device, of the ledger in the period before any filter is applied.
 */
export function hotspotsReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const maps: CatchMap[] = []
  const conditions: ConditionThere[] = []
  const movedBetween: { site: string; readings: number }[] = []
  const read = readLedger(source, options, (view) => {
    const catches = catchMapsOf(view, period)
    maps.push(...catches.maps)
    conditions.push(...conditionsThere(view, period))
    movedBetween.push({ site: view.id, readings: catches.movedBetween })
  })
  const scans = judgeScans(maps)
  const devices = judgeDevices(maps)
  const shown = scans.filter(({ map }) => isWanted(map, options))
  const shownMaps = shown.map(({ map }) => map)
  const found = placesFound(shown)
  const outlying = sortDevices(devices.outlying.filter(({ map }) => isWanted(map, options)))
  const readings = movedBetween
    .filter(({ site }) => options.site === undefined || site === options.site)
    .reduce((sum, row) => sum + row.readings, 0)
  return {
    report: 'hotspots',
    title: 'Where is it coming from?',
    headline: headlineOf({ scans: shown, found, outlying, conditions }),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      placesTable(found),
      devicesTable(outlying),
      conditionsTable(conditions, spottedIn(found, outlying)),
      scansTable(shown),
      unplacedTable(shownMaps),
    ],
    cautions: [...cutCautions(options), ...cautionsOf(scans, devices.compared)],
    notExamined: [
      ...notExaminedOf(read),
      ...notScannedLines(shown),
      ...unplacedLines(shownMaps),
      ...movedLines(readings),
    ],
    incomplete: read.notChecked.length > 0,
  }
}

function cautionsOf(scans: readonly JudgedScan[], devicesCompared: number): string[] {
  const made = scans.filter(({ clusters }) => clusters.length > 0).length
  const percent = hotspotSettings.significance * 100
  return [
    `A place stands out when the same catches, shuffled over the same positions, seldom stand together as much (false discovery rate of ${percent} % over ${made === 1 ? 'the one scan' : `all ${made} scans`} of the ledger in this period); a device, when it surely caught more than the others of its kind on its floor (the same over all ${devicesCompared} devices compared). Filters change neither.`,
    'Only devices of one kind for the same pest are held against each other, since kinds differ in what they catch, whenever in the period they stood; a device that was moved counts once for each place. What bait lost, tracks and sightings are not in it.',
    'Only where a trap stands can anything be found: an area without one is not clear, and traps set where a pest was seen catch more of it. Circles are drawn straight over the diagram, through walls too.',
    'A rate that was picked for being the highest leans high. A condition in the same area is a place to look, no proof that the pest comes from there.',
    'Whoever looks there minds droppings, bites, stings and wiring. This report authorises no treatment: the label, local code and a licensed applicator decide on that.',
  ]
}

/** How many groups of devices were not scanned, by reason. */
function notScannedLines(scans: readonly JudgedScan[]): string[] {
  const reasons = scans.flatMap(({ why }) => (why === null ? [] : [reasonWords[why]]))
  if (reasons.length === 0) return []
  const counts = [...new Set(reasons)]
    .map((reason) => ({ reason, times: reasons.filter((other) => other === reason).length }))
    .sort((a, b) => b.times - a.times || compareText(a.reason, b.reason))
  const groups = 'of devices (one site, floor, pest and kind of device) could not be scanned for places'
  if (scans.length === 1) return [`The one group ${groups}: ${reasons[0]}.`]
  return [
    `${reasons.length} of ${scans.length} groups ${groups}: ${counts.map(({ reason, times }) => `in ${times} ${reason}`).join('; ')}.`,
  ]
}

function unplacedLines(maps: readonly CatchMap[]): string[] {
  const devices = new Set(
    maps.flatMap(({ site, places }) =>
      places.filter(({ spot }) => spot === null).map(({ device }) => `${site} ${device}`),
    ),
  )
  if (devices.size === 0) return []
  return [
    `No position is recorded for ${devices.size} ${devices.size === 1 ? 'device' : 'devices'}: state \`at: [across, down]\` when it is set or moved.`,
  ]
}

function movedLines(readings: number): string[] {
  if (readings === 0) return []
  return [
    `${readings} ${readings === 1 ? 'reading' : 'readings'} of devices that had been moved since they were last looked at: the catch belongs to no one place.`,
  ]
}
