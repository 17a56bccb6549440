import type { Source } from '../files/source.js'
import { readLedger } from '../ledger/read-ledger.js'
import { isoOf } from '../measure/calendar.js'
import type { Report } from '../types.js'
import { chanceTable } from './coverage-chance-table.js'
import type { SiteWatch } from './coverage-collect.js'
import { missedTable, seenTable } from './coverage-effort-tables.js'
import type { Watched } from './coverage-gathered.js'
import { emptyWatched, judgedWatches, watch } from './coverage-gathered.js'
import { eyesOnlyByKindTable, eyesOnlyTable } from './coverage-kinds-tables.js'
import { couldStand, kindsWatched, needsOf } from './coverage-needs.js'
import { bySiteTable, needsForPeople, needsTable } from './coverage-needs-tables.js'
import { coverageCautions, coverageHeadline, coverageUntold } from './coverage-words.js'
import { notExaminedOf } from './not-examined.js'
import type { ReportOptions } from './options.js'
import { isWanted } from './options.js'
import { cutCautions, periodOf } from './period.js'
import { plansInForce } from './plans-in-force.js'

/** What all sites show together, and what is told of each. */
interface Gathered extends Watched {
  readonly sites: { readonly site: string; readonly seen: SiteWatch['seen']; readonly closed: number }[]
}

/**
 * Are more monitors needed, and where? Held against what people saw or complained of in the period (the year up to the
 * as-of day if not said), against the plans in force, and against what the present devices would catch of a pest that stood
 * at its threshold. Devices are those that stand out at the end of the as-of day. How catches clump, and which kinds of
 * area have devices, is judged over the whole ledger before any filter.
 */
export function coverageReport(source: Source, options: ReportOptions): Report {
  const period = periodOf(options)
  const all: Gathered = { ...emptyWatched(), sites: [] }
  const read = readLedger(source, options, (view) => {
    const { seen, closed } = watch(all, view, period)
    all.sites.push({ site: view.id, seen, closed })
  })
  const incomplete = read.notChecked.length > 0
  const plans = read.district ? plansInForce(read.district, options.asOf).size : 0
  const judged = judgedWatches(all, period.from)
  const kinds = kindsWatched(all.watches)
  const needs = needsOf(judged, all.areas, kinds, all.pestsOfDevices).filter((one) => isWanted(one, options))
  const shown = judged.filter((one) => isWanted(one.watch, options))
  const watches = shown.map((one) => one.watch)
  // Areas and sites are of no one pest: a filter for a pest hides none of them.
  const ofSite = ({ site }: { readonly site: string }) => options.site === undefined || options.site === site
  const areas = all.areas.filter(ofSite)
  const indoors = watches.filter((watch) => couldStand(watch, all.pestsOfDevices))
  return {
    report: 'coverage',
    title: 'Are more monitors needed, and where?',
    headline: coverageHeadline({ needs, watches, areas, plans, incomplete }),
    asOf: isoOf(options.asOf),
    period: { from: isoOf(period.from), to: isoOf(period.to) },
    facts: [],
    tables: [
      needsForPeople(needs),
      needsTable(needs),
      bySiteTable(needs, areas),
      seenTable(watches, needs),
      chanceTable(shown),
      missedTable(watches),
      eyesOnlyTable(indoors),
      eyesOnlyByKindTable(indoors, kinds),
    ],
    cautions: [...coverageCautions, ...cutCautions(options)],
    notExamined: [
      ...notExaminedOf(read),
      ...coverageUntold(all.sites.filter(ofSite), read, plans, options.pest),
    ],
    incomplete,
  }
}
