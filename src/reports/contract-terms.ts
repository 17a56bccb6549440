import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { isoOf } from '../measure/calendar.js'
import type { Cell, Row, Table } from '../types.js'
import { spanColumns } from './contract-cells.js'
import type { SpanFacts } from './contract-collect.js'
import type { OpenMatter } from './contract-on-visits.js'
import type { ContractSpan } from './contract-spans.js'
import { spanCells, termsWords, unique } from './contract-tables.js'

export function openTable(facts: readonly SpanFacts[]): Table {
  const column = (id: OpenMatter['what'], title: string) => ({
    id: id.replaceAll(' ', '-'),
    title,
    decimals: 0,
  })
  const columns = [
    column('routine visit', 'visits'),
    column('log not read', 'log not read'),
    column('manager not told', 'no one named'),
    column('area not entered', 'not entered'),
    column('area not inspected', 'left too long'),
    column('device lost', 'devices lost'),
    column('device not renewed', 'not renewed'),
  ]
  return {
    id: 'on-visits',
    title: 'What the records of routine visits leave open: the log, the site manager, areas, devices',
    columns: [...spanColumns(facts.map(({ span }) => span)), ...columns],
    rows: facts.map(
      ({ span, open }): Row => ({
        cells: {
          ...spanCells(span),
          ...Object.fromEntries(
            columns.map(({ id }) => [id, open.filter(({ what }) => what.replaceAll(' ', '-') === id).length]),
          ),
        },
        records: unique(open.flatMap(({ files }) => files)),
      }),
    ),
    empty: 'The records answer for no site in this period.',
  }
}

/** The contracts themselves; sites with the same terms share a row. */
export function contractsTable(facts: readonly SpanFacts[]): Table {
  const byTerms = new Map<string, ContractSpan[]>()
  for (const { span } of facts) getOrMake(byTerms, JSON.stringify(contractCells(span)), () => []).push(span)
  return {
    id: 'contracts',
    title: 'What the contracts say',
    columns: [
      { id: 'sites-shown', title: 'sites', for: 'people' },
      { id: 'sites', title: 'sites', for: 'work' },
      { id: 'contractor', title: 'contractor' },
      { id: 'firm', title: 'firm', for: 'work' },
      { id: 'since', title: 'since' },
      { id: 'until', title: 'until' },
      { id: 'visits', title: 'routine visits' },
      { id: 'complaint-days', title: 'answer in', unit: 'days', decimals: 0 },
      { id: 'checks', title: 'checks', for: 'work' },
      { id: 'file', title: 'contract file', for: 'work' },
      { id: 'sha256', title: 'SHA-256 of the file', for: 'work' },
    ],
    rows: [...byTerms.values()].flatMap((spans) => {
      const [first] = spans
      return first ? [contractsRow(first, spans)] : []
    }),
    empty: 'The records answer for no site in this period.',
  }
}

function contractsRow(first: ContractSpan, spans: readonly ContractSpan[]): Row {
  const sites = unique(spans.map(({ site }) => site)).sort(compareText)
  return {
    cells: {
      'sites-shown': sites.length > 3 ? `${sites.length} sites` : sites.join(', '),
      sites: sites.join(', '),
      ...contractCells(first),
    },
    records: unique(spans.map(({ siteFile }) => siteFile)),
  }
}

function contractCells(span: ContractSpan): Record<string, Cell> {
  const { contract } = span
  return {
    contractor: contract?.contractor ?? 'no contract',
    firm: contract?.firm ?? null,
    since: contract ? isoOf(span.from) : null,
    until: span.until === undefined ? null : isoOf(span.until),
    visits: termsWords(span),
    'complaint-days': contract?.['complaint-days'] ?? null,
    checks: Object.entries(contract?.checks ?? {})
      .map(([kind, interval]) => `${kind} ${interval}`)
      .sort(compareText)
      .join(', '),
    file: contract?.file ?? null,
    sha256: contract?.sha256 ?? null,
  }
}
