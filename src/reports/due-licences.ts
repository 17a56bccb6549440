import type { DistrictView } from '../ledger/district-view.js'
import { dayIn } from '../ledger/spans.js'
import type { Day } from '../types.js'

/** A licence of someone who is at work whose last recorded day comes. */
export interface LicenceEnding {
  readonly who: string
  readonly name: string
  readonly until: Day
  readonly file: string
}

/** Days after which someone who did nothing more is taken not to work here any longer. */
const atWork = 365

/** The last day of every licence held by people at work, where no later span of it is recorded. */
export function licencesEnding(
  district: DistrictView,
  lastActed: ReadonlyMap<string, Day>,
  asOf: Day,
): LicenceEnding[] {
  return [...district.people].flatMap(([id, person]) => {
    const acted = lastActed.get(id)
    if (acted === undefined || acted < asOf - atWork) return []
    return Object.values(person.data.licences ?? {}).flatMap(({ kind, state, spans }): LicenceEnding[] => {
      const ends = spans.map(({ until }) => (until === undefined ? Number.POSITIVE_INFINITY : dayIn(until)))
      const last = Math.max(...ends)
      return Number.isFinite(last)
        ? [{ who: person.data.name, name: `${state} ${kind}`, until: last, file: person.file }]
        : []
    })
  })
}
