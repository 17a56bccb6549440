import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { ClockTime, TimeZone } from '../../measure/zone.js'
import { clockTimeOf, timeZone } from '../../measure/zone.js'
import type { RecordKind } from '../../records/kinds.js'
import type { Day, KeyPath } from '../../types.js'

/** A time of day stated in a record of an event, as it stands there. */
export interface StatedTime extends ClockTime {
  readonly text: string
  readonly file: string
  readonly path: KeyPath
  readonly day: Day
}

/**
 * Times that need a second look in the district's zone: those with an offset, and all those of days on which the
 * clock is set forward or back, which are few. None when the zone of the district is not known.
 */
export function* timesWorthALook(view: SiteView): Iterable<{ time: StatedTime; offsets: readonly number[] }> {
  const zone = timeZone(view.district.district.data['time-zone'])
  if (!zone) return
  for (const record of view.records) {
    if (!('day' in record)) continue
    const isSteady = zone.isSteadyOn(record.day)
    for (const time of statedTimes(record, isSteady)) {
      if (time.offset !== undefined || !isSteady)
        yield { time, offsets: zone.offsetsAt(time.day, time.minutes) }
    }
  }
}

function* statedTimes(record: LoadedEvent<RecordKind>, onlyWithOffset: boolean): Iterable<StatedTime> {
  for (const [path, text] of timeTexts(record)) {
    if (text === undefined || (onlyWithOffset && !/[+-]/.test(text))) continue
    for (const part of text.split(' to ')) {
      const time = clockTimeOf(part)
      if (time) yield { ...time, text: part, file: record.file, path, day: record.day }
    }
  }
}

function timeTexts(record: Loaded<RecordKind>): readonly (readonly [KeyPath, string | undefined])[] {
  const event = record as { [K in RecordKind]: Loaded<K> }[RecordKind]
  switch (event.kind) {
    case 'visit':
      return [[['time'], event.data.time]]
    case 'application':
      return [
        [['time'], event.data.time],
        [['dry', 'at'], event.data.dry?.at],
        // Reopened on a later day, the hour is that day's: it is left to the rules of re-entry.
        [['reopened', 'at'], event.data.reopened?.on === undefined ? event.data.reopened?.at : undefined],
      ]
    case 'complaint':
    case 'incident':
      return [[['at'], event.data.at]]
    case 'notice':
      return [
        [['sent', 'at'], event.data.sent?.at],
        [['posted', 'at'], event.data.posted?.at],
      ]
    default:
      return []
  }
}

/**
 * Whether an end cannot lie after its start. Compared as instants where that can be told: both state their offset,
 * or the zone tells which each can have; a time shown twice is given the benefit of the doubt.
 */
export function cannotEndAfter(
  start: ClockTime,
  end: ClockTime,
  on?: { readonly zone: TimeZone | undefined; readonly day: Day },
): boolean {
  if (on?.zone && !on.zone.isSteadyOn(on.day)) {
    const starts = instantsOf(start, on.zone, on.day)
    const ends = instantsOf(end, on.zone, on.day)
    if (starts.length > 0 && ends.length > 0) return Math.max(...ends) <= Math.min(...starts)
  }
  if (start.offset !== undefined && end.offset !== undefined)
    return end.minutes - end.offset <= start.minutes - start.offset
  return end.minutes <= start.minutes
}

function instantsOf({ minutes, offset }: ClockTime, zone: TimeZone, day: Day): number[] {
  const offsets = offset === undefined ? zone.offsetsAt(day, minutes) : [offset]
  return offsets.map((each) => minutes - each)
}
