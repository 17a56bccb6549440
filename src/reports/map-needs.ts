import type { Source } from '../files/source.js'
import { pestTable } from '../records/tables.js'
import type { Cell } from '../types.js'
import type { Watched } from './coverage-gathered.js'
import { judgedWatches } from './coverage-gathered.js'
import type { NeedKind } from './coverage-needs.js'
import { kindsWatched, needsOf } from './coverage-needs.js'
import { layoutRunsReport } from './layout-runs.js'
import type { MapGap, MapNeed } from './map-site.js'
import type { ReportOptions } from './options.js'
import type { Period } from './period.js'
import { pestName } from './pest-name.js'

const sayings: Readonly<Record<NeedKind, string>> = {
  'seen-no-device': 'seen, and no device for it that can catch',
  'one-is-enough': 'one is enough to act, and no device for it that can catch',
  'too-few': 'too few traps to notice its threshold',
  'not-entered': 'nobody could enter in the period',
  'not-inspected': 'nobody looked in the period',
}

/** What one site lacks, most urgent first; what is of no one pest is told with every pest. */
export function needsAt(all: Watched, site: string, { from }: Period, pest: string | undefined): MapNeed[] {
  const judged = judgedWatches(all, from)
  return needsOf(judged, all.areas, kindsWatched(all.watches), all.pestsOfDevices)
    .filter((need) => need.site === site)
    .filter((need) => pest === undefined || need.pest === undefined || need.pest === pest)
    .map((need, at) => ({
      no: at + 1,
      lacks: need.kind === 'not-entered' || need.kind === 'not-inspected' ? 'a look' : 'monitors',
      says: sayings[need.kind],
      areas: need.areas,
      pest: need.pest === undefined ? undefined : pestName(need.pest),
      toAdd: need.toAdd,
      why: need.why,
      records: need.files,
    }))
}

/** Neighbours of a run that stand further apart than asked, as `layout runs` tells them. They are for mice and rats. */
export function gapsOf(source: Source, site: string, options: ReportOptions): MapGap[] {
  if (options.pest !== undefined && pestTable().get(options.pest)?.group !== 'rodent') return []
  const rows = layoutRunsReport(source, site, options).tables[0]?.rows ?? []
  const text = (cell: Cell | undefined) => (cell === null || cell === undefined ? '' : String(cell))
  return rows
    .filter(({ cells }) => Number(cells.more ?? 0) > 0)
    .map(({ cells, records }, at) => ({
      no: at + 1,
      run: text(cells.run),
      against: text(cells.against),
      from: text(cells.from),
      to: text(cells.to),
      apart: Number(cells.apart),
      unit: text(cells.unit),
      limit: text(cells.limit),
      more: Number(cells.more),
      active: cells.active === 'yes',
      records,
    }))
}
