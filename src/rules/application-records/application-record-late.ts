import { citationsOf } from '../../ledger/licences.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import { isoOf } from '../../measure/calendar.js'
import type { DutyOf } from '../../records/rulebook-duties.js'
import type { Citation, Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { baitApplication } from '../example-applications.js'
import { underOwnRulebook } from '../reentry/example-ledgers.js'
import { siteRule } from '../rule.js'

const own = underOwnRulebook(`
records:
  within:
    - {from: 2026-03-01, within: 5 days, source: "Invented Pest Act, section 6", kind: law, confidence: read}
`)

export const applicationRecordLate = siteRule<{ written: string; by: string; days: number }>({
  id: 'application-record-late',
  title: 'the record of an application was written too late',
  level: 'error',
  judgedOn: 'the day of the application',
  why: 'What is written from memory weeks later is a guess, and until then nobody who has to treat a child can look it up.',
  remedy:
    'Write the record on the day. If the paper was filled in earlier than `on-paper` says, correct that; typing a paper page later is not late. Otherwise it stays as it is.',
  source: { kind: 'program', text: 'the section `records` of the rulebooks in force' },
  actor: 'technician',
  gap: false,
  says: ({ written, by, days }) =>
    `The record says that it was written on ${written}; it was to be written within ${days} ${days === 1 ? 'day' : 'days'}, by ${by}.`,
  *check(view) {
    for (const { file, written, last, day, sources } of writtenLate(view))
      yield {
        args: { written: isoOf(written), by: isoOf(last), days: last - day },
        at: { file, path: ['on-paper'] },
        from: last + 1,
        sources,
        level: levelOfDuty(sources),
      }
  },
  failing: `${own}${baitApplication('2026-03-12', 'on-paper: 2026-03-18 # expect: application-record-late')}`,
  passing: `${own}${baitApplication('2026-03-12', 'on-paper: 2026-03-17')}`,
})

interface WrittenLate {
  readonly file: string
  readonly day: Day
  readonly written: Day
  /** Last day in time, by the strictest of the duties that are broken. */
  readonly last: Day
  readonly sources: readonly Citation[]
}

/**
 * Records of applications, and of visits that put out bait, each once. When a record that was never on paper was
 * written, it does not say.
 */
function writtenLate(view: SiteView): Iterable<WrittenLate> {
  const late = new Map<string, WrittenLate>()
  for (const treatment of view.treatments) {
    const { day, record } = treatment
    const onPaper = record.data['on-paper']
    if (onPaper === undefined || day < view.begins || !isPesticide(treatment)) continue
    const written = dayIn(onPaper)
    const broken = dutiesFor(view, 'records', treatment).flatMap((duty) => {
      const last = lastDayToWrite(duty.says, day)
      return last !== undefined && written > last ? [{ citation: duty.citation, last }] : []
    })
    if (broken.length === 0) continue
    const before = late.get(record.file)
    const last = Math.min(before?.last ?? Number.POSITIVE_INFINITY, ...broken.map((duty) => duty.last))
    const sources = citationsOf([...(before?.sources ?? []).map((citation) => ({ citation })), ...broken])
    late.set(record.file, { file: record.file, day, written, last, sources })
  }
  return late.values()
}

/** Last day on which a record is written in time; undefined where the duty sets no term. */
export function lastDayToWrite(says: DutyOf<'records'>, day: Day): Day | undefined {
  const days = says.within === undefined ? null : daysOf(says.within)
  return days === null ? undefined : day + days
}
