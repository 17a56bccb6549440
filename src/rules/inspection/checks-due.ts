import type { DeviceHistory } from '../../ledger/device-history.js'
import type { SiteView } from '../../ledger/site-view.js'
import { changesOfTerms, waitsForRoutine } from './check-terms.js'
import type { TimedGap } from './device-lapses.js'
import { ranOut, timedGapsOf } from './device-lapses.js'
import type { Lapse } from './lapse.js'
import { lateness, spell, withoutToldElsewhere } from './lapse.js'
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

/** Every look at a device that something asked for, in order of device and day. */
export function* checksDue(view: SiteView): Iterable<CheckDue> {
  const changes = changesOfTerms(view)
  const noEntry = noEntryByArea(view)
  // A missed visit leaves every device unread and is told once; what is only to come is still told of each.
  const missedVisits = routineVisitGaps(view).filter(({ from }) => from <= view.asOf)
  for (const device of view.devices) {
    const overClosures = trapOverClosures(view, device)
    const passed = [...passedBy(view, device)].map(([visit, read]) => spell(visit.day, read))
    for (const due of timedGapsOf(view, device, changes)) {
      const late = ranOut(due) ? lateness(view, due.lastDay + 1, due.gap.end) : undefined
      if (!late) {
        yield { ...due, device, late, own: undefined, toldBy: undefined }
        continue
      }
      const elsewhere: [ToldBy, readonly Lapse[]][] = [
        ['trap-left-over-closure', overClosures],
        ['device-not-read', passed],
        ['no-entry-running', noEntry.get(due.gap.area) ?? []],
        ['visit-overdue', waitsForRoutine(due.terms) ? missedVisits : []],
      ]
      const told = elsewhere.flatMap(([, lapses]) => lapses)
      const own = withoutToldElsewhere(late, told, view.asOf)
      const toldBy = own
        ? undefined
        : elsewhere.find(([, lapses]) => withoutToldElsewhere(late, lapses, view.asOf) === undefined)?.[0]
      yield { ...due, device, late, own, toldBy }
    }
  }
}
