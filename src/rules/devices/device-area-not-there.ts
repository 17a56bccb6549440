import type { LoadedEvent } from '../../ledger/loaded.js'
import type { Area } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import type { KeyPath } from '../../types.js'
import { ledgerFormat, siteRule } from '../rule.js'

interface NotThere extends Record<string, string> {
  area: string
  /** Which end of the area's time the day lies beyond. */
  end: 'from' | 'until'
  on: string
  device: string
}

export const deviceAreaNotThere = siteRule<NotThere>({
  id: 'device-area-not-there',
  title: 'a device or an inspection is in an area that was not part of the site on that day',
  level: 'warning',
  judgedOn: 'the day of the visit, by the `from` and `until` of the area',
  why: 'What is due in an area follows from the days on which it is part of the site; a device in it before or after is looked for by no one.',
  remedy:
    'Write the area that was meant, or mend its `from` and `until` in site.yaml; leave `from` out where the area always was.',
  source: ledgerFormat,
  actor: 'whoever wrote the record',
  gap: false,
  says: ({ area, end, on, device }) =>
    `${area}${device === '' ? '' : `, where this visit puts ${device},`} ${
      end === 'from' ? `is part of the site only from ${on}` : `was part of the site only until ${on}`
    }.`,
  *check(view) {
    if (![...view.areas.values()].some(isDated)) return
    for (const visit of view.visits) {
      for (const { area, path, onKey, device } of areasIn(visit)) {
        const beyond = endBeyond(view.areas.get(area), visit.day)
        if (!beyond) continue
        yield {
          args: { area, end: beyond.end, on: isoOf(beyond.day), device },
          at: { file: visit.file, path, onKey },
          related: [
            {
              place: { file: view.site.file, path: ['areas', area, beyond.end] },
              says: `${area} is part of the site ${beyond.end} ${isoOf(beyond.day)}`,
            },
          ],
          from: visit.day,
          identity: [area],
        }
      }
    }
  },
  failing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  room-2: {kind: classroom, children: yes, from: 2026-03-11}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
set:
  R1: {kind: sticky-trap, area: room-2, within-reach: no} # expect: device-area-not-there
`,
  passing: `
=== sites/oak/site.yaml
name: Oak School
site-manager: [{from: 2026-03-01, who: lind}]
complaint-log: front office
contract: [{from: 2026-03-01, contractor: Invented Pest Services, routine-visits: monthly, grace: 5 days, checks: {sticky-trap: monthly}}]
areas:
  kitchen: {kind: kitchen}
  room-1: {kind: classroom, children: yes}
  room-2: {kind: classroom, children: yes, from: 2026-03-10}
=== sites/oak/visits/2026-03-10-okafor.yaml
purpose: follow-up
by: okafor
set:
  R1: {kind: sticky-trap, area: room-2, within-reach: no}
`,
})

interface AreaNamed {
  readonly area: string
  readonly path: KeyPath
  readonly onKey: boolean
  readonly device: string
}

function* areasIn({ data }: LoadedEvent<'visit'>): Iterable<AreaNamed> {
  for (const [device, { area }] of Object.entries(data.set ?? {}))
    yield { area, path: ['set', device, 'area'], onKey: false, device }
  for (const [device, { area }] of Object.entries(data.moved ?? {}))
    if (area !== undefined) yield { area, path: ['moved', device, 'area'], onKey: false, device }
  for (const [n, area] of (data.inspected ?? []).entries())
    yield { area, path: ['inspected', n], onKey: false, device: '' }
  for (const area of Object.keys(data['no-entry'] ?? {}))
    yield { area, path: ['no-entry', area], onKey: true, device: '' }
}

const isDated = ({ facts }: Area) => facts.from !== undefined || facts.until !== undefined

/** By what the site itself states: an area without a `from` was there before any record. */
function endBeyond(
  area: Area | undefined,
  day: number,
): { readonly end: 'from' | 'until'; readonly day: number } | undefined {
  const { from, until } = area?.facts ?? {}
  if (from !== undefined && day < dayIn(from)) return { end: 'from', day: dayIn(from) }
  if (until !== undefined && day > dayIn(until)) return { end: 'until', day: dayIn(until) }
  return undefined
}
