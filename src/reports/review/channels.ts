import type { Row } from '../../types.js'
import { counted } from '../outcomes.js'
import { answered, unended } from './answered.js'
import type { YearFacts } from './facts.js'
import { commandFor } from './facts.js'
import { pointIf } from './overlooked.js'
import { numberIn, pick, rowsOf, sumOf } from './pick.js'
import type { Answer } from './review.js'

/** Sections of a rulebook that ask for word to be given. */
const ofWord = new Set(['notices', 'postings', 'emergencies'])

/** Whether a duty is one to give notice or put up a sign, also in an emergency. */
export const isOfWord = ({ cells }: Row) => ofWord.has(String(cells.section))

/** How long complaints waited, whether notices and signs were in time, and whether the complaint log was read. */
export function channels(facts: YearFacts): Answer {
  const { complaints, compliance, contract } = facts.reports
  const duties = rowsOf(compliance, 'duties').filter(isOfWord)
  const having = (outcome: string) => duties.filter(({ cells }) => cells.outcome === outcome).length
  const [shown, notShown, unchecked] = [having('shown'), having('not shown'), having('cannot be checked')]
  const asked = shown + notShown + unchecked
  const visits = rowsOf(contract, 'on-visits')
  const logNotRead = sumOf(visits, 'log-not-read')
  const [all] = rowsOf(complaints, 'answered')
  const late = numberIn(all?.cells['in-time-of']) - numberIn(all?.cells['in-time-count'])
  return answered(facts, {
    id: 'channels',
    question: 'Do the channels work: complaints, notices, the log?',
    answer: [
      unended(complaints.headline),
      asked === 0
        ? 'no notice or sign was asked for'
        : `of ${counted(asked, 'notice or sign', 'notices and signs')} asked for, ${shown} ${shown === 1 ? 'is' : 'are'} shown in time and whole`,
      `the complaint log is not shown as read on ${logNotRead} of ${counted(sumOf(visits, 'routine-visit'), 'routine visit')}.`,
    ].join('; '),
    tables: [...complaintTables(facts), ...noticeTables(facts), ...logTable(facts)],
    commands: ['complaints', 'compliance', 'contract'].map((report) => commandFor(facts, report)),
    points: [
      ...pointIf(
        notShown,
        duties.some(({ cells }) => cells.outcome === 'not shown' && cells.kind === 'law') ? 1 : 2,
        `${counted(notShown, 'notice or sign is', 'notices and signs are')} not shown as given in time and whole`,
      ),
      ...pointIf(late, 2, `${counted(late, 'complaint was', 'complaints were')} not answered in time`),
      ...pointIf(
        logNotRead,
        2,
        `on ${counted(logNotRead, 'routine visit')} the complaint log is not shown as read`,
      ),
    ],
  })
}

function complaintTables(facts: YearFacts) {
  const columns = [
    'answered-shown',
    'withdrawn',
    'days-shown',
    'in-time-shown',
    'repeats',
    'confirmed-shown',
    'open',
    'overdue',
    'received',
  ]
  const whole = pick(facts, {
    report: 'complaints',
    table: 'answered',
    title: 'Complaints of the year',
    columns,
  })
  const bySite = pick(facts, {
    report: 'complaints',
    table: 'answered-by-site',
    title: 'Complaints, site by site',
    columns: ['site', ...columns],
  })
  if (!facts.withParts.has('complaints')) return [...whole, ...bySite]
  const log = pick(facts, {
    report: 'complaints',
    table: 'complaints',
    title: 'The complaint log of the year, the latest first',
    columns: ['site', 'area', 'pest', 'received', 'state', 'answered', 'days', 'in-time', 'found', 'says'],
  }).map((table) => ({
    ...table,
    for: undefined,
    // What is work in the report is what this page was asked for.
    columns: table.columns.map(({ for: _, ...column }) => column),
  }))
  return [...whole, ...bySite, ...log.map(({ for: _, ...table }) => table)]
}

function noticeTables(facts: YearFacts) {
  return pick(facts, {
    report: 'compliance',
    table: 'by-clause',
    title: 'Notices and signs that rulebooks ask for, by clause',
    columns: [
      'duty-and-clause',
      'came-of-it',
      'duty',
      'shown',
      'not-shown',
      'not-checked',
      'not-applicable',
      'section',
    ],
    only: isOfWord,
    empty: 'No rulebook in force asks for any.',
  })
}

function logTable(facts: YearFacts) {
  return pick(facts, {
    report: 'contract',
    table: 'on-visits',
    title: 'Routine visits on which the complaint log is not shown as read, or no one of the site is named',
    columns: ['site', 'routine-visit', 'log-not-read', 'manager-not-told'],
  }).map((table) => ({ ...table, id: `${table.id}-log` }))
}
