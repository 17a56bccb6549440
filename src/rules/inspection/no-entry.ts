import type { NoEntryRun } from '../../ledger/inspections.js'
import { noEntryRuns } from '../../ledger/inspections.js'
import type { SiteView } from '../../ledger/site-view.js'

/** How many refusals running are one too many, by the rulebooks. */
export const noEntryParameter = 'area.no-entry-running'

/** Runs of refused entry of a site, by area. */
export function noEntryByArea(view: SiteView): ReadonlyMap<string, readonly NoEntryRun[]> {
  const byArea = new Map<string, NoEntryRun[]>()
  const runs = noEntryRuns(view, (day) => {
    const value = view.district.parameters(noEntryParameter, day)?.value
    return typeof value === 'number' ? value : undefined
  })
  for (const run of runs) {
    const known = byArea.get(run.area)
    if (known) known.push(run)
    else byArea.set(run.area, [run])
  }
  return byArea
}
