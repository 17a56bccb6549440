import type { Presence } from '../../ledger/site-digest.js'
import { clockText, isoOf } from '../../measure/calendar.js'
import type { TimeZone } from '../../measure/zone.js'
import { timeZone } from '../../measure/zone.js'
import { siteOfPath } from '../../records/paths.js'
import type { Place } from '../../types.js'
import type { Finding } from '../rule.js'
import { districtRule, ledgerFormat } from '../rule.js'

interface TwoPlaces extends Record<string, string> {
  person: string
  on: string
  here: string
  there: string
}

/** Times that touch are fine: a building may be left at the minute the next is entered. */
export const inTwoPlaces = districtRule<TwoPlaces>({
  id: 'in-two-places',
  title: 'one person is in two buildings at once',
  level: 'error',
  judgedOn: 'the day of the records, where both say when they began and ended',
  why: 'One of the two times, or the person, is wrong, and with it who did the work or how long it took.',
  remedy: 'Mend `time`, or the person under `by` or `with`, in the record that is wrong.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ person, on, here, there }) => `On ${on} ${person} is in ${here} and in ${there} at once.`,
  *check(view, digests) {
    const zone = timeZone(view.district.data['time-zone'])
    const byPersonAndDay = new Map<string, Presence[]>()
    for (const { presences } of digests) {
      for (const presence of presences) {
        if (!isCertain(presence, zone)) continue
        const key = `${presence.person} ${presence.day}`
        const known = byPersonAndDay.get(key)
        if (known) known.push(presence)
        else byPersonAndDay.set(key, [presence])
      }
    }
    for (const presences of byPersonAndDay.values()) yield* overlaps(presences)
  },
  failing: `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:40 to 07:20 # expect: in-two-places
site-manager: lind
complaint-log: read
inspected: [kitchen]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
  passing: `
=== sites/elm/site.yaml
name: Elm School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
=== sites/elm/visits/2026-03-05-okafor.yaml
purpose: routine
by: okafor
time: 06:50 to 07:30
site-manager: lind
complaint-log: read
inspected: [kitchen]
set:
  K1: {kind: sticky-trap, area: kitchen, within-reach: no}
`,
})

/** A time that the clock shows twice, or not at all, on that day tells too little to accuse two records. */
function isCertain({ day, start, end }: Presence, zone: TimeZone | undefined): boolean {
  if (!zone || zone.isSteadyOn(day)) return true
  return [start, end].every((minutes) => zone.offsetsAt(day, minutes).length === 1)
}

function* overlaps(presences: Presence[]): Iterable<Finding<TwoPlaces>> {
  if (presences.length < 2) return
  presences.sort((a, b) => a.start - b.start || a.end - b.end || (a.file < b.file ? -1 : 1))
  let running: Presence[] = []
  for (const presence of presences) {
    running = running.filter((earlier) => earlier.end > presence.start)
    for (const earlier of running)
      if (siteOfPath(earlier.file) !== siteOfPath(presence.file)) yield overlap(presence, earlier)
    running.push(presence)
  }
}

function overlap(presence: Presence, earlier: Presence): Finding<TwoPlaces> {
  const there = whereAndWhen(earlier)
  return {
    args: { person: presence.person, on: isoOf(presence.day), here: whereAndWhen(presence), there },
    at: placeOf(presence),
    related: [{ place: placeOf(earlier), says: `${presence.person} is in ${there}` }],
    from: presence.day,
    identity: [presence.person, earlier.file],
  }
}

function placeOf({ file }: Presence): Place {
  return { file, path: ['time'] }
}

function whereAndWhen({ file, start, end }: Presence): string {
  return `${siteOfPath(file)} from ${clockText(start)} to ${clockText(end)}`
}
