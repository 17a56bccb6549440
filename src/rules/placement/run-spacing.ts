import { answeredFor } from '../../ledger/answered-for.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { DatedSpan } from '../../ledger/spans.js'
import { dayIn, inForce } from '../../ledger/spans.js'
import type { Citation, Day, Level } from '../../types.js'
import { levelFrom } from '../adopted.js'
import type { Finding } from '../rule.js'
import { commonPractice, siteRule } from '../rule.js'
import type { Run } from './run-distance.js'
import { distanceBetween } from './run-distance.js'
import type { Pair, RodentKind } from './run-neighbours.js'
import { isAgainst, isBeyond, neighbours, spacingParameters } from './run-neighbours.js'
import { standingDevices } from './standing-devices.js'

type GapArgs = {
  readonly run: string
  readonly first: string
  readonly second: string
  readonly apart: string
  readonly limit: string
  readonly against: RodentKind
}

export const runSpacing = siteRule<GapArgs>({
  id: 'run-spacing',
  title: 'neighbouring devices of a run under active control stand too far apart',
  level: 'warning',
  judgedOn: 'the as-of day, by the devices that stand then',
  why: 'Rodents keep to a short stretch of wall: between two devices too far apart one can live without meeting either.',
  remedy:
    'Set a device between the two and name it in the run, in its place; or end the span of `active-control` if the run is only watched now.',
  source: commonPractice,
  actor: 'technician',
  gap: false,
  parameters: ['run.mouse-spacing', 'run.rat-spacing', 'run.rat-spacing-limit'],
  says: ({ run, first, second, apart, limit, against }) =>
    `${first} and ${second} on run ${run} stand ${apart} apart; against ${against} it is at most ${limit}.`,
  *check(view) {
    const standing = standingDevices(view)
    for (const [name, run] of Object.entries(view.site.data.runs ?? {})) {
      const control = inForce(run['active-control'], view.asOf)
      if (!control) continue
      const said = new Map<string, Finding<GapArgs>>()
      for (const against of ['mice', 'rats'] as const) {
        for (const pair of neighbours(run, standing, against)) {
          const finding = gapOf(view, name, run, control, pair, against)
          if (!finding) continue
          // The same two may stand too far apart against both: it is said once, as the graver.
          const key = `${finding.args.first} ${finding.args.second}`
          const before = said.get(key)
          if (!before || (before.level === 'note' && finding.level === 'warning')) said.set(key, finding)
        }
      }
      yield* said.values()
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
runs:
  north-wall:
    devices:
      - D1
      - D2 # expect: run-spacing
    spacing: [16 ft]
    active-control: [{from: 2026-03-20}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  D1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
  D2: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
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
runs:
  north-wall:
    devices:
      - D1
      - D2
    spacing: [15 ft]
    active-control: [{from: 2026-03-20}]
=== sites/oak/visits/2026-03-20-okafor.yaml
purpose: set-up
by: okafor
set:
  D1: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
  D2: {kind: snap-trap, area: kitchen, secured: yes, marked: yes}
`,
})

function gapOf(
  view: SiteView,
  name: string,
  run: Run,
  control: DatedSpan,
  pair: Pair,
  against: RodentKind,
): Finding<GapArgs> | undefined {
  const verdict = verdictOn(view, run, pair, against)
  const span = answeredFor(view, {
    from: Math.max(dayIn(control.from), sinceWhen(view, run, pair, against)),
    until: control.until === undefined ? undefined : dayIn(control.until) + 1,
  })
  if (!verdict || !span) return undefined
  const both = [pair.first[1], pair.second[1]] as const
  const [first, second] = [both[0].device.id, both[1].device.id]
  return {
    args: { run: name, first, second, against, ...verdict.args },
    at: { file: view.site.file, path: ['runs', name, 'devices', pair.second[0]] },
    related: both.map(({ device, stand }) => ({
      place: { file: stand.from.visit.file, path: stand.from.path, onKey: true },
      says: `${device.id} stands in ${stand.area}`,
    })),
    ...span,
    level: verdict.level,
    sources: verdict.sources,
    identity: [name, first, second],
  }
}

/** Day from which the two have been neighbours: both stood, and whatever stood between them no longer did. */
function sinceWhen(view: SiteView, run: Run, { first, second }: Pair, against: RodentKind): Day {
  const between = new Set(run.devices.slice(first[0] + 1, second[0]))
  let since = Math.max(first[1].since, second[1].since)
  for (const device of view.devices) {
    const ended = between.has(device.id) && isAgainst(device, against) ? device.out.at(-1)?.until : undefined
    if (ended !== undefined) since = Math.max(since, ended)
  }
  return since
}

interface Verdict {
  readonly args: { readonly apart: string; readonly limit: string }
  readonly level: Level
  readonly sources: readonly Citation[]
}

/** The graver of what the distance departs from; the limit for rats is a warning whoever asks it. */
function verdictOn(view: SiteView, run: Run, pair: Pair, against: RodentKind): Verdict | undefined {
  const distance = distanceBetween(view.site.data, run, pair.first, pair.second)
  if (!distance) return undefined
  for (const parameter of spacingParameters[against]) {
    const limit = view.district.parameters(parameter, view.asOf)
    if (!limit || !isBeyond(distance, String(limit.value))) continue
    return {
      args: { apart: `${distance.value} ${distance.unit}`, limit: String(limit.value) },
      level: parameter === 'run.rat-spacing-limit' ? 'warning' : levelFrom(limit.sources, 'warning'),
      sources: limit.sources,
    }
  }
  return undefined
}
