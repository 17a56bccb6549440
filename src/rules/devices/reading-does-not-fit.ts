import { animalsIn, countIn, pestsIn } from '../../ledger/counts.js'
import type { Check, DeviceHistory, Reading } from '../../ledger/device-history.js'
import type { DeviceRow, readingCapabilities } from '../../records/tables.js'
import { deviceTable, pestTable } from '../../records/tables.js'
import type { Finding } from '../rule.js'
import { commonPractice, ledgerFormat, siteRule } from '../rule.js'

type Capability = (typeof readingCapabilities)[number]

/** Facts of a reading that only some kinds of device can give. */
const fieldNeeds: ReadonlyMap<string, Capability> = new Map<string, Capability>([
  ['sprung', 'sprung'],
  ['reset', 'sprung'],
  ['bait-taken', 'bait'],
  ['bait-added', 'bait'],
  ['tracks', 'tracks'],
  ['active', 'active'],
  ['block', 'block'],
  ['lamp', 'lamp'],
])

interface DoesNotFit extends Record<string, string> {
  device: string
  kind: string
  key: string
  /** `field` and `count` cannot be; `group` is only unlikely. */
  fault: 'field' | 'count' | 'group'
}

export const readingDoesNotFit = siteRule<DoesNotFit>({
  id: 'reading-does-not-fit',
  title: 'a reading holds what its kind of device cannot show',
  level: 'error',
  judgedOn: 'the day of the reading',
  why: 'Such a reading was most likely made at another device, or the device was set under the wrong kind; its count would stand in the wrong series.',
  remedy:
    'Write the reading under the device it was made at, mend the kind where the device was set, or write what was seen under `found`. Which kind reads what stands in src/data/devices.yaml.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says({ device, kind, key, fault }) {
    if (fault === 'field') return `${device} is a ${kind}, of which \`${key}\` cannot be read.`
    if (fault === 'count') return `${device} is a ${kind}, on which nothing is counted, yet it counts ${key}.`
    return `${device} is a ${kind}, which is not made to show what it counts here: ${key}.`
  },
  *check(view) {
    for (const device of view.devices) {
      const row = deviceTable()[device.kind]
      for (const check of device.checks) {
        if (check.reading) yield* misfits(device, row, check, check.reading)
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {bait-taken: some} # expect: reading-does-not-fit
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {renewed: yes}
`,
})

function* misfits(
  device: DeviceHistory,
  row: DeviceRow,
  check: Check,
  reading: Reading,
): Iterable<Finding<DoesNotFit>> {
  for (const key of Object.keys(reading)) {
    const needs = fieldNeeds.get(key)
    if (needs !== undefined && !row.reads.includes(needs)) yield misfit(device, row, check, key, 'field')
  }
  for (const pest of pestsIn(reading)) {
    if (!row.reads.includes('counts')) yield misfit(device, row, check, pest, 'count')
    else if (isUnlikely(pest, reading, device, row))
      yield { ...misfit(device, row, check, pest, 'group'), level: 'note', sources: [commonPractice] }
  }
}

function misfit(
  device: DeviceHistory,
  row: DeviceRow,
  { moment }: Check,
  key: string,
  fault: DoesNotFit['fault'],
): Finding<DoesNotFit> {
  return {
    args: { device: device.id, kind: row.name, key, fault },
    at: { file: moment.visit.file, path: [...moment.path, key], onKey: true },
    related: [
      {
        place: { file: device.set.visit.file, path: [...device.set.path, 'kind'] },
        says: `${device.id} is set here as a ${device.kind}`,
      },
    ],
    from: moment.day,
  }
}

/** A pest of a group this kind of device is not made to show, unless the device was set for it. */
function isUnlikely(pest: string, reading: Reading, device: DeviceHistory, row: DeviceRow): boolean {
  const group = pestTable().get(pest)?.group
  if (group === undefined || group === 'unidentified' || row.shows.includes(group)) return false
  return animalsIn(countIn(reading, pest) ?? 0) > 0 && !device.for.includes(pest)
}
