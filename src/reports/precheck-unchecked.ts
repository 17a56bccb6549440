import type { Precheck } from '../check/precheck.js'
import type { OtherDay } from '../check/precheck-other-days.js'
import type { SiteView } from '../ledger/site-view.js'
import { dayIn, inForce } from '../ledger/spans.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { isoOf } from '../measure/calendar.js'
import { timeZone } from '../measure/zone.js'
import type { Table } from '../types.js'
import { unsureClock } from './clock-words.js'
import { noticeRows, signRows, whyUnsaid } from './precheck-moments.js'

export interface NotLookedAt {
  readonly what: string
  readonly why: string
  /** So much hangs on it that the answer as a whole is not complete. */
  readonly isWeighty: boolean
}

/** What could not be looked at, or only in part, since the draft or the ledger does not tell it. */
export function notLookedAt({ view, treatment, draft, checked }: Precheck): NotLookedAt[] {
  const found: NotLookedAt[] = checked.notChecked.map(({ what, why }) => ({ what, why, isWeighty: true }))
  if (!view) {
    if (found.length === 0)
      found.push({ what: `sites/${draft.path.site}`, why: 'it could not be read', isWeighty: true })
    return found
  }
  if (!treatment)
    return [
      ...found,
      { what: 'the application', why: 'the draft does not read as one that was done', isWeighty: true },
    ]
  return [
    ...found,
    ...ofDays(view, treatment),
    ...ofNames(view, treatment),
    ...ofLabel(treatment),
    ...ofDraft(view, treatment),
    ...ofMoments(view, treatment),
  ]
}

const weighty = (what: string, why: string): NotLookedAt => ({ what, why, isWeighty: true })
const slight = (what: string, why: string): NotLookedAt => ({ what, why, isWeighty: false })

function ofDays(view: SiteView, { day, application }: Treatment): NotLookedAt[] {
  const { district } = view.district
  const found: NotLookedAt[] = []
  if (day < view.begins)
    found.push(weighty('most duties', `records of this site begin on ${isoOf(view.begins)}, after that day`))
  if (view.ends !== undefined && day > view.ends)
    found.push(weighty('most duties', `this site was closed on ${isoOf(view.ends)}, before that day`))
  const years = district.data.calendar
  const lastDay = Math.max(...years.map(({ until }) => dayIn(until)))
  const firstDay = Math.min(...years.map(({ from }) => dayIn(from)))
  if (years.length === 0)
    found.push(slight('school days', 'no school year is stated, so every Monday to Friday was taken for one'))
  else if (day > lastDay)
    found.push(
      weighty(
        'school days, and when pupils are expected',
        `the school calendar of district.yaml ends on ${isoOf(lastDay)}, before that day`,
      ),
    )
  else if (day < firstDay)
    found.push(
      weighty(
        'school days, and when pupils are expected',
        `the school calendar of district.yaml begins on ${isoOf(firstDay)}, after that day`,
      ),
    )
  else if (application?.emergency && view.district.calendar.nextSchoolDay(day + 1) > lastDay)
    found.push(
      weighty(
        'the next school day',
        `the school calendar of district.yaml ends on ${isoOf(lastDay)}, and the next school day lies after it`,
      ),
    )
  if (!timeZone(district.data['time-zone']))
    found.push(weighty('hours', `${district.data['time-zone']} is no time zone that is known`))
  return found
}

function ofNames(view: SiteView, { product, productId, areas, by }: Treatment): NotLookedAt[] {
  const found: NotLookedAt[] = []
  if (!product)
    found.push(
      weighty('everything that hangs on the product', `${productId} is not in the register, under products/`),
    )
  for (const { id, area } of areas)
    if (!area) found.push(weighty(`what hangs on the place ${id}`, `the site has no area ${id}`))
  if (!view.district.people.has(by))
    found.push(weighty('licences and training', `${by} is not in the ledger, under people/`))
  return found
}

