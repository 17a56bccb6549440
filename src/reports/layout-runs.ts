import type { Source } from '../files/source.js'
import type { SiteView } from '../ledger/site-view.js'
import { inForce } from '../ledger/spans.js'
import { isoOf } from '../measure/calendar.js'
import { convert, parseQuantity } from '../measure/quantities.js'
import { moreBetween } from '../measure/spread.js'
import { distanceBetween } from '../rules/placement/run-distance.js'
import type { RodentKind } from '../rules/placement/run-neighbours.js'
import { neighbours, spacingParameters } from '../rules/placement/run-neighbours.js'
import { standingDevices } from '../rules/placement/standing-devices.js'
import type { Report, Row } from '../types.js'
import { figure } from './layout-stretch.js'
import { notExaminedOf } from './not-examined.js'
import { readOnlySite } from './only-site.js'
import type { ReportOptions } from './options.js'

interface Stretch {
  readonly run: string
  readonly against: RodentKind
  readonly from: string
  readonly to: string
  readonly apart: number | null
  readonly unit: string | null
  readonly limit: string | null
  /** Null where the distance is not known. */
  readonly more: number | null
  readonly active: boolean
  readonly files: readonly string[]
}

/** What the present runs of a site leave open: every two neighbours, how far apart they stand, and how many more would do. */
export function layoutRunsReport(source: Source, site: string, options: ReportOptions): Report {
  const { read, view } = readOnlySite(source, site, options)
  const stretches = view ? stretchesOf(view) : []
  const open = stretches.filter(({ more }) => (more ?? 0) > 0)
  const unknown = stretches.filter(({ more }) => more === null)
  return {
    report: 'layout-runs',
    title: `Runs of devices, ${view?.site.data.name ?? site}`,
    headline: headlineOf(view, stretches, open),
    asOf: isoOf(options.asOf),
    facts: [],
    tables: [
      {
        id: 'stretches',
        title: 'Between neighbours',
        columns: [
          { id: 'run', title: 'run' },
          { id: 'against', title: 'against' },
          { id: 'from', title: 'from' },
          { id: 'to', title: 'to' },
          { id: 'apart', title: 'apart', decimals: 1 },
          { id: 'unit', title: 'unit' },
          { id: 'limit', title: 'at most' },
          { id: 'more', title: 'more would do', decimals: 0 },
          { id: 'active', title: 'under active control' },
        ],
        rows: [...stretches]
          .sort((a, b) => (b.more ?? 0) - (a.more ?? 0))
          .map(
            ({ files, active, more, apart, ...rest }): Row => ({
              cells: { ...rest, apart, more, active: active ? 'yes' : 'no' },
              records: files,
            }),
          ),
        empty: 'No two devices of a run against mice or rats stand here now.',
      },
    ],
    cautions: [
      'Distances are along the wall where the run states them, else straight across the diagram, which is never longer.',
      'The distance is asked for while a run is under active control; a run that is only watched may stand wider.',
    ],
    notExamined: [
      ...notExaminedOf(read),
      ...(unknown.length > 0
        ? [
            `${unknown.length} pairs of neighbours have neither a stated distance nor positions on one floor, so how far apart they stand is not known.`,
          ]
        : []),
    ],
    incomplete: read.notChecked.length > 0,
  }
}

function headlineOf(
  view: SiteView | undefined,
  stretches: readonly Stretch[],
  open: readonly Stretch[],
): string {
  if (!view) return 'The site cannot be read, so nothing can be said of its runs.'
  if (stretches.length === 0) return 'No run of devices against mice or rats stands here now.'
  const more = open.reduce((sum, stretch) => sum + (stretch.more ?? 0), 0)
  const first = [...open].sort((a, b) => Number(b.active) - Number(a.active))[0]
  return first
    ? `${more} more ${more === 1 ? 'device' : 'devices'} would close ${open.length === 1 ? 'the one gap' : `${open.length} gaps`} in the runs, first between ${first.from} and ${first.to}.`
    : 'No known gap between neighbours is wider than asked.'
}

function stretchesOf(view: SiteView): Stretch[] {
  const standing = standingDevices(view)
  return Object.entries(view.site.data.runs ?? {}).flatMap(([name, run]) =>
    (['mice', 'rats'] as const).flatMap((against) =>
      [...neighbours(run, standing, against)].map((pair): Stretch => {
        const distance = distanceBetween(view.site.data, run, pair.first, pair.second)
        const limit = limitOf(view, against)
        const most = distance && limit ? convert(limit, distance.unit) : null
        const both = [pair.first[1], pair.second[1]] as const
        return {
          run: name,
          against,
          from: both[0].device.id,
          to: both[1].device.id,
          apart: distance?.value ?? null,
          unit: distance?.unit ?? null,
          limit: limit ? `${figure(limit.value)} ${limit.unit}` : null,
          more: distance && most ? moreBetween(distance.value, most.value) : null,
          active: inForce(run['active-control'], view.asOf) !== undefined,
          files: [view.site.file, ...both.map(({ stand }) => stand.from.visit.file)],
        }
      }),
    ),
  )
}

/** The laxest distance in force: beyond it no rulebook would have two neighbours stand. */
function limitOf(view: SiteView, against: RodentKind) {
  for (const parameter of spacingParameters[against]) {
    const value = view.district.parameters(parameter, view.asOf)
    const limit = value && parseQuantity(String(value.value))
    if (limit) return limit
  }
  return null
}
