import type { DistrictView } from '../ledger/district-view.js'
import { dayIn } from '../ledger/spans.js'
import type { ReportOptions } from './options.js'
import type { Period } from './period.js'

/** Rules whose findings this report counts too. */
const counted: ReadonlySet<string> = new Set([
  'visit-overdue',
  'complaint-not-answered',
  'device-overdue',
  'complaint-log-not-read',
  'site-manager-not-told',
  'lost-device-not-renewed',
  'area-not-inspected-lately',
  'area-never-inspected',
])

/** What is said of exceptions in force in the period: this report counts what they excuse all the same. */
export function exceptionCautions(
  district: DistrictView | null,
  { from, to }: Period,
  { site }: ReportOptions,
): string[] {
  return (district?.exceptions ?? [])
    .filter(({ data }) => counted.has(data.rule) && dayIn(data.from) <= to && dayIn(data.until) >= from)
    .filter(({ data }) => site === undefined || data.site === undefined || data.site === site)
    .map(
      ({ file, data }) =>
        `${file} excuses \`${data.rule}\`${data.site === undefined ? '' : ` at ${data.site}`} from ${data.from} to ${data.until}; what it excuses is counted here all the same.`,
    )
    .sort()
}
