import type { DeviceHistory } from '../../ledger/device-history.js'
import { daysOf } from '../../ledger/parameters.js'
import { isoOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { commonPractice, siteRule } from '../rule.js'
import { leftUnusable } from './device-gaps.js'
import { earliest, lateness } from './lapse.js'

export const lostDeviceNotRenewed = siteRule<{ device: string; state: string; by: string }>({
  id: 'lost-device-not-renewed',
  title: 'a lost or spoilt device was not renewed',
  level: 'warning',
  judgedOn: 'the day it was found so',
  why: 'Until it is renewed its place is not watched, and no trend can be drawn from it.',
  remedy:
    'Put in a new one and write `renewed: yes` in its reading, or take it up for good: `taken-up: {K7: place no longer needed}`.',
  source: commonPractice,
  actor: 'technician',
  gap: true,
  parameters: ['device.replace'],
  says: ({ device, state, by }) =>
    `${device} was found ${state}; by ${by} no record shows it ${state === 'missing' ? 'found, renewed' : 'renewed'} or taken up.`,
  *check(view) {
    for (const device of view.devices) {
      for (const { at, day, end } of outOfService(device)) {
        const advice = view.district.parameters('device.replace', day)
        const days = advice && daysOf(advice.value)
        const { moment, reading } = at
        if (!advice || typeof days !== 'number' || day < view.begins) continue
        const when = lateness(view, day + days + 1, end)
        if (!when) continue
        yield {
          args: { device: device.id, state: reading?.unusable ?? '', by: isoOf(day + days) },
          at: { file: moment.visit.file, path: [...moment.path, 'unusable'] },
          sources: advice.sources,
          ...when,
        }
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {unusable: missing} # expect: lost-device-not-renewed
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {unusable: missing, renewed: yes}
`,
})

interface OutOfService {
  readonly at: DeviceHistory['checks'][number]
  readonly day: Day
  /** Day it was renewed, found again, picked up or taken up. */
  readonly end: Day | undefined
}

/** Stretches in which a device was known to be lost or spoilt, each from the check that first said so. */
function outOfService(device: DeviceHistory): OutOfService[] {
  const stretches: OutOfService[] = []
  let open: DeviceHistory['checks'][number] | undefined
  const close = (end: Day | undefined) => {
    if (!open) return
    const { day } = open.moment
    const picked = device.out.find((span) => span.from <= day && (span.until ?? day) >= day)?.until
    stretches.push({ at: open, day, end: earliest(picked, end) })
    open = undefined
  }
  for (const check of device.checks) {
    if (check.noAccess) continue
    if (leftUnusable(check)) open ??= check
    // One that was only missing can be found again; a spoilt one stays spoilt until it is renewed.
    else if (check.renewed || open?.reading?.unusable === 'missing') close(check.moment.day)
  }
  close(undefined)
  return stretches
}
