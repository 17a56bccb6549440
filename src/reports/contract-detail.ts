import { isoOf } from '../measure/calendar.js'
import type { Day, Row, Table } from '../types.js'
import type { SpanFacts } from './contract-collect.js'
import type { DueOutcome } from './contract-outcomes.js'

const dayCell = (day: Day | undefined) => (day === undefined ? null : isoOf(day))

function outcomeWords(done: string, outcome: DueOutcome): string {
  return outcome === 'in time' || outcome === 'late' ? `${done} ${outcome}` : outcome
}

const daysLate = { id: 'days-late', title: 'days late', unit: 'days', decimals: 0 }

export function eachVisitTable(facts: readonly SpanFacts[]): Table {
  return {
    id: 'each-visit',
    title: 'Each routine visit due',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'contractor', title: 'contractor' },
      { id: 'about', title: 'month, or counted from' },
      { id: 'due-from', title: 'due from' },
      { id: 'last-day', title: 'last day' },
      { id: 'made', title: 'visit on record' },
      { id: 'by', title: 'by' },
      { id: 'next-visit', title: 'next visit on record' },
      daysLate,
      { id: 'outcome', title: 'outcome' },
    ],
    rows: facts.flatMap(({ span, visits }) =>
      visits.map(
        (fact): Row => ({
          cells: {
            site: span.site,
            contractor: span.contract?.contractor ?? null,
            about: fact.about,
            'due-from': isoOf(fact.first),
            'last-day': isoOf(fact.lastDay),
            made: dayCell(fact.made),
            by: fact.by === '' ? null : fact.by,
            'next-visit': dayCell(fact.next),
            'days-late': fact.outcome === 'late' ? fact.daysLate : null,
            outcome: outcomeWords('made', fact.outcome),
          },
          records: fact.files,
        }),
      ),
    ),
    empty: 'No routine visit was due in this period.',
    for: 'work',
  }
}

export function eachComplaintTable(facts: readonly SpanFacts[]): Table {
  return {
    id: 'each-complaint',
    title: 'Each complaint',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'complaint', title: 'complaint' },
      { id: 'received', title: 'received' },
      { id: 'within', title: 'to be answered within', unit: 'days', decimals: 0 },
      { id: 'asked-by', title: 'asked by' },
      { id: 'answered', title: 'answered' },
      daysLate,
      { id: 'outcome', title: 'outcome' },
      { id: 'why', title: 'because' },
    ],
    rows: facts.flatMap(({ span, complaints }) =>
      complaints.map(
        (fact): Row => ({
          cells: {
            site: span.site,
            complaint: fact.complaint,
            received: isoOf(fact.day),
            within: fact.days ?? null,
            'asked-by': fact.askedBy ?? null,
            answered: dayCell(fact.answered),
            'days-late': fact.outcome === 'late' ? fact.daysLate : null,
            outcome: outcomeWords('answered', fact.outcome),
            why: fact.why === '' ? null : fact.why,
          },
          records: fact.files,
        }),
      ),
    ),
    empty: 'No complaint was received in this period.',
    for: 'work',
  }
}

export function lateChecksTable(facts: readonly SpanFacts[]): Table {
  return {
    id: 'late-checks',
    title: 'Each check of a device that was late or has no record',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'device', title: 'device' },
      { id: 'kind', title: 'kind' },
      { id: 'area', title: 'area' },
      { id: 'asked-by', title: 'asked by' },
      { id: 'interval', title: 'interval' },
      { id: 'since', title: 'counted from' },
      { id: 'last-day', title: 'last day' },
      { id: 'read', title: 'read on' },
      daysLate,
      { id: 'outcome', title: 'outcome' },
      { id: 'told-by', title: '`check` tells it as' },
    ],
    rows: facts.flatMap(({ span, checks }) =>
      checks.flatMap(({ askedBy, late }) =>
        late.map(
          (fact): Row => ({
            cells: {
              site: span.site,
              device: fact.device,
              kind: fact.kind,
              area: fact.area,
              'asked-by': askedBy,
              interval: fact.interval,
              since: isoOf(fact.since),
              'last-day': isoOf(fact.lastDay),
              read: dayCell(fact.read),
              'days-late': fact.outcome === 'late' ? fact.daysLate : null,
              outcome: outcomeWords('read', fact.outcome),
              'told-by': fact.toldBy ?? 'device-overdue',
            },
            records: fact.files,
          }),
        ),
      ),
    ),
    empty: 'Every check of a device that was due in this period is on record in time.',
    for: 'work',
  }
}