const labelFactWords = {
  places: 'places',
  methods: 'methods',
  rates: 'rates',
  interval: 'interval between applications',
  'applications-a-year': 'applications in a year',
  'amount-a-year': 'amount in a year',
  'keep-out': 're-entry time',
  'keep-out-until-dry': 'keeping out until dry',
  ventilate: 'ventilation',
  'with-people-present': 'use with people present',
} as const

function ofLabel(treatment: Treatment): NotLookedAt[] {
  const { product, day } = treatment
  if (!product) return []
  if (!isPesticide(treatment))
    return [slight('duties about pesticides', `by the register ${product.data.name} is no pesticide`)]
  const label = inForce(product.data.labels, day)
  if (!label) return [weighty('the label', 'no label of that day is in the register')]
  if (!label.says) return [weighty('the label', 'what it says is not entered in the register')]
  const { says } = label
  const left: string[] = Object.entries(labelFactWords)
    .filter(([fact]) => says[fact as keyof typeof labelFactWords] === undefined)
    .map(([, words]) => words)
  if (says.pests === undefined && says['pest-groups'] === undefined) left.push('pests')
  return left.length === 0
    ? []
    : [slight('part of the label', `the register does not say what it says of: ${left.join(', ')}`)]
}

function ofDraft(view: SiteView, treatment: Treatment): NotLookedAt[] {
  const { application: facts } = treatment
  const found: NotLookedAt[] = []
  if (!facts) return found
  if (facts.time === undefined)
    found.push(
      slight(
        'hours',
        'the draft states none; moments before are counted from the start of the day, and after from its end',
      ),
    )
  else {
    const unsure = facts.time.split(' to ').flatMap((text) => unsureClock(view, treatment.day, text) ?? [])
    for (const why of new Set(unsure)) found.push(slight('exact moments', why))
  }
  if (treatment.amount === undefined && treatment.areas.some(({ amount }) => amount === undefined))
    found.push(slight('rates', 'the draft does not state the amount'))
  if (facts.pupils === undefined) found.push(slight('pupils', 'the draft does not say where they will be'))
  if (treatment.formulation === undefined)
    found.push(slight('the formulation', 'neither the draft nor the register tells it'))
  return found
}

/** What could not be looked at on an other day of the draft, beyond what could not on the first. */
export function notLookedAtThen(
  first: readonly NotLookedAt[],
  { day, found, unsure }: OtherDay,
): NotLookedAt[] {
  const known = new Set(first.map(({ what }) => what))
  const more = notLookedAt(found).filter(({ what }) => !known.has(what))
  const notices = unsure.map((file) =>
    slight(
      'whether people were told of it',
      `${file} does not list what it says, so that whether it gives the other days is not recorded; it was counted`,
    ),
  )
  return [...more, ...notices].map(({ what, why, isWeighty }) => ({
    what: `${isoOf(day)}: ${what}`,
    why,
    isWeighty,
  }))
}

/** Moments that hang on school days of which the calendar does not tell, each reason once. */
function ofMoments(view: SiteView, treatment: Treatment): NotLookedAt[] {
  const rows = [...noticeRows(view, treatment, treatment.day), ...signRows(view, treatment, treatment.day)]
  const reasons = rows.flatMap(({ cells: { latest, earliest, stays } }) =>
    [latest, earliest, stays].flatMap((cell) => whyUnsaid(cell) ?? []),
  )
  return [...new Set(reasons)].map((why) =>
    weighty('moments that are counted in school days', `${why}, so that they cannot be said`),
  )
}

export function notLookedAtTable(found: readonly NotLookedAt[]): Table {
  return {
    id: 'not-checked',
    title: 'What could not be looked at',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'why', title: 'why' },
    ],
    rows: found.map(({ what, why }) => ({ cells: { what, why }, records: [] })),
    empty: 'Nothing that the draft and the ledger could have told.',
  }
}
