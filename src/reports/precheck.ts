import type { DraftedApplication, Precheck } from '../check/precheck.js'
import { precheck } from '../check/precheck.js'
import type { Source } from '../files/source.js'
import { isoOf } from '../measure/calendar.js'
import { ruleById } from '../rules/all.js'
import type { Day, Problem, Report, Row, Table } from '../types.js'
import { levels } from '../types.js'
import { areaName } from './area-name.js'
import { earliestReentry, momentsTable, reentryTable } from './precheck-moments.js'
import { recordTable } from './precheck-record.js'
import type { NotLookedAt } from './precheck-unchecked.js'
import { notLookedAt, notLookedAtTable } from './precheck-unchecked.js'

const cautions = [
  'This is no permission. It tells what the rules in this ledger would say; the label on the container, local code and a licensed applicator decide.',
  'Duties of rulebooks that the district does not list, and of local code, are not in it.',
  'The record is taken as drafted: what turns out otherwise on the day is judged otherwise.',
]

/** The report, and whether something stands in it that makes `check` fail by default. */
export interface PrecheckReport {
  readonly report: Report
  readonly found: Precheck
  readonly isBroken: boolean
}

/** What the rules would say of an application before it is made, and when what is asked beforehand is due. */
export function precheckReport(source: Source, draft: DraftedApplication, today: Day): PrecheckReport {
  const found = precheck(source, draft, today)
  const unseen = notLookedAt(found)
  const { later } = found.checked
  const report: Report = {
    report: 'precheck',
    title: `Before an application, ${found.view?.site.data.name ?? draft.path.site}`,
    headline: headlineOf(found, unseen),
    asOf: isoOf(draft.path.day),
    facts: factsOf(found, today),
    tables: [
      brokenTable(found),
      stillToDoTable(found),
      momentsTable(found, today),
      reentryTable(found),
      recordTable(found),
      otherwiseTable(found),
      exceptedTable(found),
      notLookedAtTable(unseen),
    ],
    cautions,
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
  return { report, found, isBroken: found.broken.some(({ level }) => level !== 'note') }
}

function headlineOf({ broken, stillToDo }: Precheck, unseen: readonly NotLookedAt[]): string {
  const rules = new Set(broken.map(({ rule }) => rule)).size
  const parts = [
    rules === 0
      ? 'Of what was looked at, nothing would be broken as drafted'
      : `As drafted, ${rules === 1 ? 'one rule' : `${rules} rules`} would be broken`,
    ...(stillToDo.length === 0
      ? []
      : [`${stillToDo.length === 1 ? 'one thing is' : `${stillToDo.length} things are`} still to do`]),
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
  add('nobody comes back earlier than', earliestReentry(view, treatment))
  add('rulebooks asked', rulebooksOn(view.district.district.data.rulebooks, draft.path.day))
  return facts
}

function rulebooksOn(
  listed: readonly { rulebook: string; from: string; until?: string | undefined }[],
  day: Day,
): string {
  const on = isoOf(day)
  const names = listed
    .filter(({ from, until }) => from <= on && (until === undefined || on <= until))
    .map(({ rulebook }) => rulebook)
  return names.length === 0 ? 'none is in force on that day' : names.join(', ')
}

const problemColumns = [
  { id: 'level', title: 'level' },
  { id: 'says', title: 'what' },
  { id: 'where', title: 'where' },
  { id: 'rule', title: 'rule' },
  { id: 'from', title: 'true from', for: 'work' },
  { id: 'sources', title: 'sources', for: 'work' },
] as const

function brokenTable({ broken, view }: Precheck): Table {
  return {
    id: 'broken',
    title: 'Would be broken as drafted',
    columns: problemColumns,
    rows: inOrder(broken).map(problemRow),
    empty: view ? 'Nothing, of what was looked at.' : 'Not looked at.',
  }
}

function stillToDoTable({ stillToDo, view }: Precheck): Table {
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
    rows: sorted.map(({ problem, when, because, lastDay }) => {
      const { cells, records } = problemRow(problem)
      return { cells: { ...cells, when, because, 'last-day': isoOf(lastDay) }, records }
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

function inOrder(problems: readonly Problem[]): Problem[] {
  return [...problems].sort(
    (a, b) =>
      levels.indexOf(a.level) - levels.indexOf(b.level) || (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  )
}

function problemRow(problem: Problem): Row {
  const { rule, level, args, at, from, sources, related } = problem
  return {
    cells: {
      level,
      says: ruleById(rule)?.says(args) ?? rule,
      where: [at.file.split('/').slice(-2).join('/'), at.path.join('.')]
        .filter((part) => part !== '')
        .join(': '),
      rule,
      from: isoOf(from),
      sources: sources.map(({ text }) => text).join('; '),
    },
    records: [...new Set([at.file, ...related.map(({ place }) => place.file)])],
  }
}
