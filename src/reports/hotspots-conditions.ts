import { compareText } from '../ledger/compare-text.js'
import type { ConditionEvent, ConditionHistory } from '../ledger/condition-history.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Row, Table } from '../types.js'
import { areaName } from './area-name.js'
import type { JudgedDevice } from './hotspots-judge.js'
import type { PlaceFound } from './hotspots-tables.js'
import type { Period } from './period.js'
import { pestName } from './pest-name.js'

/** A condition that was open on some day of the period, as it stood at the end of it. */
export interface ConditionThere {
  readonly site: string
  readonly area: string
  readonly areaName: string
  readonly id: string
  readonly says: string
  readonly gives: ConditionHistory['gives']
  readonly owner: ConditionHistory['owner']
  readonly since: Day
  /** The day it was put right; null while it is open. */
  readonly putRight: Day | null
  readonly files: readonly string[]
}

export function conditionsThere(view: SiteView, period: Period): ConditionThere[] {
  return view.conditions.flatMap((condition) => {
    const { area, id, says, gives } = condition
    const events = condition.events.filter(({ day }) => day <= period.to)
    const [first] = events
    if (area === undefined || first === undefined) return []
    const putRight = putRightOn(events)
    if (putRight !== null && putRight < period.from) return []
    return [
      {
        site: view.id,
        area,
        areaName: areaName(view, area),
        id,
        says,
        gives,
        owner: events.findLast(({ owner }) => owner !== undefined)?.owner,
        since: first.day,
        putRight,
        files: [...new Set(events.map(({ at }) => at.file))],
      },
    ]
  })
}

/** The day from which a condition is no longer open; null while it is. */
function putRightOn(events: readonly ConditionEvent[]): Day | null {
  let putRight: Day | null = null
  for (const { kind, day } of events) {
    if (kind === 'new' || kind === 'still') putRight = null
    else if (kind !== 'holds') putRight ??= day
  }
  return putRight
}

/** An area in which a place or a device stands out for a pest. */
export interface Spotted {
  readonly site: string
  readonly area: string
  readonly pest: string
  /** What stands out there: `place`, or the device. */
  readonly what: string
}

export function spottedIn(found: readonly PlaceFound[], outlying: readonly JudgedDevice[]): Spotted[] {
  return [
    ...found.flatMap(({ scan: { map }, judged }) =>
      judged.members.map(({ area }) => ({ site: map.site, area, pest: map.pest, what: 'place' })),
    ),
    ...outlying.map(({ map, place }) => ({
      site: map.site,
      area: place.area,
      pest: map.pest,
      what: place.device,
    })),
  ]
}

/** Open ones first, of these openings first; then by site, in the order in which they were found. */
export function compareConditions(a: ConditionThere, b: ConditionThere): number {
  const rank = ({ putRight, gives }: ConditionThere) =>
    (putRight === null ? 0 : 2) + (gives === 'entry' ? 0 : 1)
  return rank(a) - rank(b) || compareText(a.site, b.site) || a.since - b.since || compareText(a.id, b.id)
}

/** The conditions in the areas of what stands out, once for each pest that stands out there. */
export function conditionsTable(conditions: readonly ConditionThere[], spotted: readonly Spotted[]): Table {
  return {
    id: 'conditions',
    title: 'Conditions in the same areas: places to look, no proof',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'pest', title: 'pest' },
      { id: 'beside', title: 'stands out there' },
      { id: 'what', title: 'what is wrong' },
      { id: 'gives', title: 'gives' },
      { id: 'since', title: 'since' },
      { id: 'state', title: 'stands' },
      { id: 'owner', title: 'who' },
    ],
    shownToPeople: 20,
    rows: rowsOf(conditions, spotted),
    empty:
      spotted.length === 0
        ? 'Nothing stands out, so no area was looked at for conditions.'
        : 'None was open in those areas in this period.',
  }
}

function rowsOf(conditions: readonly ConditionThere[], spotted: readonly Spotted[]): Row[] {
  const pests = [...new Set(spotted.map(({ pest }) => pest))].sort(compareText)
  return [...conditions].sort(compareConditions).flatMap((condition) =>
    pests.flatMap((pest) => {
      const what = spotted
        .filter((one) => one.site === condition.site && one.area === condition.area && one.pest === pest)
        .map((one) => one.what)
      return what.length === 0 ? [] : [conditionRow(condition, pest, [...new Set(what)].sort(compareText))]
    }),
  )
}

function conditionRow(condition: ConditionThere, pest: string, beside: readonly string[]): Row {
  return {
    cells: {
      site: condition.site,
      area: condition.areaName,
      pest: pestName(pest),
      beside: beside.join(', '),
      what: condition.says,
      gives: condition.gives ?? 'not said',
      since: isoOf(condition.since),
      state: condition.putRight === null ? 'open' : `put right ${isoOf(condition.putRight)}`,
      owner: condition.owner ?? 'nobody named',
    },
    records: condition.files,
  }
}
