import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { addMonths, isoOf } from '../measure/calendar.js'
import type { Report } from '../types.js'
import { notExaminedOf } from './not-examined.js'
import type { OnsetDays, SitePest } from './onset-collect.js'
import { onsetFactsOf } from './onset-collect.js'
import type { JudgedLedger, NotWatched, Watched } from './onset-judge.js'
import { judgeOnsets, onsetSettings } from './onset-judge.js'
import type { Risen } from './onset-risen.js'
import { marksOf, risenOf, risenTable } from './onset-risen.js'
import { compareFacts, notJudgedTable, onceIn, sumPlot, watchedTable } from './onset-tables.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { pestName } from './pest-name.js'

/** Months judged if no first day is asked for: a year of records then has a first half to learn what is usual from. */
const monthsJudged = 6
const monthsOfBaseline = 12

/**
 * Early warning: by site and pest, the first reading at which a rise should have been noticed, and what came after.
 * Each reading of the period (the half-year up to the as-of day if not said) is held against what the same devices
 * caught in the year before it; a cumulative sum signals where catches stay above that. The limit of every series is
 * set from all series of the ledger before any filter is applied, so that about one false signal is expected in all.
 */
export function onsetReport(source: Source, options: ReportOptions): Report {
  const days = daysOf(options)
  const all: SitePest[] = []
  const read = readLedger(source, options, (view) => all.push(...onsetFactsOf(view, days)))
  const judged = judgeOnsets(all, days)
  const wanted = ({ facts }: { readonly facts: SitePest }) => isWanted(facts, options)
  const shown = judged.watched.filter(wanted)
  const notJudged = judged.notWatched.filter(wanted)
  const risen = shown.flatMap((one) => risenOf(one) ?? []).sort(byDay)
  const plots =
    options.site !== undefined && options.pest !== undefined
      ? shown.map((one) => {
          const marks = risen.filter(({ of }) => of === one).flatMap(marksOf)
          return sumPlot(one, marks, days.from, days.to)
        })
      : []
  return {
    report: 'onset',
    title: 'When should it have been noticed?',
    headline: headlineOf(risen, shown, notJudged, judged, days, read.notChecked.length > 0),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(days.from), to: isoOf(days.to) },
    facts: [],
    tables: [
      risenTable(risen),
      watchedTable(shown.filter(({ signal }) => signal === undefined)),
      notJudgedTable(notJudged),
    ],
    ...(plots.length > 0 ? { plots } : {}),
    cautions: [...cutCautions(options), ...cautionsOf(judged, days)],
    notExamined: [...notExaminedOf(read), ...tooNewOf(shown)],
    incomplete: read.notChecked.length > 0,
  }
}

function daysOf(options: ReportOptions): OnsetDays {
  const { to } = periodOf(options)
  const from = options.from ?? addMonths(to + 1, -monthsJudged)
  return { baselineFrom: addMonths(from, -monthsOfBaseline), from, to }
}

function byDay(a: Risen, b: Risen): number {
  return a.on - b.on || compareFacts(a.of, b.of)
}

function tooNewOf(shown: readonly Watched[]): string[] {
  const series = shown.filter(({ tooNew }) => tooNew.length > 0)
  if (series.length === 0) return []
  const named = series
    .slice(0, 3)
    .map(({ facts, tooNew }) => `${facts.site} ${tooNew.join(', ')} (${pestName(facts.pest)})`)
  const more = series.length - named.length
  return [
    `Devices of a kind and area read on fewer than ${onsetSettings.fewestBaselineReadings} days in the year before were not compared: ${named.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`,
  ]
}

function cautionsOf(
  { runLength, falseExpected, watched }: JudgedLedger,
  { baselineFrom, from }: OnsetDays,
): string[] {
  const readings = watched.reduce((sum, one) => sum + one.readings.length, 0)
  return [
    'Where one animal is enough to act, act on one: this report looks back, and no sum delays it. `doorsweep report thresholds` shows what calls for action now.',
    `If nothing changed and effort were even, one series would give a false signal once in at least ${onceIn(runLength)} readings on average: ${expectedWords(falseExpected)} among all ${watched.length} series and ${readings} readings of the ledger in this period, whatever is filtered. What uneven effort makes of that is shown with each rise (--show-work). No signal is no proof of no rise: a small one takes many readings to show.`,
    `Usual is what the same kinds of devices in the same areas caught in the year before (${isoOf(baselineFrom)} to ${isoOf(from - 1)}), season and former infestations included, so that a usual season can show as a rise. The limit allows for clumped catches and for what so few readings leave unsure of the usual catch; it is set to see a doubling.`,
    'Noticeable on is the first day read on which such a sum shows the rise; it blames no one. What was done afterwards is not thereby shown to have worked.',
  ]
}

function expectedWords(expected: number): string {
  return expected < 0.75 ? 'fewer than one is expected' : `about ${Math.round(expected)} at most is expected`
}

function headlineOf(
  risen: readonly Risen[],
  shown: readonly Watched[],
  notJudged: readonly NotWatched[],
  { falseExpected }: JudgedLedger,
  { from }: OnsetDays,
  incomplete: boolean,
): string {
  const [first] = risen
  const unjudged = notJudged.length === 0 ? '' : `; ${seriesWords(notJudged.length)} could not be judged`
  if (shown.length === 0 && notJudged.length === 0 && incomplete)
    return 'What was asked for could not be examined, so nothing can be told of a rise.'
  if (shown.length === 0)
    return notJudged.length === 0
      ? 'Nothing that was asked for was read in this period or in the year before, so nothing can be told of a rise.'
      : `Nothing can be told of a rise: ${seriesWords(notJudged.length)} of a pest at a site could not be judged, mostly for want of readings in the year before.`
  if (!first)
    return `No catch has risen beyond chance since ${isoOf(from)}, in ${seriesWords(shown.length)} of a pest at a site${unjudged}.`
  const { facts } = first.of
  const what = `the rise of ${pestName(facts.pest)} at ${facts.siteName}`
  const chance = falseExpected < 0.75 ? 'hardly one' : `about ${Math.round(falseExpected)} at most`
  if (risen.length === 1)
    return `${what[0]?.toUpperCase()}${what.slice(1)} should have been noticed on ${isoOf(first.on)}; no other catch has risen beyond chance${unjudged}.`
  return `${risen.length} rises should have been noticed, first ${what} on ${isoOf(first.on)}; ${chance} would be expected by chance alone${unjudged}.`
}

function seriesWords(series: number): string {
  return series === 1 ? 'one series' : `${series} series`
}
