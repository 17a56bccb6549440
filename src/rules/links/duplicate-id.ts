import type { DeviceAnomaly } from '../../ledger/device-history.js'
import { dayOfUndated } from '../../ledger/undated.js'
import { isoOf } from '../../measure/calendar.js'
import { builtInRulebooks } from '../../records/tables.js'
import type { KeyPath } from '../../types.js'
import type { Finding } from '../rule.js'
import { ledgerFormat, siteRule } from '../rule.js'

interface DuplicateId extends Record<string, string> {
  name: string
  fault: 'set-twice' | 'read-twice' | 'rulebook'
  /** Day on which the one that stands was set. */
  on: string
}

export const duplicateId = siteRule<DuplicateId>({
  id: 'duplicate-id',
  title: 'one name is used for two things, or twice for one',
  level: 'error',
  judgedOn: 'the day of the record',
  why: 'A name must lead to one thing: a device set over another, or read twice in one visit, has no certain place, count or nights.',
  remedy:
    'Give the other device a name of its own; a device that was moved stands under `moved`, a new board in its place is `renewed: yes` in the reading, and one set afresh is first taken up: `taken-up: {K1: worn out}`.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says({ name, fault, on }) {
    if (fault === 'set-twice') return `${name} is set here while it still stands, set on ${on}.`
    if (fault === 'read-twice') return `${name} is read twice in this visit.`
    return `The rulebook \`${name}\` has the name of one that comes with the program, and takes its place.`
  },
  *check(view) {
    for (const anomaly of view.deviceAnomalies) {
      if (anomaly.kind === 'set-twice') yield setTwice(anomaly)
      else if (anomaly.kind === 'read-twice') yield readTwice(anomaly)
    }
  },
  *checkDistrict(view) {
    for (const [id, { file }] of view.ownRulebooks) {
      if (!(builtInRulebooks as readonly string[]).includes(id)) continue
      yield {
        args: { name: id, fault: 'rulebook', on: '' },
        at: { file, path: ['title'], onKey: true },
        from: dayOfUndated(view),
      }
    }
  },
  failing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  none: [K1]
  K1: {renewed: yes} # expect: duplicate-id
set:
  K1: {kind: sticky-trap, area: room-1, within-reach: no} # expect: duplicate-id
`,
  passing: `
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
readings:
  K1: {renewed: yes}
set:
  K2: {kind: sticky-trap, area: room-1, within-reach: no}
`,
})

function setTwice({ device, at, set }: Extract<DeviceAnomaly, { kind: 'set-twice' }>): Finding<DuplicateId> {
  return {
    args: { name: device, fault: 'set-twice', on: isoOf(set.day) },
    at: { file: at.visit.file, path: at.path, onKey: true },
    related: [
      {
        place: { file: set.visit.file, path: set.path, onKey: true },
        says: `${device} was set here, on ${isoOf(set.day)}, and was not taken up since`,
      },
    ],
    from: at.day,
  }
}

function readTwice({ device, at }: Extract<DeviceAnomaly, { kind: 'read-twice' }>): Finding<DuplicateId> {
  const first: KeyPath = ['readings', 'none', at.visit.data.readings?.none?.indexOf(device) ?? 0]
  return {
    args: { name: device, fault: 'read-twice', on: '' },
    at: { file: at.visit.file, path: at.path, onKey: true },
    related: [
      { place: { file: at.visit.file, path: first }, says: `${device} is first said to hold nothing here` },
    ],
    from: at.day,
  }
}
