import type { RecordOf } from '../records/kinds.js'
import type { Citation, Day } from '../types.js'
import type { DistrictView } from './district-view.js'
import type { Loaded } from './loaded.js'
import type { Duty } from './rulebooks-in-force.js'
import { dayIn, holdsOn } from './spans.js'

export type Licence = NonNullable<RecordOf<'person'>['licences']>[string]

/** What a duty asks of a licence. */
export interface LicenceAsked {
  /** State that gave it; any if undefined. */
  readonly state: string | undefined
  /** One of these categories, in the words of the licence; any if there are none. */
  readonly categories: readonly string[]
}

/**
 * How someone's licences answer what is asked, on one day. `certified` and `uncertified`: one of the state and a
 * category asked is in force. `not-in-force`: there is none in force of that state and category, but on other days
 * there is; or none in force at all. The other two: something is in force, and falls short.
 */
export type Standing =
  | 'certified'
  | 'uncertified'
  | 'without-category'
  | 'of-another-state'
  | 'not-in-force'
  | 'no-licence'

export interface LicenceStanding {
  readonly is: Standing
  /** The licences it rests on: those in force, or those that would do if they were. */
  readonly licences: readonly Licence[]
  /** Last day on which a licence that would do was in force, before this day. */
  readonly ended: Day | undefined
  /** Next day from which one is. */
  readonly begins: Day | undefined
}

export function licencesOf(holder: Loaded<'person'> | Loaded<'firm'>): readonly Licence[] {
  return Object.values(holder.data.licences ?? {})
}

export function askedBy({ says, state }: Duty<'licences'>): LicenceAsked {
  return { state: says['in-state'] === 'yes' ? state : undefined, categories: says.categories ?? [] }
}

/** Whether its holder applies alone and supervises; a licence is read so unless it says otherwise. */
export function isCertified(licence: Licence): boolean {
  return licence.certified !== 'no'
}

/** The licences as they stood on the day. */
export function standingOf(licences: readonly Licence[], asked: LicenceAsked, day: Day): LicenceStanding {
  if (licences.length === 0) return { is: 'no-licence', licences, ended: undefined, begins: undefined }
  const inForce = licences.filter((licence) => isInForce(licence, day))
  const thatDo = licences.filter((licence) => isOfState(licence, asked) && isOfCategory(licence, asked))
  const nowThatDo = thatDo.filter((licence) => isInForce(licence, day))
  const between = (some: readonly Licence[]) => ({
    ended: endBefore(some, day),
    begins: beginningAfter(some, day),
  })
  if (nowThatDo.some(isCertified)) return { is: 'certified', licences: nowThatDo, ...between(thatDo) }
  if (nowThatDo.length > 0)
    return { is: 'uncertified', licences: nowThatDo, ...between(thatDo.filter(isCertified)) }
  if (thatDo.length > 0) return { is: 'not-in-force', licences: thatDo, ...between(thatDo) }
  if (inForce.length === 0)
    return { is: 'not-in-force', licences, ended: endBefore(licences, day), begins: undefined }
  const ofState = inForce.filter((licence) => isOfState(licence, asked))
  return ofState.length > 0
    ? { is: 'without-category', licences: ofState, ...between(thatDo) }
    : { is: 'of-another-state', licences: inForce, ...between(thatDo) }
}

/** Whether someone was a certified applicator on the day, of whatever state and category. */
export function isCertifiedOn(person: Loaded<'person'>, day: Day): boolean {
  return licencesOf(person).some((licence) => isCertified(licence) && isInForce(licence, day))
}

/** Whether someone was a coordinator of the district on the day. */
export function isCoordinatorOn({ district }: DistrictView, person: string, day: Day): boolean {
  return district.data.coordinator.some((span) => span.who === person && holdsOn(span, day))
}

/** The sources of several duties, each once, in their order. */
export function citationsOf(duties: readonly { readonly citation: Citation }[]): Citation[] {
  const byText = new Map(duties.map(({ citation }) => [`${citation.kind} ${citation.text}`, citation]))
  return [...byText.values()]
}

function isInForce(licence: Licence, day: Day): boolean {
  return licence.spans.some((span) => holdsOn(span, day))
}

function isOfState(licence: Licence, { state }: LicenceAsked): boolean {
  return state === undefined || licence.state === state
}

/** States write a category now with a capital and now without. */
function isOfCategory(licence: Licence, { categories }: LicenceAsked): boolean {
  if (categories.length === 0) return true
  const held = new Set(licence.categories.map(plain))
  return categories.some((category) => held.has(plain(category)))
}

function plain(category: string): string {
  return category.trim().toLowerCase()
}

function endBefore(licences: readonly Licence[], day: Day): Day | undefined {
  const ends = licences
    .flatMap(({ spans }) => spans)
    .flatMap(({ until }) => (until !== undefined && dayIn(until) < day ? [dayIn(until)] : []))
  return ends.length === 0 ? undefined : Math.max(...ends)
}

function beginningAfter(licences: readonly Licence[], day: Day): Day | undefined {
  const begins = licences
    .flatMap(({ spans }) => spans)
    .map(({ from }) => dayIn(from))
    .filter((from) => from > day)
  return begins.length === 0 ? undefined : Math.min(...begins)
}
