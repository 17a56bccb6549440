import type { z } from 'zod'
import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import { dayOfUndated } from '../../ledger/undated.js'
import type { TimeZone } from '../../measure/zone.js'
import { clockTimeOf, timeZone } from '../../measure/zone.js'
import type { Role } from '../../records/fields.js'
import type { RecordKind } from '../../records/kinds.js'
import { recordKinds } from '../../records/kinds.js'
import { meaningfulIn } from '../../records/schema-walk.js'
import type { Day, KeyPath } from '../../types.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'
import type { EndAndStart } from './ends-and-starts.js'
import { daysAfterTheEvent, reversedSpans } from './ends-and-starts.js'
import { cannotEndAfter } from './stated-times.js'

type Reversed = Omit<EndAndStart, 'path'> & Record<string, string>

/** Times begin and end on one day: a visit or an application across midnight is two records. */
export const endsBeforeItStarts = siteRule<Reversed>({
  id: 'ends-before-it-starts',
  title: 'something ends before it starts',
  level: 'error',
  judgedOn: 'the day of the record; dated spans whenever the ledger is read',
  why: 'A span that ends before it begins never holds, and a day to come that lies in the past was never to come.',
  remedy: 'Write the earlier one first: `time: 06:10 to 06:50`, `{from: 2026-03-01, until: 2027-02-28}`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ endIs, end, startIs, start }) =>
    `${endIs} ${end} is ${end.includes(':') ? 'not after' : 'before'} ${startIs} ${start}.`,
  *check(view) {
    const zone = timeZone(view.district.district.data['time-zone'])
    for (const record of view.records) {
      if ('day' in record) yield* inEvent(record, zone)
      else yield* inReference(record, dayOfUndated(view))
    }
  },
  *checkDistrict(view) {
    for (const record of view.records) if (!('day' in record)) yield* inReference(record, dayOfUndated(view))
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
time: 06:50 to 06:10 # expect: ends-before-it-starts
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
time: 06:10 to 06:50
`,
})

function* inEvent(event: LoadedEvent<RecordKind>, zone: TimeZone | undefined): Iterable<Finding<Reversed>> {
  const { file, day, data } = event
  if ('time' in data && data.time !== undefined) {
    const found = reversedHours(data.time, ['time'], { zone, day })
    if (found) yield findingOf(file, found, day)
  }
  for (const found of daysAfterTheEvent(event)) {
    if (found.end < found.start) yield findingOf(file, found, day)
  }
}

function* inReference(record: Loaded<RecordKind>, from: Day): Iterable<Finding<Reversed>> {
  const { file, kind, data } = record
  for (const found of reversedSpans(data)) yield findingOf(file, found, from)
  for (const { role, value, path } of meaningfulIn(recordKinds[kind].schema as z.ZodType, data, hasTwoEnds)) {
    if (role.role === 'hours') {
      const found = reversedHours(value, path)
      if (found) yield findingOf(file, found, from)
    } else if (role.role === 'dates') {
      const [start = '', end = start] = value.split(' to ')
      if (end < start)
        yield findingOf(file, { path, endIs: 'The last day', end, startIs: 'the first day', start }, from)
    }
  }
}

const hasTwoEnds = ({ role }: Role) => role === 'hours' || role === 'dates'

function reversedHours(
  hours: string,
  path: KeyPath,
  on?: { readonly zone: TimeZone | undefined; readonly day: Day },
): EndAndStart | undefined {
  const [start = '', end = ''] = hours.split(' to ')
  const [starts, ends] = [clockTimeOf(start), clockTimeOf(end)]
  if (!starts || !ends || !cannotEndAfter(starts, ends, on)) return undefined
  return { path, endIs: 'The end', end, startIs: 'the start', start }
}

function findingOf(file: string, { path, ...args }: EndAndStart, from: Day): Finding<Reversed> {
  return { args, at: { file, path }, from }
}
