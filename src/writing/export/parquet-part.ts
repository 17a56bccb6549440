import { closeSync, openSync, writeSync } from 'node:fs'
import type { ColumnSource } from 'hyparquet-writer'
import { ByteWriter, ParquetWriter } from 'hyparquet-writer'
import type { Part } from './part.js'
import type { ColumnType, ExportCell, ExportColumn, ExportTable } from './table-words.js'

type SchemaElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number]

const storedAs: Readonly<Record<ColumnType, Pick<SchemaElement, 'type' | 'converted_type'>>> = {
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  day: { type: 'INT32', converted_type: 'DATE' },
  whole: { type: 'INT64' },
  number: { type: 'DOUBLE' },
  'yes-no': { type: 'BOOLEAN' },
}

/** A table as Parquet; each lot of rows becomes a row group, so that no more than a lot is ever held. */
export function parquetPart(path: string, table: ExportTable): Part {
  closeSync(openSync(path, 'wx'))
  const bytes = new ByteWriter()
  const flush = () => {
    const handle = openSync(path, 'a')
    try {
      const whole = bytes.getBytes()
      for (let written = 0; written < whole.length; )
        written += writeSync(handle, whole, written, whole.length - written)
    } finally {
      closeSync(handle)
    }
    bytes.index = 0
  }
  const writer = new ParquetWriter({ writer: bytes, schema: schemaOf(table), createdBy: 'doorsweep' })
  return {
    write(columns) {
      writer.write({
        columnData: table.columns.map((column, at) => sourceOf(column, columns[at] ?? [])),
        rowGroupSize: Math.max(1, columns[0]?.length ?? 0),
      })
      flush()
    },
    finish() {
      writer.finish()
      flush()
    },
  }
}

function schemaOf({ columns }: ExportTable): SchemaElement[] {
  return [
    { name: 'root', num_children: columns.length },
    ...columns.map(
      ({ name, type, empty }): SchemaElement => ({
        name,
        ...storedAs[type],
        repetition_type: empty === undefined ? 'REQUIRED' : 'OPTIONAL',
      }),
    ),
  ]
}

function sourceOf({ name, type }: ExportColumn, cells: readonly ExportCell[]): ColumnSource {
  const data = type === 'whole' ? cells.map((cell) => (cell === null ? null : bigOf(Number(cell)))) : cells
  // Limits of text would have to be in the order of its bytes, which not every letter has here.
  return { name, data: data as unknown[], ...(type === 'text' ? { statistics: false } : {}) }
}

const small: bigint[] = Array.from({ length: 1024 }, (_, n) => BigInt(n))

/** Most whole numbers are small, and a new object for each of millions would be a load. */
function bigOf(number: number): bigint {
  return small[number] ?? BigInt(number)
}
