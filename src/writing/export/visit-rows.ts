import type { SiteView } from '../../ledger/site-view.js'
import type { Period } from '../../reports/period.js'
import type { ExportRow } from './table-words.js'

export function visitRows(view: SiteView, { from, to }: Period): ExportRow[] {
  return view.visits
    .filter(({ day }) => day >= from && day <= to)
    .map(({ id, day, data }) => {
      const [starts, ends] = data.time?.split(' to ') ?? []
      return {
        site: view.id,
        visit: id,
        day,
        purpose: data.purpose,
        made_by: data.by,
        entered_by: data['entered-by'] ?? null,
        starts: starts ?? null,
        ends: ends ?? null,
        complaint_log: data['complaint-log'] ?? null,
        areas_inspected: data.inspected?.length ?? 0,
        areas_no_entry: Object.keys(data['no-entry'] ?? {}).length,
        sightings: Object.keys(data.found ?? {}).length,
      }
    })
}
