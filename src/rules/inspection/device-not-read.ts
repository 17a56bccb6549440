import type { SiteView } from '../../ledger/site-view.js'
import type { Day } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import { lapse } from './lapse.js'
import { passedBy } from './passed-by.js'

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
