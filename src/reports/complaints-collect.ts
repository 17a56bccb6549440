import { compareText } from '../ledger/compare-text.js'
import type { Look } from '../ledger/evidence.js'
import { looksOf } from '../ledger/evidence.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import { pestTable } from '../records/tables.js'
import { answerTermsOn, firstAnswers } from '../rules/inspection/complaints-due.js'
import { lateness } from '../rules/inspection/lapse.js'
import { repeatParameter, repeats } from '../rules/inspection/repeat-complaint-no-device.js'
import type { Citation, Day } from '../types.js'

/** Days before and after a complaint in which a catch or sighting speaks for it. */
export const confirmingDays = 30

/** Why it cannot be said whether a catch or sighting speaks for a complaint. */
export type NotTold = 'no-area' | 'no-pest' | 'not-looked' | 'too-soon'

export interface Answer {
  readonly day: Day
  readonly says: string
  readonly file: string
}

/** What is known of one complaint. Thin on purpose; no one who complained is in it. */
export interface ComplaintFacts {
  readonly site: string
  readonly id: string
  readonly day: Day
  readonly area: string | undefined
  readonly pest: string | undefined
  readonly other: string | undefined
  readonly from: string
  readonly says: string
  readonly withdrawn: string | undefined
  /** In order of the visits; the first one counts. */
  readonly answers: readonly Answer[]
  readonly answered: Day | undefined
  /** Last day on which the site answered for it: the as-of day, or the last day of a closed site. */
  readonly followedTo: Day
  /** Last day in time, and who asks for it; undefined where nobody does, or before the records begin. */
  readonly due: Day | undefined
  readonly sources: readonly Citation[]
  readonly overdueNow: boolean
  /** Whether it was answered in time; undefined while its day is not past, or where none is asked. */
  readonly inTime: boolean | undefined
  /** The complaint of the same pest and place that came before it, within the days that make it a repeat. */
  readonly repeatOf: Day | undefined
  /** Whether a rulebook says how near to each other two complaints are a repeat. */
  readonly hasRepeatTerm: boolean
  readonly confirmed: boolean | NotTold
  /** Catches and sightings that speak for it: day and pest. */
  readonly evidence: readonly { readonly day: Day; readonly pest: string }[]
  readonly files: readonly string[]
}

export function complaintsOf(view: SiteView): ComplaintFacts[] {
  if (view.complaints.length === 0) return []
  const first = firstAnswers(view)
  const answers = answersBy(view)
  const before = new Map([...repeats(view)].map(([complaint, earlier]) => [complaint.id, earlier.day]))
  const speaks = evidenceIn(view)
  return view.complaints.map((complaint): ComplaintFacts => {
    const { data, day, id } = complaint
    const own = answers.get(id) ?? []
    const { seen, confirmed } = data.withdrawn === undefined ? speaks(complaint) : notLooked
    return {
      site: view.id,
      id,
      day,
      area: data.area,
      pest: data.pest,
      other: data.other,
      from: data.from,
      says: data.says,
      withdrawn: data.withdrawn,
      answers: own,
      answered: first.get(id)?.day,
      followedTo: Math.min(view.asOf, view.ends ?? view.asOf),
      ...timeliness(view, complaint, first.get(id)?.day),
      repeatOf: before.get(id),
      hasRepeatTerm: view.district.parameters(repeatParameter, day) !== undefined,
      confirmed,
      evidence: seen.map(({ look, pest }) => ({ day: look.day, pest })),
      files: [
        ...new Set([
          complaint.file,
          ...own.map(({ file }) => file),
          ...seen.flatMap(({ look }) => look.files),
        ]),
      ],
    }
  })
}

/** The same duty, from the same day, as the rule that reports a complaint not looked at in time. */
function timeliness(
  view: SiteView,
  { data, day }: LoadedEvent<'complaint'>,
  answered: Day | undefined,
): Pick<ComplaintFacts, 'due' | 'sources' | 'overdueNow' | 'inTime'> {
  const asked = data.withdrawn !== undefined || day < view.begins ? undefined : answerTermsOn(view, day)
  if (!asked) return { due: undefined, sources: [], overdueNow: false, inTime: undefined }
  const due = day + asked.days
  const late = lateness(view, due + 1, answered)
  const isLate = late !== undefined && late.from <= view.asOf
  const isPast = due < view.asOf && (answered !== undefined || isLate)
  return {
    due,
    sources: asked.sources,
    overdueNow: isLate && (late.until === undefined || late.until > view.asOf),
    // Also what was answered early waits for its day, or the share would look better than it is.
    inTime: isPast ? !isLate : undefined,
  }
}

function answersBy(view: SiteView): Map<string, Answer[]> {
  const answers = new Map<string, Answer[]>()
  for (const visit of view.visits)
    for (const [complaint, says] of Object.entries(visit.data.answers ?? {}))
      getOrMake(answers, complaint, () => []).push({ day: visit.day, says, file: visit.file })
  return answers
}

const groupOf = (pest: string) => pestTable().get(pest)?.group ?? pest

interface Seen {
  readonly look: Look
  readonly pest: string
}

interface Spoken {
  readonly seen: readonly Seen[]
  readonly confirmed: boolean | NotTold
}

const notLooked: Spoken = { seen: [], confirmed: 'not-looked' }

/** What catches and sightings of the same kind of animal in the same area say of a complaint. */
function evidenceIn(view: SiteView): (complaint: LoadedEvent<'complaint'>) => Spoken {
  const complainedOf = [
    ...new Set(view.complaints.flatMap(({ data }) => (data.pest === undefined ? [] : [data.pest]))),
  ]
  const byPlace = new Map<string, Seen[]>()
  for (const [key, looks] of looksOf(view, () => complainedOf)) {
    const [area = '', pest = ''] = key.split(' ')
    const place = getOrMake(byPlace, `${area} ${groupOf(pest)}`, () => [])
    for (const look of looks) place.push({ look, pest })
  }
  return ({ data: { area, pest }, day }) => {
    if (area === undefined) return { seen: [], confirmed: 'no-area' }
    if (pest === undefined || groupOf(pest) === 'unidentified') return { seen: [], confirmed: 'no-pest' }
    const near = (byPlace.get(`${area} ${groupOf(pest)}`) ?? []).filter(
      ({ look }) => Math.abs(look.day - day) <= confirmingDays,
    )
    const seen = near
      .filter(({ look }) => look.animals > 0 || look.signs.length > 0)
      .sort((a, b) => a.look.day - b.look.day || compareText(a.pest, b.pest))
    // What spoke for it early waits for its days too, as what did not must.
    if (day + confirmingDays > view.asOf) return { seen, confirmed: 'too-soon' }
    if (near.length === 0) return { seen, confirmed: 'not-looked' }
    return { seen, confirmed: seen.length > 0 }
  }
}

/** Neither withdrawn nor answered, in a site that is not closed. */
export function isOpenOn({ withdrawn, answered, followedTo }: ComplaintFacts, day: Day): boolean {
  return withdrawn === undefined && answered === undefined && followedTo >= day
}
