import { isoOf } from '../../measure/calendar.js'
import { commonPractice, siteRule } from '../rule.js'
import { lateness } from './lapse.js'
import { lostDevices, replaceParameter } from './lost-devices.js'

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
  parameters: [replaceParameter],
  asks: ({ device, state }) => `renew ${device}, found ${state}`,
  says: ({ device, state, by }) =>
    `${device} was found ${state}; by ${by} no record shows it ${state === 'missing' ? 'found, renewed' : 'renewed'} or taken up.`,
  *check(view) {
    for (const { device, at, lastDay, sources, end } of lostDevices(view)) {
      const when = lateness(view, lastDay + 1, end)
      if (!when) continue
      const { moment, reading } = at
      yield {
        args: { device: device.id, state: reading?.unusable ?? '', by: isoOf(lastDay) },
        at: { file: moment.visit.file, path: [...moment.path, 'unusable'] },
        sources,
        ...when,
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
