import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Report } from '../types.js'
import type { ComplaintFacts } from './complaints-collect.js'
import { complaintsOf, confirmingDays, isOpenOn } from './complaints-collect.js'
import { logTable, openComplaintsTable } from './complaints-log.js'
import { answerTables, cameInWithin, isAnsweredBefore, timesFollowed } from './complaints-tables.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { halfWithin, howMany } from './time-to.js'

/**
 * Who waits for an answer, how long answers take and whether they come in time, by site and by pest, and for how many
 * complaints something was caught or seen. Of those that came in within the period (the year to the as-of day if not
 * said), followed until the as-of day; what is open now is told whenever it came in.
 */
export function complaintsReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const { asOf } = options
  const complaints: ComplaintFacts[] = []
  const read = readLedger(source, options, (view) => complaints.push(...complaintsOf(view)))
  const shown = complaints.filter((one) => isWanted(pick(one), options))
  const open = shown.filter((one) => isOpenOn(one, asOf))
  const cameIn = cameInWithin(shown, period)
  return {
    report: 'complaints',
    title: 'Complaints: waiting, answered, confirmed',
    headline: headlineOf(open, cameIn),
    asOf: isoOf(asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      openComplaintsTable(open, asOf),
      ...answerTables(complaints, period, options),
      logTable(cameIn, asOf),
    ],
    cautions: [
      'For the coordinator: what people said stands in the work of this report and does not belong on a page that is published.',
      'A complaint is answered on the day of the first visit that names it under `answers`; those still open count with the days so far, withdrawn ones not at all. In time is the share answered by the day that the contract, the district or a rulebook asks for, of those whose day is past.',
      `Caught or seen: of the complaints that name a pest and an area that someone looked at, how many had a catch or sighting of the same kind of animal there within ${confirmingDays} days before or after; told once those days are over. None seen does not show that the complaint was mistaken.`,
      'Came again: of the same pest and place as another one not long before, where a trap could show it, as `doorsweep explain repeat-complaint-no-device` has it; a dash where no rulebook says how long before.',
      ...cutCautions(options),
    ],
    notExamined: [...notExaminedOf(read), ...leftOpen(shown, asOf), ...answeredTooEarly(shown)],
    incomplete: read.notChecked.length > 0,
  }
}

/** A complaint without a pest belongs to no one pest that can be asked for. */
function pick({ site, pest }: ComplaintFacts) {
  return pest === undefined ? { site } : { site, pest }
}

function headlineOf(open: readonly ComplaintFacts[], cameIn: readonly ComplaintFacts[]): string {
  const kept = cameIn.filter(({ withdrawn }) => withdrawn === undefined)
  const half = halfWithin(timesFollowed(cameIn), 'answered')
  const times =
    half === undefined
      ? ''
      : `; of the ${kept.length === 1 ? 'one' : kept.length} that came in within the period, ${half}`
  const oldest = [...open].sort((a, b) => a.day - b.day)[0]
  if (!oldest)
    return cameIn.length === 0
      ? 'No complaint is on record for this period and none waits for an answer; that none was written down does not show that there was none.'
      : `No complaint waits for an answer${times}.`
  const overdue = open.filter(({ overdueNow }) => overdueNow).length
  const since = `since ${isoOf(oldest.day)}`
  return open.length === 1
    ? `One complaint waits for an answer, ${since}, and it is ${overdue === 1 ? '' : 'not '}overdue${times}.`
    : `${open.length} complaints wait for an answer, ${howMany(overdue, open.length)} of them overdue, the oldest ${since}${times}.`
}

function leftOpen(complaints: readonly ComplaintFacts[], asOf: Day): string[] {
  const left = complaints.filter(
    ({ withdrawn, answered, followedTo }) =>
      withdrawn === undefined && answered === undefined && followedTo < asOf,
  ).length
  if (left === 0) return []
  return [
    left === 1
      ? 'One complaint was not answered before its site closed; it is not counted as open.'
      : `${left} complaints were not answered before their site closed; they are not counted as open.`,
  ]
}

function answeredTooEarly(complaints: readonly ComplaintFacts[]): string[] {
  const early = complaints.filter(isAnsweredBefore).length
  if (early === 0) return []
  return [
    early === 1
      ? 'One complaint is answered by a visit dated before it, so its time to the answer cannot be told.'
      : `${early} complaints are answered by visits dated before them, so their time to the answer cannot be told.`,
  ]
}
