import { getOrMake } from '../../ledger/get-or-make.js'
import { isoOf } from '../../measure/calendar.js'
import type { Yaml } from '../demo/yaml.js'
import { placeOf } from '../new/place.js'
import { readTime } from './clock-times.js'
import type { CsvRow } from './csv-rows.js'
import type { ComplaintsMapping, RepairsMapping, ValueFrom } from './mapping.js'
import type { Decimal } from './numbers.js'
import { readCost } from './numbers.js'
import type { PlannedRecord } from './planned.js'
import { originKey } from './planned.js'
import type { Given, Known, RowHead } from './row-head.js'
import { headReader, sentence } from './row-head.js'
import type { Cell, Sheet, Take } from './sheet.js'
import { blame, blameHeader, isBlamed, takerOf } from './sheet.js'

type Reads = 'text' | 'time' | 'names' | 'cost'

interface Field {
  readonly key: string
  readonly reads: Reads
  readonly isNeeded?: boolean
}

const fieldsOf: Readonly<Record<'complaint' | 'repair', readonly Field[]>> = {
  complaint: [
    { key: 'from', reads: 'text', isNeeded: true },
    { key: 'at', reads: 'time' },
    { key: 'area', reads: 'text' },
    { key: 'pest', reads: 'text' },
    { key: 'other', reads: 'text' },
    { key: 'says', reads: 'text', isNeeded: true },
    { key: 'withdrawn', reads: 'text' },
    { key: 'notes', reads: 'text' },
  ],
  repair: [
    { key: 'mends', reads: 'names' },
    { key: 'area', reads: 'text' },
    { key: 'owner', reads: 'text' },
    { key: 'order', reads: 'text' },
    { key: 'cost', reads: 'cost' },
    { key: 'done', reads: 'text', isNeeded: true },
    { key: 'opening', reads: 'text' },
    { key: 'notes', reads: 'text' },
  ],
}

export interface EventsMade {
  readonly records: readonly PlannedRecord[]
  /** Whether it is known of every row to which record it belongs. */
  readonly isAllPlaced: boolean
}

/**
 * One record for each row. Several of one site, day and person are told apart by the word of the mapping, or else by their
 * order in the file: the second is `<date>-<who>-2`.
 */
export function eventsIn(
  sheet: Sheet,
  kind: 'complaint' | 'repair',
  mapping: ComplaintsMapping | RepairsMapping,
  given: Given,
  known: Known,
): EventsMade {
  const head = headReader(sheet, mapping, given, known)
  const word = takerOf(sheet, 'word', mapping.word)
  const fields = fieldsOf[kind].map((field) => ({ ...field, take: fieldTaker(sheet, field, mapping) }))
  if (!head || sheet.troubles.length > 0) return { records: [], isAllPlaced: false }
  const made = new Map<string, PlannedRecord>()
  const alike = new Map<string, CsvRow>()
  const times = new Map<string, number>()
  let isAllPlaced = true
  for (const row of sheet.table.rows) {
    const at = head(row)
    if (!at) {
      isAllPlaced = false
      continue
    }
    const origins = new Map<string, Cell>([[originKey(['by']), at.cells.by]])
    const data = dataOf(sheet, row, at, fields, origins, mapping.decimal)
    const stem = JSON.stringify([at.site, at.day, at.by])
    const nth = (times.get(stem) ?? 0) + 1
    times.set(stem, nth)
    if (isBlamed(sheet, row)) continue
    const own = word?.(row)
    const content = JSON.stringify([stem, own?.text, data])
    const before = getOrMake(alike, content, () => row)
    if (before !== row) {
      blame(
        sheet,
        at.cells.date,
        `Says the same as line ${before.line}.`,
        'Take one of the two out; or, if it happened twice, tell in which they differ.',
      )
      continue
    }
    const told = own ? slugOf(own.text) : nth > 1 ? String(nth) : ''
    const file = placeFor(sheet, kind, at, [given.word ?? '', told], own ?? at.cells.by)
    if (file === undefined) continue
    const taken = made.get(file)
    if (taken)
      blame(
        sheet,
        own ?? at.cells.by,
        `Would have the name of the record from line ${taken.rows[0]?.line}: ${file}.`,
        'Each needs a word of its own.',
      )
    else made.set(file, { site: at.site, file, data, rows: [row], origins })
  }
  return { records: [...made.values()], isAllPlaced }
}

