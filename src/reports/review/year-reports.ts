import type { Source } from '../../files/source.js'
import { onlySite } from '../../ledger/one-site.js'
import type { Report } from '../../types.js'
import { complaintsReport } from '../complaints.js'
import { complianceReport } from '../compliance.js'
import { conditionsReport } from '../conditions.js'
import { contractReport } from '../contract.js'
import { coverageReport } from '../coverage.js'
import { effectReport } from '../effect.js'
import { hotspotsReport } from '../hotspots.js'
import type { ReportOptions } from '../options.js'
import { useReport } from '../use.js'

export type ReportOfYear =
  | 'hotspots'
  | 'coverage'
  | 'effect'
  | 'conditions'
  | 'complaints'
  | 'contract'
  | 'use'
  | 'compliance'

export type YearReports = Readonly<Record<ReportOfYear, Report>>

/** Days before and after each event that are compared: those of the report itself if nobody says otherwise. */
const window = 90

/**
 * The reports that the questions are answered from, each as it is told alone: nothing is counted here by other rules. Some
 * hold a site against all others, and read them all; of the rest the one site that is asked for is enough.
 */
export function reportsOfYear(source: Source, options: ReportOptions, revision: string): YearReports {
  const enough = options.site === undefined ? source : onlySite(source, options.site)
  return {
    hotspots: hotspotsReport(source, options),
    coverage: coverageReport(source, options),
    effect: effectReport(source, { ...options, window }),
    compliance: complianceReport(source, { ...options, revision }),
    conditions: conditionsReport(enough, options),
    complaints: complaintsReport(enough, options),
    contract: contractReport(enough, options),
    use: useReport(enough, options),
  }
}
