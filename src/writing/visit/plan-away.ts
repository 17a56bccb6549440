import { plantsAway } from '../../ledger/plants-away.js'
import type { SiteView } from '../../ledger/site-view.js'
import { areaOn, isOut } from '../../ledger/standing.js'
import { isoOf } from '../../measure/calendar.js'
import type { VisitPlan } from './plan.js'

/** Devices and plants that are away on the day, to be put out again or brought back. What there is none of is left out. */
export function awayOf(view: SiteView): Pick<VisitPlan, 'away' | 'plantsAway'> {
  const away = view.devices
    .filter((device) => device.takenUp === undefined && !isOut(device, view.asOf))
    .flatMap((device) => {
      const { id, setFacts, out } = device
      const since = out.at(-1)?.until
      const markedAs = setFacts['marked-as']
      if (since === undefined) return []
      return [
        {
          id,
          ...(markedAs === undefined ? {} : { markedAs }),
          area: areaOn(device, view.asOf),
          since: isoOf(since),
        },
      ]
    })
  const plants = plantsAway(view).map(({ name, area, since, why, dry }) => ({
    name,
    ...(area === undefined ? {} : { area }),
    since: isoOf(since),
    ...(why === undefined ? {} : { why }),
    isWet: dry === false,
  }))
  return {
    ...(away.length === 0 ? {} : { away }),
    ...(plants.length === 0 ? {} : { plantsAway: plants }),
  }
}
