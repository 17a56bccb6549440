import type { DeviceAnomaly, Moment } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { ledgerFormat, siteRule } from '../rule.js'
import type { OutsideItsLife } from './outside-its-life.js'
import { outsideItsLife, outsideItsLifeSentence } from './outside-its-life.js'

type NotStanding = Extract<DeviceAnomaly, { kind: 'not-standing' }>

const didInWords: Record<NotStanding['did'], string> = {
  moved: 'moved',
  'picked-up': 'picked up',
  'put-out': 'put out',
  'taken-up': 'taken up',
}

export const deviceNotStanding = siteRule<OutsideItsLife>({
  id: 'device-not-standing',
  title: 'a device is moved, picked up, put out or taken up while it does not stand',
  level: 'error',
  judgedOn: 'the day of the visit',
  why: 'Where a device stood and how many nights it was out follow from these entries; this one fits no device and is left out.',
  remedy:
    'Write the device that was meant, or mend the day on which it was set or taken up; of two visits on one day, write when both were made: `time: 06:10 to 06:50`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: outsideItsLifeSentence,
  *check(view) {
    for (const anomaly of view.deviceAnomalies) {
      if (anomaly.kind !== 'not-standing') continue
      const nearest = nearestBound(anomaly, view)
      if (!nearest) continue
      yield outsideItsLife(anomaly.device, didInWords[anomaly.did], anomaly.at, nearest.bound, nearest.moment)
    }
  },
  failing: `
=== sites/oak/visits/2026-03-03-okafor.yaml
purpose: follow-up
by: okafor
taken-up: {K1: room closed} # expect: device-not-standing
`,
  passing: `
=== sites/oak/visits/2026-03-06-okafor.yaml
purpose: follow-up
by: okafor
taken-up: {K1: room closed}
`,
})

/** The end of the device's last life before the entry, or else the setting that comes after it. */
function nearestBound(
  { device, at }: NotStanding,
  view: SiteView,
): { readonly bound: 'set' | 'taken up'; readonly moment: Moment } | undefined {
  const place = (moment: Moment) => view.visits.indexOf(moment.visit)
  const lives = view.devices.filter((history) => history.id === device)
  const ended = lives.findLast((life) => life.takenUp !== undefined && place(life.takenUp) <= place(at))
  if (ended?.takenUp) return { bound: 'taken up', moment: ended.takenUp }
  const later = lives.find((life) => place(life.set) >= place(at))
  return later && { bound: 'set', moment: later.set }
}
