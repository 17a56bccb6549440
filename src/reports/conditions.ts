import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Report } from '../types.js'
import { ageingPlots, ageingTable } from './conditions-ageing.js'
import { comparedTable, fewestOnsets, onsetTable } from './conditions-before-pests.js'
import type { ConditionSpell } from './conditions-collect.js'
import { conditionSpellsOf, isOpenOn, isOverdueOn } from './conditions-collect.js'
import { monthsPlot, monthsTable } from './conditions-months.js'
import type { OnsetStrata, PestOnset } from './conditions-onsets.js'
import { daysBefore, gatherOnsets, quietDays, quietLooks } from './conditions-onsets.js'
import { openTable } from './conditions-open.js'
import { allSites, foundWithin, timesFollowed, timesTables } from './conditions-times.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { halfWithin, howMany } from './time-to.js'

/**
 * What of the building waits to be put right: what is open and overdue now, how long it takes by owner, by what it
 * gives a pest, by kind and by site, and whether pests came where a condition had been open. Times are of conditions
 * found within the period (the year to the as-of day if not said), followed until the as-of day.
 */
export function conditionsReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const { asOf, site } = options
  const spells: ConditionSpell[] = []
  const onsets: PestOnset[] = []
  const strata: OnsetStrata = new Map()
  const read = readLedger(source, options, (view) => {
    const ofSite = conditionSpellsOf(view)
    spells.push(...ofSite)
    onsets.push(...gatherOnsets(view, ofSite, period, strata))
  })
  const shown = spells.filter((spell) => isWanted(spell, options))
  const open = shown.filter((spell) => isOpenOn(spell, asOf))
  const plot = monthsPlot(shown, period, site ?? allSites)
  const plots = [...(plot ? [plot] : []), ...ageingPlots(open, asOf, site ?? allSites)]
  return {
    report: 'conditions',
    title: 'How the building is kept: conditions open, overdue, put right',
    headline: headlineOf(open, foundWithin(shown, period), asOf),
    asOf: isoOf(asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      openTable(open, asOf),
      ...timesTables(spells, period, asOf, site),
      comparedTable(strata, onsets, site),
      onsetTable(onsets.filter((onset) => isWanted(onset, options))),
      ageingTable(spells, asOf, site),
      monthsTable(spells, period, site),
    ],
    ...(plots.length > 0 ? { plots } : {}),
    cautions: [...cautionsOf(site), ...cutCautions(options)],
    notExamined: [...notExaminedOf(read), ...leftOpen(shown, asOf), ...withoutArea(shown)],
    incomplete: read.notChecked.length > 0,
  }
}

function headlineOf(open: readonly ConditionSpell[], found: readonly ConditionSpell[], asOf: Day): string {
  const half = halfWithin(timesFollowed(found), 'put right')
  const times = half === undefined ? '' : `; of those found in the period, ${half}`
  const oldest = [...open].sort((a, b) => a.found - b.found)[0]
  if (!oldest)
    return found.length === 0
      ? 'No correctable condition is open, and none was found in this period; that none was written down does not show that there was none.'
      : `No correctable condition is open${times}.`
  const overdue = open.filter((spell) => isOverdueOn(spell, asOf)).length
  const since = `since ${isoOf(oldest.found)}`
  return open.length === 1
    ? `One correctable condition is open, ${since}, and it is ${overdue === 1 ? '' : 'not '}overdue${times}.`
    : `${open.length} correctable conditions are open, ${howMany(overdue, open.length)} of them overdue, the oldest ${since}${times}.`
}

function cautionsOf(site: string | undefined): string[] {
  return [
    'Days run from the visit that found a condition, or found it back, until the record that it was put right; what was mended between two visits may have been sooner. Each time it comes back begins anew.',
    'Found, put right and the times are of conditions found within the period and followed until the as-of day, those still open with the days so far. Open now and overdue are of all, also of those found before.',
    'In time is the share put right before a day stated for it was past, of those whose day is past by now. Without a stated day, or with one before the day it was found, it is not judged.',
    `A pest comes when it is found after ${quietDays} days and ${quietLooks} looks without it; before is the ${daysBefore} days before that day. That a condition was open before does not show that the pest came by it: who looks more finds more of both.`,
    ...(site === undefined
      ? [
          `Area-days are days on which a pest could have been noticed to come, of each pest in each area looked at. Times as often holds the same pest in the same kind of area against each other. Fewer than ${fewestOnsets} onsets are not compared.`,
        ]
      : []),
  ]
}

function leftOpen(spells: readonly ConditionSpell[], asOf: Day): string[] {
  const left = spells.filter(({ closed, followedTo }) => closed === undefined && followedTo < asOf).length
  if (left === 0) return []
  return [
    left === 1
      ? 'One condition was open when its site closed; it is not counted as open.'
      : `${left} conditions were open when their site closed; they are not counted as open.`,
  ]
}

function withoutArea(spells: readonly ConditionSpell[]): string[] {
  const without = new Set(spells.filter(({ area }) => area === undefined).map(({ condition }) => condition))
  if (without.size === 0) return []
  return [
    without.size === 1
      ? 'One condition names no area, so it is not held against pests that came.'
      : `${without.size} conditions name no area, so they are not held against pests that came.`,
  ]
}
