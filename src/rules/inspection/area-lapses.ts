import { openDayAfter } from '../../ledger/closures.js'
import { inspectionsByArea } from '../../ledger/inspections.js'
import { daysOf } from '../../ledger/parameters.js'
import { serviceTermsOn } from '../../ledger/service-terms.js'
import type { Area, SiteView } from '../../ledger/site-view.js'
import type { Citation, Day } from '../../types.js'
import type { Lapse } from './lapse.js'
import { lateness, toldElsewhere, withoutToldElsewhere } from './lapse.js'
import { noEntryByArea } from './no-entry.js'

export const inspectParameter = 'area.inspect'

/** An area that went without an inspection for longer than the rulebooks say. */
export interface AreaLapse extends Lapse {
  readonly area: Area
  /** Day it was last inspected; undefined when it never was. */
  readonly inspected: Day | undefined
  readonly lastDay: Day
  readonly sources: readonly Citation[]
}

/**
 * Every stretch in which an area was not inspected for too long, and the next to come. Days of closures do not
 * count. An area that was refused entry is told by that rule; where no routine visit was made either, that is.
 */
export function* areaLapses(view: SiteView): Iterable<AreaLapse> {
  const inspections = inspectionsByArea(view)
  const noEntry = noEntryByArea(view)
  for (const area of view.areas.values()) {
    const days = (inspections.get(area.id) ?? []).map((visit) => visit.day)
    const told = [toldElsewhere(noEntry.get(area.id) ?? [])]
    const gone = area.until === undefined ? undefined : area.until + 1
    let inspected: Day | undefined
    for (const next of [...days, undefined]) {
      const since = Math.max(inspected ?? area.from, area.from)
      const asked = view.district.parameters(inspectParameter, since)
      const limit = asked && daysOf(asked.value)
      if (asked && typeof limit === 'number' && (next === undefined || next > since + limit)) {
        const lastDay = openDayAfter(view.district, since, limit)
        const starts = passedBy(view, lastDay + 1, inspected ?? area.from - 1)
        const when =
          starts === undefined
            ? undefined
            : withoutToldElsewhere(lateness(view, starts, next, gone), told, view.asOf)
        if (when) yield { ...when, area, inspected, lastDay, sources: asked.sources }
      }
      inspected = next
    }
  }
}

/** The first day from which the lapse is the area's own: a routine visit since then has left it out. */
function passedBy(view: SiteView, from: Day, since: Day): Day | undefined {
  const visit = firstAfter(view.routineVisits, since)
  if (visit) return Math.max(from, visit.day)
  return serviceTermsOn(view, from) ? undefined : from
}

function firstAfter(
  visits: SiteView['routineVisits'],
  day: Day,
): SiteView['routineVisits'][number] | undefined {
  let low = 0
  let high = visits.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((visits[middle]?.day ?? 0) > day) high = middle
    else low = middle + 1
  }
  return visits[low]
}
