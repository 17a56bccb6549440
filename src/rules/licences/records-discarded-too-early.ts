import type { DistrictView } from '../../ledger/district-view.js'
import { citationsOf } from '../../ledger/licences.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import { earliestDiscardDay, monthsIn } from '../../measure/retention.js'
import type { RecordOf } from '../../records/kinds.js'
import type { UseMatcher } from '../../records/use-matcher.js'
import type { Day } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { districtRule } from '../rule.js'
import { askedByRulebooks } from './asked-by-rulebooks.js'
import { inventedAct, ownRulebook } from './example-ledgers.js'

export type Discarded = NonNullable<RecordOf<'district'>['discarded']>[number]

type DiscardedArgs = {
  readonly what: string
  readonly on: string
  /** Day of the youngest record that can be among them. */
  readonly youngest: string
  readonly keep: string
  /** First day on which that record need no longer be kept. */
  readonly earliest: string
}

const duties = `
keeping:
  applications: [{${inventedAct} 9, what: applications, keep: 2 years}]
`
const discardedBefore = (day: string) => `
discarded:
  - on: 2026-03-05${day}
    what: applications
    by: marsh
`

export const recordsDiscardedTooEarly = districtRule<DiscardedArgs>({
  id: 'records-discarded-too-early',
  title: 'records were discarded before their time was over',
  level: 'error',
  judgedOn: 'the day they were discarded',
  why: 'An illness, a complaint or an inspection can come years after an application; then the record is all there is.',
  remedy:
    'Look whether a copy is kept elsewhere (the firm, a scan, an earlier revision) and keep that. If only older records, or none of the kind that is kept longest, were among them, correct `before`, or write `termite: no` or `restricted-use: no`.',
  source: askedByRulebooks('keeping'),
  actor: 'coordinator',
  gap: false,
  says: ({ what, on, youngest, keep, earliest }) =>
    `${kindWords[what] ?? what} up to ${youngest} were discarded on ${on}; kept for ${keep}, the youngest would have been kept until ${earliest}.`,
  *check(view) {
    for (const [at, entry] of (view.district.data.discarded ?? []).entries()) {
      const on = dayIn(entry.on)
      const { youngest, broken } = discardedTooEarly(view, entry)
      const [longest] = broken
      if (!longest) continue
      const sources = citationsOf(broken.map(({ duty }) => duty))
      yield {
        args: {
          what: entry.what,
          on: entry.on,
          youngest: isoOf(youngest),
          keep: longest.duty.says.keep,
          earliest: isoOf(longest.earliest),
        },
        at: { file: view.district.file, path: ['discarded', at, 'on'] },
        from: on,
        level: levelOfDuty(sources),
        sources,
        identity: [entry.what, entry.on, entry.before],
      }
    }
  },
  // Of 5 March 2024 the youngest; two years are over with 5 March 2026, so that it is kept through that day.
  failing: ownRulebook(
    duties,
    discardedBefore(' # expect: records-discarded-too-early\n    before: 2024-03-06'),
  ),
  passing: ownRulebook(duties, discardedBefore('\n    before: 2024-03-05')),
})

/** Keeping duties that were not over when records were discarded, the longest first. */
export function discardedTooEarly(
  view: DistrictView,
  entry: Discarded,
): {
  /** Day of the youngest record that can be among them. */
  readonly youngest: Day
  readonly broken: readonly { readonly duty: Duty<'keeping'>; readonly earliest: Day }[]
} {
  const on = dayIn(entry.on)
  const youngest = dayIn(entry.before) - 1
  if (on < view.recordsBegin) return { youngest, broken: [] }
  const broken = view.rulebooks
    .duties('keeping', on)
    .filter((duty) => duty.says.what === entry.what && canBeAmong(view, duty, entry))
    .map((duty) => ({ duty, earliest: earliestDiscardDay(youngest, monthsIn(duty.says.keep) ?? 0) }))
    .filter(({ earliest }) => on < earliest)
    .sort((a, b) => b.earliest - a.earliest)
  return { youngest, broken }
}

const kindWords: Readonly<Record<string, string>> = {
  applications: 'Records of applications',
  notices: 'Records of notices',
  sds: 'Safety data sheets',
}

/** Whether records a duty is about can be among those discarded; what the entry does not rule out can. */
function canBeAmong(view: DistrictView, { rulebook, says }: Duty<'keeping'>, entry: Discarded): boolean {
  const classes = says['holds-for']
  if (!classes) return true
  return classes.some((name) =>
    view.rulebooks.useClass(rulebook, name, dayIn(entry.on))?.some((matcher) => !isRuledOut(matcher, entry)),
  )
}

function isRuledOut(matcher: UseMatcher, entry: Discarded): boolean {
  if (entry['restricted-use'] === 'no' && matcher['restricted-use'] === 'yes') return true
  return entry.termite === 'no' && (matcher.pest?.every((group) => group === 'termite') ?? false)
}
