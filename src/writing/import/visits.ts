import type { DeviceHistory } from '../../ledger/device-history.js'
import { getOrMake } from '../../ledger/get-or-make.js'
import type { Yaml, YamlMap } from '../demo/yaml.js'
import { placeOf } from '../new/place.js'
import type { Look } from './looks.js'
import type { CountsMapping } from './mapping.js'
import { compareIds } from './natural-order.js'
import type { PlannedRecord } from './planned.js'
import { originKey } from './planned.js'
import type { MadeReading } from './readings.js'
import { readingsOf } from './readings.js'
import type { RowHead } from './row-head.js'
import type { Cell, Sheet } from './sheet.js'
import { blame } from './sheet.js'

/** The place of the visit that a look belongs to: one for each site, day and person. */
export function visitPlace(head: RowHead, word: string | undefined): string {
  const place = placeOf({
    kind: 'visit',
    day: head.day,
    site: head.site,
    by: head.by,
    ...(word === undefined ? {} : { word }),
  })
  // Site, person and word were looked at before.
  return 'file' in place ? place.file : ''
}

/** Visits of one site: the looks of one day and person together. `devices` as they stood without these visits. */
export function visitsOf(
  sheet: Sheet,
  looks: readonly Look[],
  devices: readonly DeviceHistory[],
  mapping: CountsMapping,
  word: string | undefined,
): PlannedRecord[] {
  const made = readingsOf(sheet, looks, devices, mapping.counts === 'new since the last look')
  const byPlace = new Map<string, MadeReading[]>()
  for (const reading of made) getOrMake(byPlace, visitPlace(reading.look.head, word), () => []).push(reading)
  return [...byPlace].map(([file, readings]) => visitOf(sheet, file, readings, mapping))
}

function visitOf(
  sheet: Sheet,
  file: string,
  unsorted: readonly MadeReading[],
  mapping: CountsMapping,
): PlannedRecord {
  const made = [...unsorted].sort((a, b) => compareIds(a.look.device.text, b.look.device.text))
  const origins = new Map<string, Cell>()
  const none: string[] = []
  const readings: Record<string, Yaml> = {}
  for (const { look, reading, cells } of made) {
    const id = look.device.text
    if (reading === undefined) {
      origins.set(originKey(['readings', 'none', none.length]), look.device)
      none.push(id)
      continue
    }
    readings[id] = reading
    origins.set(originKey(['readings', id]), look.device)
    for (const [key, cell] of cells) origins.set(originKey(['readings', id, key]), cell)
  }
  const [{ look } = { look: undefined }] = unsorted
  if (!look) throw new Error('a visit without readings')
  const { head } = look
  origins.set(originKey(['by']), head.cells.by)
  if (head.cells.enteredBy) origins.set(originKey(['entered-by']), head.cells.enteredBy)
  if (head.cells.onPaper) origins.set(originKey(['on-paper']), head.cells.onPaper)
  for (const { look: other } of made) checkTypist(sheet, look, other)
  const data: YamlMap = {
    purpose: mapping.purpose ?? 'trap-check',
    by: head.by,
    'entered-by': head.enteredBy,
    'on-paper': head.onPaper,
    readings: { none: none.length > 0 ? none : undefined, ...readings },
  }
  const rows = made.flatMap((reading) => reading.look.rows).sort((a, b) => a.line - b.line)
  return { site: head.site, file, data, rows, origins }
}

/** Rows of one visit agree on who typed it and when its paper was filled in. */
function checkTypist(sheet: Sheet, first: Look, { head, device }: Look): void {
  if (head.enteredBy !== first.head.enteredBy)
    blame(
      sheet,
      head.cells.enteredBy ?? device,
      `One visit is typed by one person: here ${head.enteredBy ?? 'nobody'}, on line ${first.rows[0]?.line} ${first.head.enteredBy ?? 'nobody'}.`,
      undefined,
      remedyOfTwo,
    )
  if (head.onPaper !== first.head.onPaper)
    blame(
      sheet,
      head.cells.onPaper ?? device,
      `One visit is one paper: here of ${head.onPaper ?? 'no day'}, on line ${first.rows[0]?.line} of ${first.head.onPaper ?? 'no day'}.`,
      undefined,
      remedyOfTwo,
    )
}

const remedyOfTwo = 'Make all rows of that day and person agree.'
