import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import { isoOf } from '../../measure/calendar.js'
import type { RecordKind } from '../../records/kinds.js'
import type { KeyPath } from '../../types.js'

/** An end that must not lie before its start, in words and as they are written; `path` leads to the end. */
export interface EndAndStart {
  readonly path: KeyPath
  readonly endIs: string
  readonly end: string
  readonly startIs: string
  readonly start: string
}

/** Keys of reference records that stand side by side as first and last day. */
const spanKeys: readonly (readonly [start: string, end: string])[] = [
  ['from', 'until'],
  ['on', 'until'],
  ['adopted', 'review-by'],
]

const isDate = (value: unknown): value is string =>
  typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value)

/** Every dated span in the data of a reference record, at whatever depth, that ends before it begins. */
export function* reversedSpans(data: unknown, path: KeyPath = []): Iterable<EndAndStart> {
  if (typeof data !== 'object' || data === null) return
  if (Array.isArray(data)) {
    for (const [n, item] of data.entries()) yield* reversedSpans(item, [...path, n])
    return
  }
  const fields = data as Readonly<Record<string, unknown>>
  for (const [startKey, endKey] of spanKeys) {
    const [start, end] = [fields[startKey], fields[endKey]]
    // Dates as text sort as the days they name.
    if (isDate(start) && isDate(end) && end < start)
      yield { path: [...path, endKey], endIs: `\`${endKey}\``, end, startIs: `\`${startKey}\``, start }
  }
  for (const [key, value] of Object.entries(fields)) yield* reversedSpans(value, [...path, key])
}

/** Days stated in a record of an event that can only lie on its day or after it. */
export function* daysAfterTheEvent(record: LoadedEvent<RecordKind>): Iterable<EndAndStart> {
  const start = isoOf(record.day)
  for (const [path, end, startIs] of laterDays(record)) {
    if (end !== undefined) yield { path, endIs: `\`${path.at(-1)}\``, end, startIs, start }
  }
}

function* laterDays(
  record: Loaded<RecordKind>,
): Iterable<readonly [path: KeyPath, end: string | undefined, startIs: string]> {
  const event = record as { [K in RecordKind]: Loaded<K> }[RecordKind]
  switch (event.kind) {
    case 'visit':
      for (const [name, { new: isNew, by }] of Object.entries(event.data.conditions ?? {})) {
        // Seen again, a condition may carry the day by which it should already have been mended.
        if (isNew !== undefined) yield [['conditions', name, 'by'], by, 'the day it was found,']
      }
      for (const [name, action] of Object.entries(event.data.actions ?? {}))
        yield [['actions', name, 'follow-up'], action['follow-up'], 'the day of the visit,']
      return
    case 'application': {
      const { 'follow-up': followUp, reopened, 'rain-dates': rainDates = [] } = event.data
      yield [['follow-up', 'by'], followUp?.by, 'the day of the application,']
      yield [['reopened', 'on'], reopened?.on, 'the day of the application,']
      // The file is named by the day it was done, which can be the last of the rain dates.
      if (event.data.status !== 'done')
        for (const [n, day] of rainDates.entries())
          yield [['rain-dates', n], day, 'the day it is planned for,']
      return
    }
    case 'notice':
      yield [['posted', 'taken-down'], event.data.posted?.['taken-down'], 'the day of the notice,']
      return
    case 'specimen':
      yield [['sent-on'], event.data['sent-on'], 'the day it was taken,']
      yield [['determined', 'on'], event.data.determined?.on, 'the day it was taken,']
      return
    default:
      return
  }
}
