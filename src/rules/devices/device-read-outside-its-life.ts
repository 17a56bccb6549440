import { ledgerFormat, siteRule } from '../rule.js'
import type { OutsideItsLife } from './outside-its-life.js'
import { outsideItsLife, outsideItsLifeSentence } from './outside-its-life.js'

export const deviceReadOutsideItsLife = siteRule<OutsideItsLife>({
  id: 'device-read-outside-its-life',
  title: 'a device is read before it was set or after it was taken up',
  level: 'error',
  judgedOn: 'the day of the reading',
  why: 'A device that did not stand caught nothing: the reading belongs to another one, or the setting is missing, and it counts for no trend.',
  remedy:
    'Write the reading under the device it was made at, or mend the day on which the device was set or taken up; of two visits on one day, write when both were made: `time: 06:10 to 06:50`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: outsideItsLifeSentence,
  *check(view) {
    for (const anomaly of view.deviceAnomalies) {
      const { device, at } = anomaly
      if (anomaly.kind === 'read-before-set') yield outsideItsLife(device, 'read', at, 'set', anomaly.set)
      else if (anomaly.kind === 'read-after-taken-up')
        yield outsideItsLife(device, 'read', at, 'taken up', anomaly.takenUp)
    }
  },
  failing: `
=== sites/oak/visits/2026-03-03-okafor.yaml
purpose: follow-up
by: okafor
readings:
  none: [K1] # expect: device-read-outside-its-life
`,
  passing: `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
readings:
  none: [K1]
`,
})
