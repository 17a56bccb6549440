import { animalsIn, countIn, pestsIn } from '../../ledger/counts.js'
import type { DeviceHistory, Reading } from '../../ledger/device-history.js'
import { deviceTable, pestTable } from '../../records/tables.js'
import { ledgerFormat, siteRule } from '../rule.js'

export const sprungMoreThanTraps = siteRule<{
  device: string
  traps: number
  sprung: number
  caught: number
}>({
  id: 'sprung-more-than-traps',
  title: 'more traps are sprung than stand there',
  level: 'error',
  judgedOn: 'the day of the reading',
  why: 'A trap that holds a catch is not also sprung empty; nights and catch of the traps that stand here are reckoned from these numbers.',
  remedy:
    'Write each trap once: with its catch, or as sprung without one (`sprung: {empty: 1}`); where several stand as one, write `traps: 2` where the device is set.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ device, traps, sprung, caught }) =>
    `${device} is ${traps === 1 ? '1 trap' : `${traps} traps`}, but this reading has ${sprung} sprung without a catch${caught > 0 ? ` and ${caught} with one` : ''}.`,
  *check(view) {
    for (const device of view.devices) {
      if (!deviceTable()[device.kind].reads.includes('sprung')) continue
      for (const { reading, moment } of device.checks) {
        const sprung = sprungIn(reading?.sprung)
        if (!reading || sprung === 0) continue
        const caught = caughtIn(reading, device)
        if (sprung + caught <= device.traps) continue
        yield {
          args: { device: device.id, traps: device.traps, sprung, caught },
          at: { file: moment.visit.file, path: [...moment.path, 'sprung'], onKey: true },
          related: [
            {
              place: { file: device.set.visit.file, path: [...device.set.path, 'traps'] },
              says: `${device.id} is set here, as ${device.traps === 1 ? 'one trap' : `${device.traps} traps`}`,
            },
          ],
          from: moment.day,
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-19-okafor.yaml
purpose: follow-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes, within-reach: no}
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: trap-check
by: okafor
readings:
  S1: {sprung: {empty: 2}, reset: yes} # expect: sprung-more-than-traps
taken-up: {S1: search ended}
`,
  passing: `
=== sites/oak/visits/2026-03-19-okafor.yaml
purpose: follow-up
by: okafor
set:
  S1: {kind: snap-trap, area: kitchen, traps: 2, secured: yes, marked: yes, within-reach: no}
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: trap-check
by: okafor
readings:
  S1: {sprung: {empty: 2}, reset: yes}
taken-up: {S1: search ended}
`,
})

/** Traps sprung without a catch; a mere word says that at least one was. */
function sprungIn(sprung: Reading['sprung']): number {
  if (sprung === undefined) return 0
  if (typeof sprung === 'string') return 1
  return (sprung.empty ?? 0) + (sprung['other-animal'] ?? 0)
}

/** Traps that hold what they are for; an ant at the bait occupies none. */
function caughtIn(reading: Reading, device: DeviceHistory): number {
  const { shows } = deviceTable()[device.kind]
  let caught = 0
  for (const pest of pestsIn(reading)) {
    const group = pestTable().get(pest)?.group
    if (device.for.includes(pest) || (group !== undefined && shows.includes(group)))
      caught += animalsIn(countIn(reading, pest) ?? 0)
  }
  return caught
}
