import type { Look } from '../ledger/evidence.js'
import { looksOf } from '../ledger/evidence.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Day } from '../types.js'
import type { ConditionSpell } from './conditions-collect.js'
import { needWords } from './conditions-words.js'
import type { Period } from './period.js'
import { governs, plansInForce } from './plans-in-force.js'

/** A pest has come to an area when it is found after so many days, and so many looks, without it. */
export const quietDays = 90
export const quietLooks = 3
/** Days before in which a condition counts as having been open. */
export const daysBefore = 90

/** What a condition may feed: each need, and any condition at all. */
export const anyCondition = 'any'
export type Feeds = keyof typeof needWords | typeof anyCondition
export const allFeeds = [anyCondition, ...Object.keys(needWords)] as readonly Feeds[]

export interface PestOnset {
  readonly site: string
  readonly area: string
  readonly pest: string
  readonly day: Day
  /** Day it was last seen before, or the first look of all. */
  readonly quietSince: Day
  /** Conditions open there in the days before, by what they feed; of the same site. */
  readonly before: readonly ConditionSpell[]
  readonly files: readonly string[]
}

/** Area-days on which a pest could have been noticed to come, and how often one came, with such a condition and in all. */
export interface ComeAndDays {
  daysWith: number
  onsetsWith: number
  days: number
  onsets: number
}

/** By kind of area and pest, so that kitchens are held against kitchens; then by what the condition feeds. */
export type OnsetStrata = Map<string, Map<Feeds, ComeAndDays>>

type Stretch = readonly [first: Day, last: Day]

/** Adds one site to the strata, and gives the onsets found there in the period. */
export function gatherOnsets(
  view: SiteView,
  spells: readonly ConditionSpell[],
  period: Period,
  strata: OnsetStrata,
): PestOnset[] {
  const plans = plansInForce(view.district, view.asOf)
  const looks = looksOf(view, (area) =>
    [...plans.keys()].filter((pest) => governs(plans.get(pest), view.areas.get(area))),
  )
  const inArea = new Map<string, ConditionSpell[]>()
  for (const spell of spells)
    if (spell.area !== undefined) getOrMake(inArea, spell.area, () => []).push(spell)
  const stretches = new Map([...inArea].map(([area, of]) => [area, stretchesOf(of)]))
  const onsets: PestOnset[] = []
  for (const [key, history] of looks) {
    const [id = '', pest = ''] = key.split(' ')
    const area = view.areas.get(id)
    if (!area) continue
    const within: Stretch = [
      Math.max(period.from, area.from),
      Math.min(period.to, area.until ?? period.to, view.ends ?? period.to),
    ]
    const open = stretches.get(id)
    const counts = getOrMake(strata, `${area.facts.kind} ${pest}`, emptyCounts)
    for (const { look, quietSince, watched, isOnset } of watchedStretches(history)) {
      const first = Math.max(watched[0], within[0])
      const last = Math.min(watched[1], within[1])
      if (first > last) continue
      const isCounted = isOnset && look.day === last
      count(counts, open, [first, last], isCounted)
      if (!isCounted) continue
      const before = (inArea.get(id) ?? []).filter((spell) => openBefore(spell, look.day))
      onsets.push({ site: view.id, area: id, pest, day: look.day, quietSince, before, files: look.files })
    }
  }
  return onsets
}

function emptyCounts(): Map<Feeds, ComeAndDays> {
  return new Map(allFeeds.map((feeds) => [feeds, { daysWith: 0, onsetsWith: 0, days: 0, onsets: 0 }]))
}

function count(
  counts: Map<Feeds, ComeAndDays>,
  open: ReadonlyMap<Feeds, readonly Stretch[]> | undefined,
  days: Stretch,
  isOnset: boolean,
): void {
  for (const [feeds, one] of counts) {
    const stretches = open?.get(feeds) ?? []
    one.days += days[1] - days[0] + 1
    one.daysWith += overlap(stretches, days)
    if (!isOnset) continue
    one.onsets++
    if (overlap(stretches, [days[1], days[1]]) > 0) one.onsetsWith++
  }
}

/**
 * The days before each look on which the pest, had it been noticed, would have come after a quiet time. What comes is
 * noticed at a look only, so days after the last look are not watched.
 */
function* watchedStretches(history: readonly Look[]) {
  let quietSince: Day | undefined
  let looks = 0
  let before: Day | undefined
  for (const look of history) {
    const isThere = look.animals > 0 || look.signs.length > 0
    if (quietSince !== undefined && before !== undefined && looks >= quietLooks) {
      const watched: Stretch = [Math.max(before + 1, quietSince + quietDays), look.day]
      if (watched[0] <= watched[1]) yield { look, quietSince, watched, isOnset: isThere }
    }
    quietSince = isThere ? look.day : (quietSince ?? look.day)
    looks = isThere ? 0 : looks + 1
    before = look.day
  }
}

/** Open at some time in the days before: found the day before at the latest, and not put right too long ago. */
function openBefore(spell: ConditionSpell, day: Day): boolean {
  const [first, last] = countsOn(spell)
  return first <= day && day <= last
}

/** The days on which a spell counts as having been open before. */
function countsOn({ found, closed }: ConditionSpell): Stretch {
  return [found + 1, closed === undefined ? Number.MAX_SAFE_INTEGER : closed + daysBefore]
}

function stretchesOf(spells: readonly ConditionSpell[]): Map<Feeds, Stretch[]> {
  const of = (wanted: readonly ConditionSpell[]) => merged(wanted.map(countsOn))
  return new Map(
    allFeeds.map((feeds) => [
      feeds,
      of(feeds === anyCondition ? spells : spells.filter(({ gives }) => gives === feeds)),
    ]),
  )
}

function merged(stretches: readonly Stretch[]): Stretch[] {
  const apart: Stretch[] = []
  for (const [first, last] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const latest = apart.at(-1)
    if (latest && first <= latest[1] + 1) apart[apart.length - 1] = [latest[0], Math.max(latest[1], last)]
    else apart.push([first, last])
  }
  return apart
}

function overlap(stretches: readonly Stretch[], [first, last]: Stretch): number {
  let days = 0
  for (const stretch of stretches)
    days += Math.max(0, Math.min(last, stretch[1]) - Math.max(first, stretch[0]) + 1)
  return days
}
