import type { Table } from '../../types.js'
import type { YearFacts } from './facts.js'
import type { Answer } from './review.js'

type Told = Omit<Answer, 'recordCount' | 'records' | 'plots'> & Partial<Pick<Answer, 'plots'>>

/** An answer with the records behind its tables: counted, and named only where names are asked for. */
export function answered({ withParts }: Pick<YearFacts, 'withParts'>, told: Told): Answer {
  const records = new Set(told.tables.flatMap(({ rows }) => rows.flatMap((row) => row.records)))
  const isNamed = withParts.has('names')
  return {
    ...told,
    plots: told.plots ?? [],
    tables: isNamed ? told.tables : told.tables.map(withoutRecords),
    recordCount: records.size,
    records: isNamed ? [...records].sort() : [],
  }
}

/** Names of files bear who wrote the record. */
function withoutRecords(table: Table): Table {
  return { ...table, rows: table.rows.map((row) => ({ ...row, records: [] })) }
}

/** A sentence without its full stop, to go on from. */
export function unended(sentence: string): string {
  return sentence.replace(/\.$/, '')
}
