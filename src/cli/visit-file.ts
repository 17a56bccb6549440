import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { decode, readRecord } from '../files/read-record.js'
import { largestRecord } from '../files/source.js'
import { placeOf } from '../writing/new/place.js'
import { blanksIn, blankVisit } from '../writing/visit/blank.js'
import { writeRecord } from '../writing/visit/finish.js'
import type { VisitFlags } from './commands/visit.js'
import type { ExitCode, Here } from './runner.js'
import { tellWritten } from './tell-written.js'
import { UsageError } from './usage-error.js'
import { tellNext } from './visit-next.js'
import type { VisitStart } from './visit-start.js'

/** The record with everything due as a blank. */
export function printBlank(here: Here, start: VisitStart): ExitCode {
  here.stdout.write(blankVisit(start.plan()))
  return 0
}

/** Writes a filled-in record at its place, if nothing in it is blank or wrong in itself. */
export function writeFromFile(here: Here, start: VisitStart, path: string): ExitCode {
  const { ledger, site, day, flags } = start
  const text = textOf(resolve(here.cwd(), path), path)
  const blanks = blanksIn(text)
  if (blanks.length > 0)
    throw new UsageError(
      `${path} still has blanks, on ${blanks.length === 1 ? 'line' : 'lines'} ${blanks.join(', ')}. Fill them in, or take those lines out. Nothing was written.`,
    )
  refuseOtherThanSaid(text, path, flags)
  const place = placeOf({
    kind: 'visit',
    day,
    site,
    by: flags.by ?? byIn(text, path),
    ...(flags.word === undefined ? {} : { word: flags.word }),
  })
  if ('refused' in place) throw new UsageError(place.refused)
  const record = { site, file: place.file, text }
  const done = writeRecord(ledger.root, ledger.source, record, ledger)
  const code = tellWritten(done, place.file, ledger, here)
  if (code === 0) tellNext(here, ledger, record)
  return code
}

/** What the command says of who typed it and when has to stand in the file: the record is written as it is. */
function refuseOtherThanSaid(text: string, path: string, flags: VisitFlags): void {
  const read = readRecord(Buffer.from(text, 'utf8'))
  if (!('data' in read)) return
  const said = { 'entered-by': flags.enteredBy, 'on-paper': flags.onPaper } as const
  for (const [key, value] of Object.entries(said)) {
    if (value === undefined || read.data[key] === value) continue
    throw new UsageError(
      `--${key} ${value}: ${path} does not say so; write the line \`${key}: ${value}\` in it. Nothing was written.`,
    )
  }
}

function textOf(file: string, path: string): string {
  let bytes: Buffer
  try {
    bytes = readFileSync(file)
  } catch (error) {
    throw new UsageError(`${path} cannot be read (${Object(error).code ?? 'unknown'}).`)
  }
  if (bytes.length > largestRecord) throw new UsageError(`${path} is too large for a record.`)
  const decoded = decode(bytes)
  if ('faults' in decoded) throw new UsageError(`${path} is no text in UTF-8. Nothing was written.`)
  return decoded.text
}

function byIn(text: string, path: string): string {
  const read = readRecord(Buffer.from(text, 'utf8'))
  const by = 'data' in read ? read.data.by : undefined
  if (typeof by === 'string') return by
  throw new UsageError(`${path} does not say who made the visit; write \`by:\`, or add --by.`)
}
