import type { Day } from '../types.js'

/** What a report may be asked for; filters hide rows, they never change a verdict. */
export interface ReportOptions {
  readonly asOf: Day
  readonly asOfIsToday: boolean
  readonly from?: Day
  readonly to?: Day
  readonly site?: string
  readonly pest?: string
}

export function isWanted(
  row: { readonly site?: string; readonly pest?: string },
  options: ReportOptions,
): boolean {
  return (
    (options.site === undefined || row.site === options.site) &&
    (options.pest === undefined || row.pest === options.pest)
  )
}
