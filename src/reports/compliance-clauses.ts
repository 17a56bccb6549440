import type { DistrictView } from '../ledger/district-view.js'
import { dayIn } from '../ledger/spans.js'
import type { RecordOf } from '../records/kinds.js'
import type { DutySection } from '../records/rulebook-duties.js'
import { dutySections } from '../records/rulebook-duties.js'
import { builtInRulebook, builtInRulebooks } from '../records/tables.js'
import type { Citation, Row, Table } from '../types.js'
import type { Application } from './compliance-collect.js'
import { dutyInWords } from './compliance-duties/words.js'
import type { HeldYearly } from './compliance-yearly.js'
import type { Outcome } from './outcomes.js'
import type { Period } from './period.js'

/** A rulebook that the district lists for some day of the period. */
export interface ListedRulebook {
  readonly id: string
  readonly from: string
  readonly until: string | undefined
  /** Undefined where there is none of that name, or its file cannot be used. */
  readonly data: RecordOf<'rulebook'> | undefined
  readonly file: string
}

export function rulebooksListed(district: DistrictView, { from, to }: Period): ListedRulebook[] {
  return district.district.data.rulebooks
    .filter((entry) => dayIn(entry.from) <= to && (entry.until === undefined || dayIn(entry.until) >= from))
    .map(({ rulebook: id, from: begins, until }) => {
      const own = district.ownRulebooks.get(id)
      const builtIn = (builtInRulebooks as readonly string[]).includes(id)
      const data =
        own?.data ?? (builtIn ? builtInRulebook(id as (typeof builtInRulebooks)[number]) : undefined)
      return { id, from: begins, until, data, file: own?.file ?? district.district.file }
    })
}

export function rulebooksTable(listed: readonly ListedRulebook[]): Table {
  return {
    id: 'rulebooks',
    title: 'Rulebooks in force in the ledger within the period',
    columns: [
      { id: 'rulebook', title: 'rulebook' },
      { id: 'title', title: 'title' },
      { id: 'in-force', title: 'in force here' },
      { id: 'read-on', title: 'sources read' },
      { id: 'covers', title: 'covers' },
    ],
    rows: listed.map(
      ({ id, from, until, data, file }): Row => ({
        cells: {
          rulebook: id,
          title: data?.title ?? 'there is no such rulebook that can be used',
          'in-force': until === undefined ? `from ${from}` : `${from} to ${until}`,
          'read-on': data?.['read-on'] ?? null,
          covers: data?.covers ?? null,
        },
        records: [file],
      }),
    ),
    empty: 'None: no duty of any rulebook is in force in this ledger.',
  }
}

interface Clause {
  readonly section: string
  readonly rulebook: string
  readonly name: string
  readonly duty: string
  readonly citation: Citation
  readonly counts: Map<Outcome, number>
}

/** Sections that are not asked of applications, with the table that tells of each. */
const toldIn: Partial<Record<DutySection, string>> = { keeping: 'keeping', yearly: 'yearly' }

/** Every duty in force on some day of the period, with what came of it; none is left out for want of an application. */
export function byClauseTable(
  district: DistrictView,
  { from, to }: Period,
  applications: readonly Application[],
  yearly: readonly HeldYearly[],
): Table {
  const clauses = new Map<string, Clause>()
  const clauseOf = (one: Omit<Clause, 'counts'>): Clause => {
    const key = [one.section, one.rulebook, one.name, one.citation.text].join('\n')
    const found = clauses.get(key) ?? { ...one, counts: new Map() }
    clauses.set(key, found)
    return found
  }
  // Before the district's first rulebook nothing is in force, however long the period.
  const first = Math.max(
    from,
    Math.min(...district.district.data.rulebooks.map((entry) => dayIn(entry.from))),
  )
  for (const section of dutySections)
    for (let day = first; day <= to; day++)
      for (const duty of district.rulebooks.duties(section, day)) {
        const { rulebook, name, citation } = duty
        clauseOf({ section, rulebook, name, citation, duty: dutyInWords(section, duty) })
      }
  const count = ({ counts }: Clause, outcome: Outcome) => counts.set(outcome, (counts.get(outcome) ?? 0) + 1)
  for (const { duties } of applications) for (const duty of duties) count(clauseOf(duty), duty.outcome)
  for (const { duty, outcome } of yearly)
    count(clauseOf({ section: 'yearly', ...duty, duty: dutyInWords('yearly', duty) }), outcome)
  return {
    id: 'by-clause',
    title: 'Every duty in force within the period, by clause',
    columns: [
      { id: 'duty-and-clause', title: 'duty, and its clause', for: 'people' },
      { id: 'came-of-it', title: 'what came of it', for: 'people' },
      { id: 'duty', title: 'duty', for: 'work' },
      { id: 'clause', title: 'clause', for: 'work' },
      { id: 'shown', title: 'shown', decimals: 0, for: 'work' },
      { id: 'not-shown', title: 'not shown', decimals: 0, for: 'work' },
      { id: 'not-checked', title: 'cannot be checked', decimals: 0, for: 'work' },
      { id: 'not-applicable', title: 'not applicable', decimals: 0, for: 'work' },
      { id: 'told-in', title: 'told in the table', for: 'work' },
      { id: 'section', title: 'section', for: 'work' },
      { id: 'rulebook', title: 'rulebook', for: 'work' },
      { id: 'name', title: 'name', for: 'work' },
      { id: 'kind', title: 'kind of source', for: 'work' },
    ],
    rows: [...clauses.values()].map(rowOfClause),
    empty: 'No rulebook in force holds any duty.',
  }
}

const allOutcomes: readonly Outcome[] = ['not shown', 'cannot be checked', 'shown', 'not applicable']

function rowOfClause({ section, rulebook, name, duty, citation, counts }: Clause): Row {
  const isCounted = section !== 'keeping'
  const of = (outcome: Outcome) => (isCounted ? (counts.get(outcome) ?? 0) : null)
  const told = allOutcomes.flatMap((outcome) =>
    counts.has(outcome) ? [`${counts.get(outcome)} ${outcome}`] : [],
  )
  return {
    cells: {
      'duty-and-clause': `${duty} (${citation.text})`,
      'came-of-it': !isCounted
        ? 'told with the records kept'
        : told.length === 0
          ? 'nothing it was held against'
          : told.join(', '),
      duty,
      clause: citation.text,
      shown: of('shown'),
      'not-shown': of('not shown'),
      'not-checked': of('cannot be checked'),
      'not-applicable': of('not applicable'),
      'told-in': toldIn[section as DutySection] ?? 'duties',
      section,
      rulebook,
      name,
      kind: citation.kind,
    },
    records: [],
  }
}

/** Whether any rulebook listed for the period holds law on some day of it. */
export function holdsLaw(listed: readonly ListedRulebook[], table: Table): boolean {
  const ids = new Set(listed.map(({ id }) => id))
  return table.rows.some(({ cells }) => cells.kind === 'law' && ids.has(String(cells.rulebook)))
}

/** What the rulebooks say that they do not cover. */
export function notCovered(listed: readonly ListedRulebook[]): string[] {
  return listed.flatMap(({ id, data }) =>
    data
      ? data['does-not-cover'].map((text) => `not covered by the rulebook ${id}: ${text}.`)
      : [`the rulebook ${id}: there is none of that name that can be used, so its duties were not held.`],
  )
}
