import type { SiteView } from '../../ledger/site-view.js'
import { complaintsOf, isOpenOn as isComplaintOpenOn } from '../../reports/complaints-collect.js'
import { timesFollowed as complaintTimes } from '../../reports/complaints-tables.js'
import { conditionSpellsOf, isOpenOn, isOverdueOn } from '../../reports/conditions-collect.js'
import { timesFollowed } from '../../reports/conditions-times.js'
import type { Period } from '../../reports/period.js'
import type { ExportRow } from './table-words.js'

/** Spells that were open on any day of the period, as `report conditions` tells them. */
export function conditionRows(view: SiteView, { from, to }: Period): ExportRow[] {
  return conditionSpellsOf(view)
    .filter(({ found, closed }) => found <= to && (closed === undefined || closed >= from))
    .map((spell) => {
      const [followed] = timesFollowed([spell])
      return {
        site: view.id,
        condition: spell.condition,
        times_back: spell.timesBack,
        area: spell.area ?? null,
        area_kind: kindOf(view, spell.area),
        kind: spell.kind ?? null,
        gives: spell.gives ?? null,
        owner: spell.owner ?? null,
        found_on: spell.found,
        put_right_on: spell.closed ?? null,
        followed_to: spell.followedTo,
        due_on: spell.due ?? null,
        is_open: isOpenOn(spell, view.asOf),
        is_overdue: isOpenOn(spell, view.asOf) && isOverdueOn(spell, view.asOf),
        days_followed: followed?.time ?? null,
        is_put_right: followed?.mended ?? false,
        in_time: typeof spell.inTime === 'boolean' ? spell.inTime : null,
        not_judged: typeof spell.inTime === 'boolean' ? null : spell.inTime.replaceAll('-', ' '),
        came_back: spell.cameBack,
      }
    })
}

/** Complaints that came in within the period, and those that still waited when it began. */
export function complaintRows(view: SiteView, { from, to }: Period): ExportRow[] {
  // What devices and sightings say for a complaint is not exported, and looking for it would take long.
  return complaintsOf({ ...view, devices: [], sightings: [] })
    .filter(({ day, answered, withdrawn }) => {
      const waited = withdrawn === undefined && (answered === undefined || answered >= from)
      return day <= to && (day >= from || waited)
    })
    .map((complaint) => {
      // None where it was withdrawn, or answered before it came in: such a one tells no time.
      const [followed] = complaintTimes([complaint])
      return {
        site: view.id,
        complaint: complaint.id,
        came_in_on: complaint.day,
        made_by: complaint.from,
        area: complaint.area ?? null,
        area_kind: kindOf(view, complaint.area),
        pest: complaint.pest ?? null,
        is_withdrawn: complaint.withdrawn !== undefined,
        answered_on: complaint.answered ?? null,
        followed_to: complaint.followedTo,
        days_followed: followed?.time ?? null,
        is_answered: followed?.mended ?? false,
        due_on: complaint.due ?? null,
        in_time: complaint.inTime ?? null,
        is_open: isComplaintOpenOn(complaint, view.asOf),
        is_overdue: complaint.overdueNow,
      }
    })
}

function kindOf(view: SiteView, area: string | undefined): string | null {
  return area === undefined ? null : (view.areas.get(area)?.facts.kind ?? null)
}
