import type { DeviceHistory } from '../../ledger/device-history.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import { daysOf } from '../../ledger/parameters.js'
import type { SiteView } from '../../ledger/site-view.js'
import { areaOn, standsOutOn } from '../../ledger/standing.js'
import { isoOf } from '../../measure/calendar.js'
import type { AreaKind } from '../../records/area-kinds.js'
import type { DeviceKind } from '../../records/device-kinds.js'
import { deviceKinds } from '../../records/device-kinds.js'
import { deviceTable, pestTable } from '../../records/tables.js'
import type { Day } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import type { Lapse } from './lapse.js'
import { lapse } from './lapse.js'

export const repeatParameter = 'complaint.repeat'

export const repeatComplaintNoDevice = siteRule<{ pest: string; area: string; first: string }>({
  id: 'repeat-complaint-no-device',
  title: 'complaints repeat where no device stands',
  level: 'note',
  judgedOn: 'the day of the later complaint',
  why: 'Two complaints of one pest are worth a device: it tells whether the pest is there, and whether what is done works.',
  remedy:
    'Set a device that can show the pest on the next visit: `set: {R1: {kind: sticky-trap, area: room-1, within-reach: no}}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: [repeatParameter],
  says: ({ pest, area, first }) =>
    `${pest} was also complained of on ${first}, and no device that can show it stands in ${area === '' ? 'this site' : `\`${area}\``}.`,
  *check(view) {
    const toldUntil = new Map<string, Day>()
    for (const [complaint, before] of repeats(view)) {
      const { pest = '', area } = complaint.data
      const where = area !== undefined && before.data.area !== undefined ? area : undefined
      const able = view.devices.filter((device) => shows(device.kind, device.for, pest))
      if (able.some((device) => standsThere(device, where, complaint.day))) continue
      const place = `${pest} ${where ?? ''}`
      // A third complaint says nothing new while the second is still told.
      if (complaint.day < (toldUntil.get(place) ?? complaint.day)) continue
      const when = lapse(view, complaint.day, firstSetThere(able, where, complaint.day))
      if (!when) continue
      toldUntil.set(place, when.until ?? Number.POSITIVE_INFINITY)
      yield {
        args: { pest, area: where ?? '', first: isoOf(before.day) },
        at: { file: complaint.file, path: ['pest'] },
        related: [{ place: { file: before.file, path: ['pest'] }, says: 'the complaint before' }],
        ...when,
      }
    }
  },
  failing: `
=== sites/oak/complaints/2026-03-09-lind.yaml
by: lind
from: staff
area: room-1
pest: german-cockroach
says: a small roach behind the sink
=== sites/oak/complaints/2026-03-18-lind.yaml
by: lind
from: staff
area: room-1
pest: german-cockroach # expect: repeat-complaint-no-device
says: another one on the wall
`,
  passing: `
=== sites/oak/complaints/2026-03-09-lind.yaml
by: lind
from: staff
area: room-1
pest: german-cockroach
says: a small roach behind the sink
=== sites/oak/complaints/2026-03-18-lind.yaml
by: lind
from: staff
area: room-1
pest: german-cockroach
says: another one on the wall
=== sites/oak/visits/2026-03-11-okafor.yaml
purpose: follow-up
by: okafor
answers: {2026-03-09-lind: a trap set}
inspected: [room-1]
set:
  R1: {kind: sticky-trap, area: room-1, within-reach: no}
`,
})

type Complaint = LoadedEvent<'complaint'>

/**
 * Complaints of a pest that traps can show, each with the last one before it, within so many days, of the same pest
 * in the same area; in the same site where one of them names no area. Two of one day are one event seen twice.
 */
export function* repeats(view: SiteView): Iterable<readonly [Complaint, Complaint]> {
  const earlier = new Map<string, Complaint[]>()
  for (const complaint of view.complaints) {
    const { pest, area, withdrawn } = complaint.data
    if (pest === undefined || withdrawn !== undefined || complaint.day < view.begins) continue
    if (!isTrappable(pest, area === undefined ? undefined : view.areas.get(area)?.facts.kind)) continue
    const advice = view.district.parameters(repeatParameter, complaint.day)
    const days = (advice && daysOf(advice.value)) ?? 0
    const recent = (earlier.get(pest) ?? []).filter((entry) => entry.day >= complaint.day - days)
    const before = recent.findLast((entry) => entry.day < complaint.day && samePlace(entry, complaint))
    earlier.set(pest, [...recent, complaint])
    if (before) yield [complaint, before]
  }
}

function samePlace(a: Complaint, b: Complaint): boolean {
  return a.data.area === undefined || b.data.area === undefined || a.data.area === b.data.area
}

const outdoors: ReadonlySet<AreaKind> = new Set(['outdoors', 'playground', 'waste'])

/**
 * Whether a device could stand there and show the pest. Boards and light traps are of no use in the open; stinging
 * insects are dealt with at their nest.
 */
function isTrappable(pest: string, where: AreaKind | undefined): boolean {
  if (pestTable().get(pest)?.group === 'stinging') return false
  return deviceKinds.some((kind) => {
    const inTheOpen = deviceTable()[kind].rodent === 'yes' || kind === 'termite-station'
    return shows(kind, [], pest) && (inTheOpen || where === undefined || !outdoors.has(where))
  })
}

function shows(kind: DeviceKind, isFor: readonly string[], pest: string): boolean {
  const group = pestTable().get(pest)?.group
  return isFor.includes(pest) || (group !== undefined && deviceTable()[kind].shows.includes(group))
}

function standsThere(device: DeviceHistory, area: string | undefined, day: Day): boolean {
  return standsOutOn(device, day) && (area === undefined || areaOn(device, day) === area)
}

/** The first later day on which one of the devices comes to stand in the area. */
function firstSetThere(
  devices: readonly DeviceHistory[],
  area: string | undefined,
  after: Day,
): Lapse['until'] {
  const days = devices.flatMap((device) => [
    ...device.stands.map((stand) => stand.from.day),
    ...device.out.map((span) => span.from),
  ])
  return [...new Set(days)]
    .filter((day) => day > after && devices.some((device) => standsThere(device, area, day)))
    .sort((a, b) => a - b)[0]
}
