import type { Source } from '../../files/source.js'
import type { DistrictView } from '../../ledger/district-view.js'
import { districtView } from '../../ledger/district-view.js'
import type { Loaded } from '../../ledger/loaded.js'
import { inventoryOf, readOne, recordPathsOf } from '../../ledger/read-records.js'
import { isoOf } from '../../measure/calendar.js'
import type { PublicText } from '../application-public-text.js'
import type { ReportOptions } from '../options.js'
import type { Part } from './private.js'
import { reviewText } from './private.js'
import type { ReviewYear } from './review-year.js'
import type { YearReports } from './year-reports.js'

/** The records of the district and what is told of each site itself; visits and the rest are read by the reports. */
export interface DistrictFacts {
  readonly view: DistrictView
  readonly sites: readonly Loaded<'site'>[]
}

/** Null where there is no usable district.yaml. What is wrong with records is told by the reports, which read them too. */
export function districtFacts(source: Source, options: Pick<ReportOptions, 'asOf'>): DistrictFacts | null {
  const inventory = inventoryOf(source)
  const view = districtView(source, inventory, options.asOf, [])
  if (!view) return null
  const paths = [...inventory.sites]
    .flatMap(([, files]) => recordPathsOf(files.filter((file) => file.endsWith('/site.yaml'))))
    .filter(({ kind }) => kind === 'site')
  source.prefetch(paths.map(({ file }) => file))
  const sites = paths.flatMap((path) => {
    const site = readOne(source, path, [])
    return site ? [site as Loaded<'site'>] : []
  })
  return { view, sites }
}

/** What the questions are answered from. */
export interface YearFacts extends DistrictFacts {
  readonly reports: YearReports
  readonly year: ReviewYear
  readonly options: ReportOptions
  readonly withParts: ReadonlySet<Part>
  /** Free text as it may stand on the page. */
  readonly shown: PublicText
}

export function yearFacts(
  { view, sites }: DistrictFacts,
  about: Pick<YearFacts, 'reports' | 'year' | 'options' | 'withParts'>,
): YearFacts {
  return { view, sites, ...about, shown: reviewText(view, sites, about.withParts) }
}

/** What to type to see a report of the year whole. */
export function commandFor({ year, options }: Pick<YearFacts, 'year' | 'options'>, report: string): string {
  const site = options.site === undefined ? '' : ` --site ${options.site}`
  return `doorsweep report ${report} --from ${isoOf(year.from)} --to ${isoOf(year.to)}${site} --as-of ${isoOf(options.asOf)}`
}
