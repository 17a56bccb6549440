import { isoOf } from '../../measure/calendar.js'
import { nearest } from '../../records/nearest.js'
import type { Day } from '../../types.js'
import type { CsvRow } from './csv-rows.js'
import type { DateReader } from './dates.js'
import { dateReader, plainDate } from './dates.js'
import type { DateFrom, ValueFrom } from './mapping.js'
import type { Cell, Sheet, Take } from './sheet.js'
import { blame, blameHeader, isBlamed, takerOf } from './sheet.js'

/** What holds for a whole file, from the command line. */
export interface Given {
  readonly site?: string
  readonly by?: string
  readonly enteredBy?: string
  /** Tells the records of this file from those that lie there already. */
  readonly word?: string
}

/** What a file is held against before its records are made. */
export interface Known {
  readonly sites: ReadonlySet<string>
  readonly people: ReadonlySet<string>
  readonly pests: ReadonlySet<string>
  readonly products: ReadonlySet<string>
  /** Nothing has happened after it. */
  readonly today: Day
}

/** When and where it was, and who did or noted it. */
export interface RowHead {
  readonly site: string
  readonly day: Day
  readonly by: string
  readonly enteredBy: string | undefined
  /** The day the paper page was filled in, as text. */
  readonly onPaper: string | undefined
  readonly cells: {
    readonly by: Cell
    readonly enteredBy: Cell | undefined
    readonly onPaper: Cell | undefined
    readonly date: Cell
  }
}

export interface HeadMapping {
  readonly date?: DateFrom | undefined
  readonly site?: ValueFrom | undefined
  readonly by?: ValueFrom | undefined
  readonly 'entered-by'?: ValueFrom | undefined
  readonly 'on-paper'?: DateFrom | undefined
}

/** How to read the head of a row; undefined, and blamed, where the file does not tell a part of it at all. */
export function headReader(
  sheet: Sheet,
  mapping: HeadMapping,
  given: Given,
  known: Known,
): ((row: CsvRow) => RowHead | undefined) | undefined {
  const date = dateTaker(sheet, 'date', mapping.date)
  const site = takerOf(sheet, 'site', mapping.site, given.site)
  const by = takerOf(sheet, 'by', mapping.by, given.by)
  const enteredBy = takerOf(sheet, 'entered-by', mapping['entered-by'], given.enteredBy)
  const onPaper = dateTaker(sheet, 'on-paper', mapping['on-paper'])
  if (!date)
    needed(
      sheet,
      mapping.date,
      'which column the day is in',
      '`date: {column: Date, format: MM/DD/YYYY}` in the mapping',
    )
  if (!site) needed(sheet, mapping.site, 'which column the site is in', '`site` in the mapping, or --site')
  if (!by) needed(sheet, mapping.by, 'who it was', '`by` in the mapping, or --by')
  if (!date || !site || !by) return undefined
  return (row) => {
    if (!hasAllCells(sheet, row)) return undefined
    const day = neededDay(sheet, date, row, known)
    const at = site(row)
    const who = by(row)
    const typed = enteredBy?.(row)
    const paper = onPaper?.take(row)
    const written = onPaper && paper && paper.text !== '' ? dayIn(sheet, onPaper, paper, known) : undefined
    checkSite(sheet, at, known)
    checkPerson(sheet, who, known)
    if (typed && typed.text !== '') checkPerson(sheet, typed, known)
    if (day === undefined || isBlamed(sheet, row)) return undefined
    return {
      site: at.text,
      day,
      by: who.text,
      enteredBy: typed?.text || undefined,
      onPaper: written === undefined ? undefined : isoOf(written),
      cells: { by: who, enteredBy: typed, onPaper: paper, date: date.take(row) },
    }
  }
}

function needed(sheet: Sheet, from: unknown, what: string, where: string): void {
  // A column that was asked for and is not there has been told.
  if (from === undefined) blameHeader(sheet, `Nothing says ${what}: ${where}.`)
}

export interface DateTaker {
  readonly take: Take
  readonly read: DateReader
}

/** How to take a date from a row: from where the mapping says, or from the column that bears the key as its name. */
export function dateTaker(sheet: Sheet, key: string, from: DateFrom | undefined): DateTaker | undefined {
  const { column, format } = typeof from === 'object' ? from : { column: from, format: undefined }
  const take = takerOf(sheet, key, column)
  const read = format === undefined ? plainDate : dateReader(format)
  return take && typeof read === 'function' ? { take, read } : undefined
}

function hasAllCells(sheet: Sheet, row: CsvRow): boolean {
  const asked = sheet.table.header.cells.length
  const isOver = row.cells.slice(asked).some((cell) => cell.trim() !== '')
  if (row.cells.length >= asked && !isOver) return true
  blame(
    sheet,
    { text: '', row, index: -1 },
    `Has ${row.cells.length} cells; the header has ${asked}.`,
    'A cell with a separator in it needs quotes around it.',
  )
  return false
}

function neededDay(sheet: Sheet, date: DateTaker, row: CsvRow, known: Known): Day | undefined {
  const cell = date.take(row)
  if (cell.text !== '') return dayIn(sheet, date, cell, known)
  blame(sheet, cell, 'There is no date here.', undefined, 'Write the day it was; no record is without one.')
  return undefined
}

/** The day in a cell that is not empty; blamed where it is none, or still to come. */
export function dayIn(sheet: Sheet, { read }: DateTaker, cell: Cell, { today }: Known): Day | undefined {
  const date = read(cell.text)
  if ('refused' in date) {
    blame(sheet, cell, sentence(date.refused), date.todo)
    return undefined
  }
  if (date.day <= today) return date.day
  blame(
    sheet,
    cell,
    `${isoOf(date.day)} is still to come; today is ${isoOf(today)}.`,
    undefined,
    'Take over what has happened: correct the date, or leave the row out.',
  )
  return undefined
}

function checkSite(sheet: Sheet, cell: Cell, { sites }: Known): void {
  if (cell.text === '') blame(sheet, cell, 'There is no site here.', undefined, remedyOfNone('--site'))
  else blameUnknownName(sheet, cell, 'site', sites)
}

function checkPerson(sheet: Sheet, cell: Cell, { people }: Known): void {
  if (cell.text === '') blame(sheet, cell, 'There is no person here.', undefined, remedyOfNone('--by'))
  else blameUnknownName(sheet, cell, 'person', people)
}

const remedyOfNone = (flag: string) =>
  `Fill the cell; where all rows have the same, give it once: ${flag}, or \`always\` in the mapping.`

/** Blames a name that leads nowhere, with what it may have been meant for. */
export function blameUnknownName(sheet: Sheet, cell: Cell, what: string, known: ReadonlySet<string>): void {
  if (!known.has(cell.text))
    blame(sheet, cell, unknownName(what, cell.text, known), undefined, remedyOfUnknown)
}

export const remedyOfUnknown =
  'Correct the cell, or say under `names` in the mapping what its word is in the ledger.'

/** That a name leads nowhere, and what it may have been meant for. */
export function unknownName(what: string, name: string, known: Iterable<string>): string {
  const meant = nearest(name, known)
  return `There is no ${what} \`${name}\`${meant === undefined ? '; say under `names` which it is in the ledger.' : `; did you mean \`${meant}\`?`}`
}

/** A reason as a sentence of its own. */
export const sentence = (reason: string) => reason.charAt(0).toUpperCase() + reason.slice(1)
