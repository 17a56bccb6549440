import { addMonths, isoOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit, mendedBy } from '../added.js'
import type { DataMap, Draft } from '../draft.js'
import { copyOf, listAt, mapAt, put, take, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import type { EventFile } from '../site-records.js'
import { coordinatorOf, eventsOf, sitesOf, visitsOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Correctable conditions that are let go, and plants that come back too early. */
export const conditionFaults: readonly FaultKind[] = [
  {
    name: 'the owner of a condition is left out',
    expect: 'condition-without-owner',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const drip = { new: 'drip under the basin', area: 'custodial', ...mendedBy(draft) }
      const visit = addVisit(draft, site, draft.lastDay - 9, 'callback', { conditions: { drip } })
      const before = copyOf(draft)
      take(draft, visit, ['conditions', 'drip', 'owner'])
      return { ...reportedAt(visit, 'conditions', 'drip', 'new'), before }
    },
  },
  {
    name: 'a repair is lost and the condition stays open past its day',
    expect: 'condition-overdue',
    at: inVisits,
    make(draft, random) {
      const mended = mendedConditions(draft).filter(
        ({ facts, owned }) => owned && (textAt(facts, 'by') ?? '9') < isoOf(draft.lastDay),
      )
      const condition = random.pick(mended)
      if (!condition) return null
      const { visit, name, repair, later } = condition
      draft.files.delete(repair.file)
      for (const { file } of later) take(draft, file, ['conditions', name])
      return reportedAt(visit.file, 'conditions', name, 'by')
    },
  },
  {
    name: 'the day for a condition is a month too early',
    expect: 'condition-overdue',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const by = draft.lastDay + 20
      const drip = { new: 'drip under the basin', area: 'custodial', ...mendedBy(draft), by: isoOf(by) }
      const visit = addVisit(draft, site, draft.lastDay - 30, 'callback', { conditions: { drip } })
      const before = copyOf(draft)
      put(draft, visit, ['conditions', 'drip', 'by'], isoOf(addMonths(by, -1)))
      return { ...reportedAt(visit, 'conditions', 'drip', 'by'), before }
    },
  },
  {
    name: 'a mended condition is not looked at again',
    expect: 'condition-not-rechecked',
    at: inVisits,
    make(draft, random) {
      const condition = random.pick(
        mendedConditions(draft).filter(
          ({ later }) => later.length === 1 && later[0]?.data.purpose === 'routine',
        ),
      )
      const [recheck] = condition?.later ?? []
      const area = textAt(condition?.facts, 'area')
      if (!condition || !recheck || area === undefined) return null
      const at = listAt(recheck.data, 'inspected').indexOf(area)
      if (at < 0) return null
      take(draft, recheck.file, ['conditions', condition.name])
      return reportedAt(recheck.file, 'inspected', at)
    },
  },
  {
    name: 'a condition comes back twice after it was mended',
    expect: 'condition-reopened',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const start = draft.lastDay - 9
      const drip = { new: 'drip under the basin', area: 'custodial', ...mendedBy(draft) }
      const seen = (day: number, how: DataMap) =>
        addVisit(draft, site, day, 'follow-up', { conditions: { 'added-drip': how } })
      const mend = (day: number) =>
        addEvent(draft, site, 'repairs', day, coordinatorOf(draft), {
          mends: ['added-drip'],
          done: 'new washer',
        })
      seen(start, drip)
      mend(start + 1)
      seen(start + 2, { still: 'dripping again' })
      mend(start + 3)
      const last = seen(start + 4, { holds: 'dry' })
      const before = copyOf(draft)
      take(draft, last, ['conditions', 'added-drip', 'holds'])
      put(draft, last, ['conditions', 'added-drip'], { still: 'dripping again' })
      return { ...reportedAt(last, 'conditions', 'added-drip', 'still'), before }
    },
  },
  {
    name: 'a treated plant is returned and no one saw it dry',
    expect: 'plant-returned-wet',
    at: inVisits,
    make(draft, random) {
      const site = random.pick(sitesOf(draft)) ?? ''
      const day = draft.lastDay - 6
      const away = { area: 'office', removed: 'fungus gnats', sprayed: 'contractor yard' }
      addVisit(draft, site, day, 'callback', { plants: { 'added-fern': away } })
      const back = { area: 'office', dry: coordinatorOf(draft), returned: 'window sill' }
      const visit = addVisit(draft, site, day + 2, 'follow-up', { plants: { 'added-fern': back } })
      const before = copyOf(draft)
      take(draft, visit, ['plants', 'added-fern', 'dry'])
      return { ...reportedAt(visit, 'plants', 'added-fern', 'returned'), before }
    },
  },
]

interface Mended {
  readonly visit: EventFile
  readonly name: string
  readonly facts: DataMap
  readonly owned: boolean
  readonly repair: EventFile
  /** Visits that speak of it after the repair. */
  readonly later: readonly EventFile[]
}

/** Conditions that one repair of nothing else mended, whose name was used once, and that were not seen in between. */
function mendedConditions(draft: Draft): Mended[] {
  return sitesOf(draft).flatMap((site) => {
    const visits = visitsOf(draft, site)
    const repairs = eventsOf(draft, site, 'repairs')
    return visits.flatMap((visit) =>
      Object.entries(mapAt(visit.data, 'conditions')).flatMap(([name, entry]) => {
        const facts = mapAt(entry)
        const mending = repairs.filter(({ data }) => listAt(data, 'mends').includes(name))
        const [repair] = mending
        const speaking = visits.filter((other) => mapAt(other.data, 'conditions')[name] !== undefined)
        const later = speaking.filter(({ day }) => repair !== undefined && day > repair.day)
        if (!repair || mending.length > 1 || listAt(repair.data, 'mends').length > 1) return []
        if (facts.new === undefined || facts.fixed !== undefined || speaking.length !== later.length + 1)
          return []
        if (later.some(({ data }) => mapAt(data, 'conditions', name).still !== undefined)) return []
        return [{ visit, name, facts, owned: facts.owner !== undefined, repair, later }]
      }),
    )
  })
}
