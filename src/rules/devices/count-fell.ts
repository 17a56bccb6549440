import type { DeviceAnomaly, Moment } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { isoOf } from '../../measure/calendar.js'
import type { KeyPath } from '../../types.js'
import { ledgerFormat, siteRule } from '../rule.js'

type CountFell = Extract<DeviceAnomaly, { kind: 'count-fell' }>

export const countFell = siteRule<{ device: string; pest: string; before: number; now: number; on: string }>({
  id: 'count-fell',
  title: 'a count fell and no renewal is recorded',
  level: 'warning',
  judgedOn: 'the day of the reading',
  why: 'A count is all that is on the device now, and the catch is what was added; when it falls unexplained, no catch can be told.',
  remedy:
    'If the device was renewed or emptied when it was read before, add `renewed: yes` to that reading; if only the new ones were counted now, write all that are on it.',
  source: ledgerFormat,
  actor: 'technician',
  gap: false,
  says: ({ device, pest, before, now, on }) =>
    `${device} held ${before} (${pest}) on ${on} and ${now === 0 ? 'none' : now} now, and no renewal is recorded between.`,
  *check(view) {
    const readTwice = new Set(
      view.deviceAnomalies
        .filter(({ kind }) => kind === 'read-twice')
        .map(({ device, at }) => `${at.visit.id} ${device}`),
    )
    for (const anomaly of view.deviceAnomalies) {
      if (anomaly.kind !== 'count-fell') continue
      const { device, at, pest, before, now } = anomaly
      // Two readings of one device in one visit are told as such, not as what follows from them.
      if (readTwice.has(`${at.visit.id} ${device}`)) continue
      const counted = countedAt(anomaly, view)
      yield {
        args: { device, pest, before, now, on: isoOf(counted.day) },
        at: { file: at.visit.file, path: pathOf(at, pest), onKey: true },
        related: [
          {
            place: { file: counted.visit.file, path: pathOf(counted, pest), onKey: true },
            says: `${before} counted here, on ${isoOf(counted.day)}`,
          },
        ],
        from: at.day,
        identity: [device, pest],
      }
    }
  },
  failing: `
=== plans/ant.yaml
spans:
  - from: 2026-03-01
    thresholds: {elsewhere: {act-at: 50, per: room}}
    tactics: {clean: {do: wipe the trail}}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {ant: 5}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {ant: 2} # expect: count-fell
`,
  passing: `
=== plans/ant.yaml
spans:
  - from: 2026-03-01
    thresholds: {elsewhere: {act-at: 50, per: room}}
    tactics: {clean: {do: wipe the trail}}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {ant: 5, renewed: yes}
=== sites/oak/visits/2026-03-12-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {ant: 2}
`,
})

/** The look at which the higher count was made: not always the last one, which may not have named the pest. */
function countedAt({ device, at, pest, last }: CountFell, view: SiteView): Moment {
  for (const { id, checks } of view.devices) {
    if (id !== device) continue
    const now = checks.findIndex(({ moment }) => moment === at)
    if (now < 0) continue
    const before = checks.slice(0, now).findLast(({ counts }) => counts.has(pest))
    if (before) return before.moment
  }
  return last
}

/** The pest's own key where the reading names it; otherwise the reading, or the place in the list. */
function pathOf({ visit, path }: Moment, pest: string): KeyPath {
  const reading = visit.data.readings?.[String(path[1])]
  return reading !== undefined && pest in reading ? [...path, pest] : path
}
