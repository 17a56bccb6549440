import type { DistrictView } from '../../ledger/district-view.js'
import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import { isPesticide } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'
import type { RecordKind } from '../../records/kinds.js'
import { enteredWithin } from '../../rules/report-parameters.js'
import type { Citation, Day } from '../../types.js'
import type { CommitFacts, Life } from './facts.js'
import { earliestDay } from './facts.js'

/** A record that came into git after the last day on which it was to be written. */
export interface LateEntry {
  readonly path: string
  readonly day: Day
  readonly commit: CommitFacts
  readonly committed: Day
  /** Last day in time, by the strictest term that is broken. */
  readonly last: Day
  readonly sources: readonly Citation[]
  readonly onPaper: Day | undefined
  readonly enteredBy: string | undefined
  /** On paper in time and typed later: no late record. */
  readonly isOnlyTyped: boolean
}

interface Term {
  readonly last: Day
  readonly sources: readonly Citation[]
}

/** Late entries of one site, before whose first day nothing is due. */
export function lateAtSite(view: SiteView, lives: ReadonlyMap<string, Life>): LateEntry[] {
  const ofUse = new Map<string, Term[]>()
  for (const treatment of view.treatments) {
    if (!isPesticide(treatment)) continue
    const { file } = treatment.record
    const terms = dutiesFor(view, 'records', treatment).flatMap(({ says, citation }) => {
      const days = says.within === undefined ? null : daysOf(says.within)
      return days === null ? [] : [{ last: treatment.day + days, sources: [citation] }]
    })
    ofUse.set(file, [...(ofUse.get(file) ?? []), ...terms])
  }
  return view.records.flatMap((record) =>
    'day' in record && record.day >= view.begins
      ? lateOf(
          record,
          record.day,
          [...termsOf(view.district, record.day), ...(ofUse.get(record.file) ?? [])],
          lives,
        )
      : [],
  )
}

/** Late entries among the events of the district itself, and its reviews. */
export function lateInDistrict(view: DistrictView, lives: ReadonlyMap<string, Life>): LateEntry[] {
  const reviews = view.reviews.map((review) => ({ record: review, day: dayIn(review.data.held) }))
  const events = [...view.education, ...view.filings].map((event) => ({ record: event, day: event.day }))
  return [...events, ...reviews]
    .filter(({ day }) => day >= view.recordsBegin && day <= view.asOf)
    .flatMap(({ record, day }) => lateOf(record, day, termsOf(view, day), lives))
}

function termsOf(view: DistrictView, day: Day): Term[] {
  const found = view.parameters(enteredWithin, day)
  const days = found === undefined ? null : daysOf(found.value)
  return found === undefined || days === null ? [] : [{ last: day + days, sources: found.sources }]
}

function lateOf(
  record: Loaded<RecordKind> | LoadedEvent<RecordKind>,
  day: Day,
  terms: readonly Term[],
  lives: ReadonlyMap<string, Life>,
): LateEntry[] {
  const life = lives.get(record.file)
  const commit = life?.told
  if (!life || !commit || !isSeenFirst(life)) return []
  const committed = earliestDay(commit)
  const broken = committed === undefined ? [] : terms.filter(({ last }) => committed > last)
  if (committed === undefined || broken.length === 0) return []
  const said = record.data as { readonly 'on-paper'?: string; readonly 'entered-by'?: string }
  const onPaper = said['on-paper'] === undefined ? undefined : dayIn(said['on-paper'])
  const brokenOnPaper = onPaper === undefined ? broken : broken.filter(({ last }) => onPaper > last)
  const isOnlyTyped = brokenOnPaper.length === 0
  const counted = isOnlyTyped ? broken : brokenOnPaper
  return [
    {
      path: record.file,
      day,
      commit,
      committed,
      last: Math.min(...counted.map(({ last }) => last)),
      sources: counted.flatMap(({ sources }) => sources),
      onPaper,
      enteredBy: said['entered-by'],
      isOnlyTyped,
    },
  ]
}

/** Where the record was there before the first commit that can be seen, only a later one that told more is known. */
function isSeenFirst({ isFirstKnown, first, told }: Life): boolean {
  return isFirstKnown || (told !== undefined && told !== first)
}
