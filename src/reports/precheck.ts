import type { DraftedApplication, Precheck } from '../check/precheck.js'
import { precheck } from '../check/precheck.js'
import type { OtherDay } from '../check/precheck-other-days.js'
import { otherDays } from '../check/precheck-other-days.js'
import type { Source } from '../files/source.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Report, Table } from '../types.js'
import { areaName } from './area-name.js'
import {
  earliestReentry,
  lastDayText,
  momentsTable,
  otherMomentsTable,
  reentryTable,
} from './precheck-moments.js'
import { otherDaysTable } from './precheck-other-days.js'
import { inOrder, problemColumns, problemRow } from './precheck-problems.js'
import { recordTable } from './precheck-record.js'
import type { NotLookedAt } from './precheck-unchecked.js'
import { notLookedAt, notLookedAtTable, notLookedAtThen } from './precheck-unchecked.js'
import { rulebooksOn } from './rulebooks-on.js'

const cautions = [
  'This is no permission. It tells what the rules in this ledger would say; the label on the container, local code and a licensed applicator decide.',
  'Duties of rulebooks that the district does not list, and of local code, are not in it.',
  'The record is taken as drafted: what turns out otherwise on the day is judged otherwise.',
]

const ofOtherDays =
  'Its other days were judged as if the whole draft were moved there and the first day had never been. A notice or sign that says `rain-dates` was counted for them too; one that lists what it says without them was not.'

/** The report, and whether something stands in it that makes `check` fail by default. */
export interface PrecheckReport {
  readonly report: Report
  readonly found: Precheck
  readonly others: readonly OtherDay[]
  readonly isBroken: boolean
}

/** What the rules would say of an application before it is made, and when what is asked beforehand is due. */
export function precheckReport(source: Source, draft: DraftedApplication, today: Day): PrecheckReport {
  const found = precheck(source, draft, today)
  const others = otherDays(source, draft, found, today)
  const ofFirst = notLookedAt(found)
  const unseen = [...ofFirst, ...others.flatMap((other) => notLookedAtThen(ofFirst, other))]
  const { later } = found.checked
  const report: Report = {
    report: 'precheck',
    title: `Before an application, ${found.view?.site.data.name ?? draft.path.site}`,
    headline: headlineOf(found, others, unseen),
    asOf: isoOf(draft.path.day),
    facts: factsOf(found, today),
    tables: [
      brokenTable(found),
      stillToDoTable(found),
      momentsTable(found, today),
      reentryTable(found),
      ...(others.length === 0 ? [] : [otherDaysTable(others), otherMomentsTable(others, today)]),
      recordTable(found),
      otherwiseTable(found),
      exceptedTable(found),
      notLookedAtTable(unseen),
    ],
    cautions: others.length === 0 ? cautions : [...cautions, ofOtherDays],
    notExamined:
      later === 0
        ? []
        : [
            later === 1
              ? 'One record dated after that day was not looked at.'
              : `${later} records dated after that day were not looked at.`,
          ],
    incomplete: unseen.some(({ isWeighty }) => isWeighty),
  }
  const all = [...found.broken, ...others.flatMap(({ broken }) => broken)]
  return { report, found, others, isBroken: all.some(({ level }) => level !== 'note') }
}

function headlineOf(
  { broken, stillToDo }: Precheck,
  others: readonly OtherDay[],
  unseen: readonly NotLookedAt[],
): string {
  const rules = new Set(broken.map(({ rule }) => rule)).size
  const worse = others.filter((other) => other.broken.length > 0)
  const parts = [
    rules === 0
      ? 'Of what was looked at, nothing would be broken as drafted'
      : `As drafted, ${rules === 1 ? 'one rule' : `${rules} rules`} would be broken`,
    ...(stillToDo.length === 0
      ? []
      : [`${stillToDo.length === 1 ? 'one thing is' : `${stillToDo.length} things are`} still to do`]),
    ...(worse.length === 0
      ? []
      : [`more would be broken on ${worse.map(({ day }) => isoOf(day)).join(', ')}`]),
    ...(unseen.some(({ isWeighty }) => isWeighty) ? ['NOT EVERYTHING COULD BE LOOKED AT'] : []),
  ]
  return `${parts.join('; ')}. This is no permission.`
}

function factsOf({ draft, view, treatment }: Precheck, today: Day): Report['facts'] {
  const facts = [{ label: 'draft', value: draft.path.file }]
  const add = (label: string, value: string | undefined) => {
    if (value !== undefined && value !== '') facts.push({ label, value })
  }
  add('today taken as', isoOf(today))
  if (!view || !treatment) return facts
  const { application } = treatment
  add('product', treatment.product?.data.name ?? treatment.productId)
  add('against', treatment.pests.join(', '))
  add('where', treatment.areas.map(({ id }) => areaName(view, id)).join(', '))
  add('by', view.district.people.get(treatment.by)?.data.name ?? treatment.by)
  add('time', application?.time ?? 'not stated')
  add('its other days', application?.['rain-dates']?.join(', '))
  add('nobody comes back earlier than', earliestReentry(view, treatment))
  add('rulebooks asked', rulebooksOn(view.district.district.data.rulebooks, draft.path.day))
  return facts
}

function brokenTable({ broken, view }: Precheck): Table {
  return {
    id: 'broken',
    title: 'Would be broken as drafted',
    columns: problemColumns,
    rows: inOrder(broken).map(problemRow),
    empty: view ? 'Nothing, of what was looked at.' : 'Not looked at.',
  }
}

function stillToDoTable(found: Precheck): Table {
  const { stillToDo, view } = found
  const order = ['before it begins', 'when it is carried out', 'afterwards']
  const sorted = [...stillToDo].sort(
    (a, b) =>
      order.indexOf(a.when) - order.indexOf(b.when) ||
      a.lastDay - b.lastDay ||
      (a.problem.rule < b.problem.rule ? -1 : 1),
  )
  return {
    id: 'still-to-do',
    title: 'Still to do: not on record yet',
    columns: [
      { id: 'when', title: 'when' },
      { id: 'last-day', title: 'last day' },
      { id: 'says', title: 'what check would say without it' },
      { id: 'rule', title: 'rule' },
      { id: 'level', title: 'level', for: 'work' },
      { id: 'because', title: 'why it is not broken yet', for: 'work' },
      { id: 'where', title: 'where', for: 'work' },
      { id: 'from', title: 'true from', for: 'work' },
      { id: 'sources', title: 'sources', for: 'work' },
    ],
    rows: sorted.map((one) => {
      const { problem, when, because } = one
      const { cells, records } = problemRow(problem)
      return { cells: { ...cells, when, because, 'last-day': lastDayText(found, one) }, records }
    }),
    empty: view ? 'Nothing, of what was looked at.' : 'Not looked at.',
  }
}

function otherwiseTable({ toldOtherwise }: Precheck): Table {
  return {
    id: 'told-otherwise',
    title: 'Told by `check` already, and of this application too once it is made',
    columns: problemColumns,
    rows: inOrder(toldOtherwise).map(problemRow),
    empty: 'Nothing.',
  }
}

function exceptedTable({ excepted }: Precheck): Table {
  return {
    id: 'excepted',
    title: 'Covered by an exception of the district',
    columns: [...problemColumns, { id: 'exception', title: 'exception' }],
    rows: excepted.map(({ problem, exception }) => {
      const { cells, records } = problemRow(problem)
      return { cells: { ...cells, exception }, records: [...records, exception] }
    }),
    empty: 'Nothing.',
  }
}
