import type { Check, DeviceHistory } from '../../ledger/device-history.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import { checkTermsOn, longerThanRoutine } from './check-terms.js'
import { leftUnusable } from './device-gaps.js'
import { lapse } from './lapse.js'

export const deviceNotRead = siteRule<{ devices: readonly string[]; count: number }>({
  id: 'device-not-read',
  title: 'a device in an inspected area was not read',
  level: 'warning',
  judgedOn: 'the day of the visit',
  why: 'A device without a reading is not a zero: its time tells nothing, and the trend has a hole.',
  remedy:
    'Add what was seen; for devices with nothing on them `readings: {none: [K1, K2]}`, for one that could not be reached `K3: {no-access: cabinet in front}`. If it was not looked at, read it on a short visit now.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  says: ({ devices, count }) =>
    count === 1
      ? `This routine visit inspected the area of ${devices[0]} but has no reading of it.`
      : `This routine visit inspected the areas of ${devices.join(', ')} but has no reading of these ${count} devices.`,
  *check(view) {
    const missed = missedByVisit(view)
    for (const visit of view.routineVisits) {
      const devices = missed.get(visit.file)
      if (!devices) continue
      const seen = devices.map(({ read }) => read)
      const all = seen.every((day): day is Day => day !== undefined) ? Math.max(...seen) : undefined
      const when = lapse(view, visit.day, all)
      if (!when) continue
      yield {
        args: { devices: devices.map(({ id }) => id), count: devices.length },
        at: { file: visit.file, path: [visit.data.readings ? 'readings' : 'purpose'], onKey: true },
        ...when,
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: routine # expect: device-not-read
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
`,
  passing: `
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: routine
by: okafor
time: 06:10 to 06:50
site-manager: lind
complaint-log: read
inspected: [kitchen, room-1]
readings: {none: [K1]}
`,
})

interface Missed {
  readonly id: string
  /** Day it was read or taken up after all. */
  readonly read: Day | undefined
}

/** Devices each routine visit passed by, by the file of the visit. */
function missedByVisit(view: SiteView): Map<string, Missed[]> {
  const missed = new Map<string, Missed[]>()
  for (const device of view.devices) {
    for (const [visit, read] of passedBy(view, device)) {
      const list = missed.get(visit.file) ?? []
      missed.set(visit.file, list)
      list.push({ id: device.id, read })
    }
  }
  return missed
}

/** Routine visits that went by one device, and the day it was read or taken up after each. */
function* passedBy(
  view: SiteView,
  device: DeviceHistory,
): Iterable<readonly [LoadedEvent<'visit'>, Day | undefined]> {
  const gone = device.takenUp?.day
  let next = 0
  for (const visit of view.routineVisits) {
    const { day } = visit
    if (day < view.begins || day <= device.set.day) continue
    if (gone !== undefined && gone <= day) return
    while (next < device.checks.length && (device.checks[next]?.moment.day ?? 0) < day) next++
    // Another visit of the same morning may have read it.
    if (device.checks[next]?.moment.day === day) continue
    if (!wasOut(device, visit) || !visit.data.inspected?.includes(areaBefore(device, day))) continue
    const last = lookFrom(device, next - 1, -1)
    // A lost device is told as lost; one with a longer interval of its own waits for that.
    if (last && leftUnusable(last)) continue
    if (longerThanRoutine(checkTermsOn(view, device, day))) continue
    yield [visit, lookFrom(device, next, 1)?.moment.day ?? gone]
  }
}

/** The first look at a device from one of its checks on, forward (1) or back (-1); no access is no look. */
function lookFrom(device: DeviceHistory, start: number, step: 1 | -1): Check | undefined {
  for (let at = start; at >= 0 && at < device.checks.length; at += step) {
    const check = device.checks[at]
    if (check && !check.noAccess) return check
  }
  return undefined
}

/** Out since before the day of the visit, and not picked up on that day by anyone but the visit itself. */
function wasOut(device: DeviceHistory, visit: LoadedEvent<'visit'>): boolean {
  return device.out.some(
    (span) =>
      span.from < visit.day &&
      (span.until === undefined ||
        span.until > visit.day ||
        (span.until === visit.day && visit.data['picked-up']?.includes(device.id) === true)),
  )
}

/** Where it stood when the day began: a device is read before it is moved. */
function areaBefore(device: DeviceHistory, day: Day): string {
  return device.stands.findLast((stand) => stand.from.day < day)?.area ?? device.setFacts.area
}
