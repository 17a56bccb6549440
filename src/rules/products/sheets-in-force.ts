import { dayIn, inForce } from '../../ledger/spans.js'
import type { RecordOf } from '../../records/kinds.js'
import type { Day } from '../../types.js'

export type Sheet = NonNullable<RecordOf<'product'>['sds']>[number]

/** The days on which one safety data sheet of a product is the one in force. */
export interface SheetInForce {
  readonly sheet: Sheet
  /** Where it stands in the list of the product. */
  readonly position: number
  readonly from: Day
  /** First day on which it no longer is. */
  readonly until: Day | undefined
}

/** Which sheet of a product is in force when; a newer one takes over from the one before it. */
export function sheetsInForce(sheets: readonly Sheet[]): SheetInForce[] {
  const turns = new Set(
    sheets.flatMap(({ from, until }) => [dayIn(from), ...(until === undefined ? [] : [dayIn(until) + 1])]),
  )
  const days = [...turns].sort((a, b) => a - b)
  const found: SheetInForce[] = []
  days.forEach((from, at) => {
    const sheet = inForce(sheets, from)
    const before = found.at(-1)
    if (!sheet) return
    if (before?.sheet === sheet && before.until === from) found.pop()
    found.push({
      sheet,
      position: sheets.indexOf(sheet),
      from: before?.sheet === sheet && before.until === from ? before.from : from,
      until: days[at + 1],
    })
  })
  return found
}

/** Part of those days that the ledger answers for; undefined where it ended before. */
export function answeredDays(
  { from, until }: Pick<SheetInForce, 'from' | 'until'>,
  begins: Day,
): { readonly from: Day; readonly until?: Day } | undefined {
  const first = Math.max(from, begins)
  if (until !== undefined && until <= first) return undefined
  return { from: first, ...(until === undefined ? {} : { until }) }
}
