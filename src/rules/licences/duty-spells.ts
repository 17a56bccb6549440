import type { DistrictView } from '../../ledger/district-view.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import { dayIn, holdsOn } from '../../ledger/spans.js'
import type { DutySection } from '../../records/rulebook-duties.js'
import type { Day } from '../../types.js'

/** The days on which the district was judged by one version of a duty. */
export interface DutySpell<S extends DutySection> {
  readonly duty: Duty<S>
  readonly from: Day
  /** First day on which it no longer was; undefined while no end is known. */
  readonly until: Day | undefined
}

/** Every version of every duty of a section in force since the records begin; the present ones with their known end. */
export function dutySpells<S extends DutySection>(view: DistrictView, section: S): DutySpell<S>[] {
  const over: DutySpell<S>[] = []
  let open = new Map<string, { readonly duty: Duty<S>; readonly from: Day }>()
  for (let day = view.recordsBegin; day <= view.asOf; day++) {
    const today = new Map(
      view.rulebooks.duties(section, day).map((duty) => [`${duty.rulebook} ${duty.name}`, duty] as const),
    )
    const next: typeof open = new Map()
    for (const [name, duty] of today) {
      const before = open.get(name)
      next.set(name, before?.duty.says === duty.says ? before : { duty, from: day })
    }
    for (const [name, spell] of open) if (next.get(name) !== spell) over.push({ ...spell, until: day })
    open = next
  }
  return [...over, ...[...open.values()].map((spell) => ({ ...spell, until: knownEnd(view, spell.duty) }))]
}

function knownEnd<S extends DutySection>(view: DistrictView, duty: Duty<S>): Day | undefined {
  const { until } = duty.says as { readonly until?: string }
  const ends = view.district.data.rulebooks
    .filter((entry) => entry.rulebook === duty.rulebook && holdsOn(entry, view.asOf))
    .map((entry) => entry.until)
  const adopted = ends.every((end) => end !== undefined) ? Math.max(...ends.map(dayIn)) + 1 : undefined
  const known = [adopted, until === undefined ? undefined : dayIn(until) + 1].filter(
    (end) => end !== undefined,
  )
  return known.length === 0 ? undefined : Math.min(...known)
}
