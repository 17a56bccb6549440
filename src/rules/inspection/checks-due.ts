import type { DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { changesOfTerms, waitsForRoutine } from './check-terms.js'
import type { TimedGap } from './device-lapses.js'
import { ranOut, timedGapsOf } from './device-lapses.js'
import type { Lapse, ToldElsewhere } from './lapse.js'
import { lateness, spell, toldElsewhere, withoutToldElsewhere } from './lapse.js'
import { noEntryByArea } from './no-entry.js'
import { passedBy } from './passed-by.js'
import { routineVisitGaps } from './routine-visit-gaps.js'
import { trapOverClosures } from './traps-over-closures.js'

/** The rule that tells of an unread device in its stead, so that one cause is told once. */
export type ToldBy = 'visit-overdue' | 'device-not-read' | 'no-entry-running' | 'trap-left-over-closure'

/** A look at a device that was asked for. */
export interface CheckDue extends TimedGap {
  readonly device: DeviceHistory
  /** When it was overdue, or will be; undefined where it was in time. */
  readonly late: Lapse | undefined
  /** What is left of that to tell of the device itself; undefined where another problem tells the same cause. */
  readonly own: Lapse | undefined
  readonly toldBy: ToldBy | undefined
}

const nothingTold = toldElsewhere([])

/** Every look at a device that something asked for, in order of device and day. */
export function* checksDue(view: SiteView): Iterable<CheckDue> {
  const changes = changesOfTerms(view)
  // A missed visit leaves every device unread and is told once; what is only to come is still told of each.
  const missedVisits = toldElsewhere(routineVisitGaps(view).filter(({ from }) => from <= view.asOf))
  const notLetIn = new Map([...noEntryByArea(view)].map(([area, lapses]) => [area, toldElsewhere(lapses)]))
  for (const device of view.devices) {
    const overClosures = toldElsewhere(trapOverClosures(view, device))
    const passed = toldElsewhere([...passedBy(view, device)].map(([visit, read]) => spell(visit.day, read)))
    for (const due of timedGapsOf(view, device, changes)) {
      const { gap, terms, lastDay } = due
      const late = ranOut(due) ? lateness(view, lastDay + 1, gap.end) : undefined
      if (!late) {
        yield { gap, terms, lastDay, device, late, own: undefined, toldBy: undefined }
        continue
      }
      const elsewhere: [ToldBy, ToldElsewhere][] = [
        ['trap-left-over-closure', overClosures],
        ['device-not-read', passed],
        ['no-entry-running', notLetIn.get(gap.area) ?? nothingTold],
        ['visit-overdue', waitsForRoutine(terms) ? missedVisits : nothingTold],
      ]
      const own = withoutToldElsewhere(
        late,
        elsewhere.map(([, lapses]) => lapses),
        view.asOf,
      )
      const toldBy = own
        ? undefined
        : elsewhere.find(([, lapses]) => withoutToldElsewhere(late, [lapses], view.asOf) === undefined)?.[0]
      yield { gap, terms, lastDay, device, late, own, toldBy }
    }
  }
}
