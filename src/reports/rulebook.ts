import { isoOf } from '../measure/calendar.js'
import type { RecordOf } from '../records/kinds.js'
import { dutySections } from '../records/rulebook-duties.js'
import type { Day, Report, Row } from '../types.js'

const ofBasis: ReadonlySet<string> = new Set(['from', 'until', 'source', 'kind', 'confidence'])

type Version = RecordOf<'rulebook'>['parameters'] extends infer P
  ? NonNullable<P> extends Record<string, (infer V)[]>
    ? V
    : never
  : never

/** What one rulebook holds, entry by entry with the clause it rests on, and what it does not cover. */
export function rulebookReport(id: string, rulebook: RecordOf<'rulebook'>, asOf: Day): Report {
  const rows = (['parameters', 'uses', ...dutySections] as const).flatMap((section) =>
    Object.entries(rulebook[section] ?? {}).flatMap(([name, versions]) =>
      (versions as Version[]).map((version) => rowOf(section, name, version)),
    ),
  )
  return {
    report: 'rulebook',
    title: `Rulebook ${id}: ${rulebook.title}`,
    headline: `${rulebook.jurisdiction}; covers ${rulebook.covers}. Its sources were last read on ${rulebook['read-on']}.`,
    asOf: isoOf(asOf),
    facts: rulebook['does-not-cover'].map((value) => ({ label: 'Does not cover', value })),
    tables: [
      {
        id: 'entries',
        title: 'Entries',
        columns: [
          { id: 'entry', title: 'entry' },
          { id: 'holds', title: 'in force' },
          { id: 'says', title: 'says' },
          { id: 'source', title: 'rests on' },
          { id: 'confidence', title: 'how sure' },
        ],
        rows,
        empty: 'It holds nothing.',
      },
    ],
    cautions: ['This is no legal advice: the text of the law, local code and the label decide.'],
    notExamined: [],
    incomplete: false,
  }
}

function rowOf(section: string, name: string, version: Version): Row {
  const { from, until, source, confidence } = version
  return {
    cells: {
      entry: section === 'parameters' ? name : `${section}/${name}`,
      holds: until === undefined ? `from ${from}` : `${from} to ${until}`,
      says: Object.entries(version)
        .filter(([key, value]) => !ofBasis.has(key) && value !== undefined)
        // What is asked first, then of what.
        .sort(([one], [other]) => Number(isScope(one)) - Number(isScope(other)))
        .map(([key, value]) => (key === 'value' ? textOf(value) : `${key} ${textOf(value)}`))
        .join('; '),
      source,
      confidence,
    },
    records: [],
  }
}

function isScope(key: string): boolean {
  return key === 'holds-for' || key === 'not-for'
}

function textOf(value: unknown): string {
  if (Array.isArray(value)) return value.map(textOf).join(', ')
  if (typeof value === 'object' && value !== null)
    return Object.entries(value)
      .map(([key, inner]) => `${key} ${textOf(inner)}`)
      .join(' and ')
  return String(value)
}
