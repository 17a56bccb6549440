import { addMonths, isoOf } from '../../src/measure/calendar.js'
import type { Data, DataMap, Draft } from './draft.js'
import { write } from './draft.js'
import { technicianOf } from './site-records.js'

/**
 * Adds an event of its own; nobody in these ledgers is anywhere so late in the evening.
 * The word after the name keeps it apart from another visit of the same day.
 */
export function addEvent(
  draft: Draft,
  site: string,
  folder: string,
  day: number,
  who: string,
  fields: Readonly<Record<string, Data>>,
  word = 'added',
): string {
  const file = `sites/${site}/${folder}/${isoOf(day)}-${who}-${word}.yaml`
  write(draft, file, { by: who, ...fields })
  return file
}

export function addVisit(
  draft: Draft,
  site: string,
  day: number,
  purpose: string,
  fields: Readonly<Record<string, Data>>,
  word?: string,
): string {
  const who = technicianOf(draft, site)
  return addEvent(draft, site, 'visits', day, who, { purpose, time: '21:00 to 21:20', ...fields }, word)
}

/** A condition that no one has to have mended by the last day. */
export function mendedBy({ lastDay }: Draft): DataMap {
  return { kind: 'moisture', gives: 'water', owner: 'maintenance', by: isoOf(addMonths(lastDay, 1)) }
}

/** The id of an event, as other records name it. */
export function idOf(file: string): string {
  return file.slice(file.lastIndexOf('/') + 1, -'.yaml'.length)
}
