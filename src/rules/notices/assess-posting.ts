import type { InstantRange } from '../../ledger/instants.js'
import { instantOn, timesOf } from '../../ledger/instants.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { PostingAsked, PostingPlace } from './asked-postings.js'
import { postingsAsked } from './asked-postings.js'
import type { Timing } from './assess-notice.js'
import { timing } from './assess-notice.js'
import type { ContentsShown } from './contents.js'
import { contentsShown } from './contents.js'
import type { Outcome } from './outcome.js'
import { happenedFrom, rankOf, worstOf } from './outcome.js'
import { sizeShown } from './sign-size.js'
import { noticesAbout, treatmentsToldOf } from './told-about.js'

/** A notice record that tells of signs put up. */
export type Posting = LoadedEvent<'notice'> & {
  readonly data: { readonly posted: NonNullable<LoadedEvent<'notice'>['data']['posted']> }
}

/** One record of signs, held against a duty. */
export interface SignsShown {
  readonly posting: Posting
  readonly timing: Timing
  readonly size: Outcome
  readonly contents: ContentsShown
  readonly put: InstantRange
  /** When they came down; signs of which no end is recorded still hang. */
  readonly down: InstantRange | undefined
  /** Whether they hung long enough. */
  readonly stayed: Outcome
}

/** What the records show of one duty to hang signs for one treatment. */
export interface PostingAssessment {
  readonly treatment: Treatment
  readonly asked: PostingAsked
  readonly outcome: Outcome
  /** The best signs for each kind of place asked; none where no sign is recorded at all. */
  readonly signs: readonly SignsShown[]
  /** For each kind of place again, the signs that were the last to come down of those that took each other's place. */
  readonly gone: readonly SignsShown[]
  /** Kinds of places of which no record shows a sign. */
  readonly placesMissing: readonly PostingPlace[]
  /** Whether a record of signs leaves out at which kinds of places they hung. */
  readonly places: Outcome
}

const known = new WeakMap<SiteView, readonly PostingAssessment[]>()

/** Every duty to hang signs for the pesticides put to use at a site, by day; worked out once for all who ask. */
export function postingAssessments(view: SiteView): readonly PostingAssessment[] {
  const found = known.get(view)
  if (found) return found
  const made = treatmentsToldOf(view).flatMap((treatment) =>
    postingsAsked(view, treatment).map((asked) => assessPosting(view, treatment, asked)),
  )
  known.set(view, made)
  return made
}

/** One duty held against the signs put up for the treatment, place by place. */
export function assessPosting(view: SiteView, treatment: Treatment, asked: PostingAsked): PostingAssessment {
  const all = noticesAbout(view, treatment)
    .filter((notice): notice is Posting => notice.data.posted !== undefined)
    .map((posting) => signsShown(view, treatment, asked, posting))
  const at = (place: PostingPlace) => all.filter(({ posting }) => hangsAt(posting, place))
  const placesMissing = asked.places.filter((place) => at(place).length === 0)
  const covered = asked.places.filter((place) => at(place).length > 0)
  const sets = covered.length > 0 ? covered.map(at) : all.length > 0 ? [all] : []
  const signs = unique(sets.map((set) => bestOf(set, forPuttingUp)))
  const gone = unique(sets.map(lastInTurn))
  const places: Outcome =
    placesMissing.length === 0
      ? 'shown'
      : all.some(({ posting }) => posting.data.posted['at-the'] === undefined)
        ? 'not recorded'
        : 'not shown'
  const outcome =
    all.length === 0
      ? 'not shown'
      : worstOf([
          places,
          ...signs.flatMap((sign) => [sign.timing.outcome, sign.size, sign.contents.outcome]),
          ...gone.map(({ stayed }) => stayed),
        ])
  return { treatment, asked, outcome, signs, gone, placesMissing, places }
}

function hangsAt(posting: Posting, place: PostingPlace): boolean {
  return posting.data.posted['at-the']?.includes(place) ?? false
}

function signsShown(view: SiteView, treatment: Treatment, asked: PostingAsked, posting: Posting): SignsShown {
  const { posted, text } = posting.data
  return {
    posting,
    timing: putUpInTime(view, treatment, asked, posting),
    size: asked.size === undefined ? 'shown' : sizeShown(posted.size, asked.size),
    contents: contentsShown(posted.says, text, asked.says),
    put: instantOn(view.district, posting.day, posted.at),
    down: takenDown(view, posting),
    stayed: stayedLongEnough(view, asked, posting),
  }
}

/** A sign at the start is judged by the day alone where either hour is not recorded. */
function putUpInTime(view: SiteView, treatment: Treatment, asked: PostingAsked, posting: Posting): Timing {
  const put = instantOn(view.district, posting.day, posting.data.posted.at)
  const { start } = timesOf(view.district, treatment)
  if (asked.when === 'before') return timing(put, asked.latest, undefined, start, 'before')
  const found = timing(put, asked.latest, undefined, start, 'after an emergency')
  return found.outcome === 'not recorded' ? { outcome: 'shown' } : found
}

function takenDown(view: SiteView, { data: { posted } }: Posting): InstantRange | undefined {
  const { 'taken-down': down, 'taken-down-at': at } = posted
  return down === undefined ? undefined : instantOn(view.district, dayIn(down), at)
}

function stayedLongEnough(view: SiteView, asked: PostingAsked, posting: Posting): Outcome {
  const down = takenDown(view, posting)
  return down === undefined || !asked.staysUntil ? 'shown' : happenedFrom(down, asked.staysUntil)
}

/** Signs that already hung when others came down took their place; signs put up after a gap did not. */
function lastInTurn(signs: readonly SignsShown[]): SignsShown | undefined {
  const cameDown = ({ down }: SignsShown) => down?.latest ?? Number.POSITIVE_INFINITY
  let now = bestOf(signs, forPuttingUp)
  while (now) {
    const until = cameDown(now)
    const hanging = signs.filter((other) => other.put.earliest <= until && cameDown(other) > until)
    const [next] = hanging.sort((a, b) => cameDown(b) - cameDown(a))
    if (!next) break
    now = next
  }
  return now
}

const forPuttingUp = (signs: SignsShown) => [
  rankOf(signs.timing.outcome),
  rankOf(signs.size),
  rankOf(signs.contents.outcome),
  signs.contents.missing.length,
]

/** The first of those that no other is better than. */
function bestOf(signs: readonly SignsShown[], by: (signs: SignsShown) => number[]): SignsShown | undefined {
  const compared = (a: number[], b: number[]) => {
    const at = a.findIndex((rank, n) => rank !== b[n])
    return at === -1 ? 0 : (a[at] ?? 0) - (b[at] ?? 0)
  }
  return signs.reduce<SignsShown | undefined>(
    (best, next) => (best === undefined || compared(by(next), by(best)) < 0 ? next : best),
    undefined,
  )
}

function unique(signs: readonly (SignsShown | undefined)[]): SignsShown[] {
  return [...new Set(signs)].filter((sign) => sign !== undefined)
}
