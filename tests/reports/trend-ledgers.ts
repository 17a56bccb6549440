import { memorySource } from '../../src/files/memory.js'
import type { ReportOptions } from '../../src/reports/options.js'
import { trendReport } from '../../src/reports/trend.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'

export function board(area = 'kitchen', traps = 1): string {
  return `{kind: sticky-trap, area: ${area}, for: [german-cockroach], traps: ${traps}}`
}

export function trendOn(
  visits: Readonly<Record<string, string>>,
  more: Partial<ReportOptions> = {},
  others: Readonly<Record<string, string>> = {},
): Report {
  return trendReport(memorySource(oakFiles(visits, others)), {
    asOf: day('2026-12-31'),
    asOfIsToday: false,
    ...more,
  })
}

export function rowsOf(report: Report, table: string): readonly Row[] {
  return report.tables.find(({ id }) => id === table)?.rows ?? []
}

export function only(rows: readonly Row[]): Row {
  const [row, ...others] = rows
  if (!row || others.length > 0) throw new Error(`one row is asked for, not ${rows.length}`)
  return row
}

/** Readings of boards that are renewed each time, so that counts are catches: by date, then by device. */
export function renewedReadings(
  catches: Readonly<Record<string, Readonly<Record<string, number>>>>,
): Record<string, string> {
  return Object.fromEntries(
    Object.entries(catches).map(([date, counts]) => [
      date,
      `readings: {${Object.entries(counts)
        .map(([device, count]) => `${device}: {german-cockroach: ${count}, renewed: yes}`)
        .join(', ')}}`,
    ]),
  )
}