function fieldTaker(
  sheet: Sheet,
  { key, isNeeded }: Field,
  mapping: ComplaintsMapping | RepairsMapping,
): Take | undefined {
  const from = (mapping as Readonly<Record<string, ValueFrom | undefined>>)[key]
  const take = takerOf(sheet, key, from)
  if (!take && isNeeded && from === undefined)
    blameHeader(sheet, `Nothing says which column \`${key}\` is in: \`${key}\` in the mapping.`)
  return take
}

function dataOf(
  sheet: Sheet,
  row: CsvRow,
  { by, enteredBy, onPaper, cells }: RowHead,
  fields: readonly (Field & { readonly take: Take | undefined })[],
  origins: Map<string, Cell>,
  decimal: Decimal | undefined,
): Record<string, Yaml | undefined> {
  const data: Record<string, Yaml | undefined> = { by, 'entered-by': enteredBy, 'on-paper': onPaper }
  if (cells.enteredBy) origins.set(originKey(['entered-by']), cells.enteredBy)
  if (cells.onPaper) origins.set(originKey(['on-paper']), cells.onPaper)
  for (const { key, reads, isNeeded, take } of fields) {
    const cell = take?.(row)
    if (!cell) continue
    origins.set(originKey([key]), cell)
    if (cell.text !== '') data[key] = worded(sheet, cell, reads, decimal)
    else if (isNeeded)
      blame(
        sheet,
        cell,
        `There is nothing under \`${key}\` here.`,
        undefined,
        'No such record is without it: fill the cell.',
      )
  }
  withOpening(sheet, data, origins)
  return data
}

/** The gap that a repair closed stands under its area. */
function withOpening(sheet: Sheet, data: Record<string, Yaml | undefined>, origins: Map<string, Cell>): void {
  const { opening, area } = data
  delete data.opening
  const cell = origins.get(originKey(['opening']))
  if (opening === undefined || !cell) return
  if (typeof area !== 'string') {
    blame(
      sheet,
      cell,
      'Is an opening that was closed, and nothing says in which area.',
      'Name it under `area`.',
    )
    return
  }
  data.openings = { [area]: opening }
  origins.set(originKey(['openings']), cell)
}

function worded(sheet: Sheet, cell: Cell, reads: Reads, decimal: Decimal | undefined): Yaml | undefined {
  const { text } = cell
  switch (reads) {
    case 'text':
      return text
    case 'names':
      // Names of conditions have no blanks and no marks in them.
      return text.split(/[\s,;]+/).filter((name) => name !== '')
    case 'time': {
      const read = readTime(text)
      if ('time' in read) return read.time
      blame(sheet, cell, sentence(read.refused), read.todo)
      return undefined
    }
    case 'cost': {
      const read = readCost(text, decimal)
      if ('cost' in read) return read.cost
      blame(sheet, cell, sentence(read.refused), read.todo)
      return undefined
    }
  }
}

const slugOf = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')

function placeFor(
  sheet: Sheet,
  kind: 'complaint' | 'repair',
  { site, day, by }: RowHead,
  words: readonly string[],
  cell: Cell,
): string | undefined {
  const word = words.filter((one) => one !== '').join('-')
  const place = placeOf({ kind, day, site, by, ...(word === '' ? {} : { word }) })
  if ('file' in place) return place.file
  blame(sheet, cell, `No name for the record of ${isoOf(day)} can be made of it: ${place.refused}`)
  return undefined
}
