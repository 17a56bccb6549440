import { mkdirSync } from 'node:fs'
import { open as openFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { isoOf } from '../../measure/calendar.js'
import { safeText } from '../../output/safe-text.js'
import type { ExportFormat, Part, PartMaker } from './part.js'
import type { ExportCell, ExportRow, ExportTable } from './table-words.js'
import { exportTables, tableNamed } from './tables.js'

/** Rows of one file that are held before they are written. */
const rowsHeld = 20_000

interface Open {
  readonly path: string
  readonly table: ExportTable
  readonly part: Part
  columns: ExportCell[][]
  held: number
}

export interface Written {
  readonly rows: ReadonlyMap<string, number>
  readonly years: ReadonlySet<number>
}

/** Sorts rows into the files of one district: `<table>/district=<id>/year=<year>/part.<format>`. */
export class Partitions {
  private readonly open = new Map<string, Open>()
  private readonly counts = new Map<string, number>()
  private readonly years = new Set<number>()

  constructor(
    private readonly folder: string,
    private readonly district: string,
    private readonly format: ExportFormat,
    private readonly makePart: PartMaker,
  ) {}

  add(tableName: string, rows: Iterable<ExportRow>): void {
    const table = tableNamed(tableName)
    const { yearOf } = table
    let count = this.counts.get(tableName) ?? 0
    // Rows of one day mostly follow each other, and this is done a million times.
    let day: ExportCell | undefined
    let open = yearOf === undefined ? this.partOf(table, undefined) : undefined
    for (const row of rows) {
      if (yearOf !== undefined && (open === undefined || row[yearOf] !== day)) {
        day = row[yearOf]
        const year = yearOfDay(day)
        this.years.add(year)
        open = this.partOf(table, year)
      }
      if (open === undefined) continue
      hold(open, row)
      count++
      if (open.held >= rowsHeld) writeHeld(open)
    }
    if (count > 0) this.counts.set(tableName, count)
  }

  /**
   * Writes what is held and ends every file. A table without a row gets one file without rows, so that a query finds
   * its columns; by year, it is that of `emptyYear`.
   */
  async finish(emptyYear: number): Promise<Written> {
    for (const table of exportTables) {
      if (this.counts.has(table.name)) continue
      this.partOf(table, table.yearOf === undefined ? undefined : emptyYear)
      this.counts.set(table.name, 0)
    }
    for (const open of this.open.values()) {
      if (open.held > 0) writeHeld(open)
      open.part.finish()
    }
    // All at once: a disk takes many small files in little more time than one.
    await Promise.all([...this.open.values()].map(({ path }) => toDisk(path)))
    return { rows: this.counts, years: this.years }
  }

  private partOf(table: ExportTable, year: number | undefined): Open {
    const key = `${table.name} ${year ?? ''}`
    const known = this.open.get(key)
    if (known) return known
    const ofYear = year === undefined ? [] : [`year=${year}`]
    const path = join(this.folder, table.name, `district=${this.district}`, ...ofYear, `part.${this.format}`)
    mkdirSync(dirname(path), { recursive: true })
    const open = { path, table, part: this.makePart(path, table), columns: emptyColumns(table), held: 0 }
    this.open.set(key, open)
    return open
  }
}

function hold(open: Open, row: ExportRow): void {
  const { columns } = open.table
  for (let at = 0; at < columns.length; at++) {
    const name = columns[at]?.name ?? ''
    const cell = row[name]
    if (cell === undefined) throw new Error(`${open.table.name}: no ${name}`)
    open.columns[at]?.push(typeof cell === 'string' ? safeText(cell) : cell)
  }
  open.held++
}

function writeHeld(open: Open): void {
  open.part.write(open.columns)
  open.columns = emptyColumns(open.table)
  open.held = 0
}

const emptyColumns = (table: ExportTable): ExportCell[][] => table.columns.map(() => [])

function yearOfDay(day: ExportCell | undefined): number {
  if (typeof day !== 'number') throw new Error('a row without its day')
  return Number(isoOf(day).slice(0, 4))
}

async function toDisk(path: string): Promise<void> {
  const file = await openFile(path, 'r+')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}
