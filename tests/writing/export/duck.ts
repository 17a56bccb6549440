import { readFileSync } from 'node:fs'
import type { ExportFormat } from '../../../src/writing/export/part.js'

export type Answer = Record<string, string | number | boolean | null>

export interface Duck {
  /** Rows as plain values: whole numbers as numbers, decimals as text so that they can be added up exactly. */
  ask(sql: string): Promise<Answer[]>
  close(): void
}

const api = await import('@duckdb/node-api').catch(() => undefined)

export const hasDuck = api !== undefined
if (!hasDuck)
  process.stderr.write('tests/writing/export: queries are skipped, DuckDB is not there for this platform\n')

const queries = new URL('../../../src/data/queries/', import.meta.url)

export function queryText(name: string): string {
  return readFileSync(new URL(`${name}.sql`, queries), 'utf8')
}

/** DuckDB over the folder of an export, with the views that are shipped. */
export async function duckOver(folder: string, format: ExportFormat): Promise<Duck> {
  if (!api) throw new Error('DuckDB is not there')
  const instance = await api.DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  await connection.run(`SET file_search_path = '${folder}'`)
  await connection.run(queryText(`tables-${format}`))
  return {
    async ask(sql) {
      const result = await connection.runAndReadAll(sql)
      const numeric = new Set(
        result
          .columnNames()
          .filter((_, at) => /^(BIGINT|HUGEINT|INTEGER)/.test(String(result.columnType(at)))),
      )
      return result
        .getRowObjectsJson()
        .map((row) =>
          Object.fromEntries(
            Object.entries(row).map(([name, value]) => [
              name,
              numeric.has(name) && value !== null ? Number(value) : (value as Answer[string]),
            ]),
          ),
        )
    },
    close() {
      connection.closeSync()
      instance.closeSync()
    },
  }
}
