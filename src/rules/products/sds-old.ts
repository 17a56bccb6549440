import type { DistrictView } from '../../ledger/district-view.js'
import type { ParameterValue } from '../../ledger/parameters.js'
import { daysOf } from '../../ledger/parameters.js'
import { dayIn } from '../../ledger/spans.js'
import { dayOfUndated } from '../../ledger/undated.js'
import { addMonths } from '../../measure/calendar.js'
import type { Day } from '../../types.js'
import { levelFrom } from '../adopted.js'
import { commonPractice, districtRule } from '../rule.js'
import { baitA } from './example-ledgers.js'
import { answeredDays, sheetsInForce } from './sheets-in-force.js'

export const sdsOld = districtRule<{ product: string; revised: string; age: string }>({
  id: 'sds-old',
  title: 'a safety data sheet was revised long ago',
  level: 'warning',
  judgedOn: 'the day after it has reached the age',
  why: 'A sheet does not expire in the United States; what was learned since it was written is in a newer one, if there is one.',
  remedy:
    'Ask the maker whether there is a newer sheet. If so, add it from the day it is at hand: `sds: [{from: 2026-03-20, file: sds-2026.pdf, revised: 2025-10-01}]`; if not, note whom you asked and when, and keep this one.',
  source: commonPractice,
  actor: 'coordinator',
  gap: false,
  parameters: ['sds.age'],
  asks: ({ product }) => `ask for a newer safety data sheet of ${product}`,
  says: ({ product, revised, age }) =>
    `The newest safety data sheet of ${product} in the register was revised on ${revised}, more than ${age} ago.`,
  *check(view) {
    const begins = dayOfUndated(view)
    for (const { id, file, data } of view.products.values()) {
      for (const { sheet, position, ...force } of sheetsInForce(data.sds ?? [])) {
        const days = answeredDays(force, begins)
        if (sheet.revised === undefined || !days) continue
        const old = firstDayTooOld(view, dayIn(sheet.revised), days)
        if (!old) continue
        yield {
          args: { product: data.name, revised: sheet.revised, age: String(old.asked.value) },
          at: { file, path: ['sds', position, 'revised'] },
          ...days,
          from: old.day,
          identity: [id, sheet.from],
          level: levelFrom(old.asked.sources, 'warning'),
          sources: old.asked.sources,
        }
      }
    }
  },
  failing: baitA({
    sds: `
  - from: 2026-01-05
    file: sds.txt
    revised: 2023-03-19 # expect: sds-old`,
  }),
  passing: baitA({
    sds: `
  - from: 2026-01-05
    file: sds.txt
    revised: 2023-03-20`,
  }),
})

/**
 * The first day of a span on which a sheet is older than what is asked on that day. Day by day, since what is asked
 * may change on any of them.
 */
export function firstDayTooOld(
  view: DistrictView,
  revised: Day,
  { from, until }: { readonly from: Day; readonly until?: Day },
): { readonly day: Day; readonly asked: ParameterValue } | undefined {
  const last = Math.min((until ?? Number.POSITIVE_INFINITY) - 1, view.asOf + daysAhead)
  for (let day = from; day <= last; day++) {
    const asked = view.parameters('sds.age', day)
    const reached = asked && ageReached(revised, asked.value)
    if (asked && typeof reached === 'number' && day > reached) return { day, asked }
  }
  return undefined
}

/** How far beyond the as-of day what is to come is told. */
const daysAhead = 366

/** The day on which something has reached an age written as `3 years`, `36 months` or `90 days`. */
function ageReached(since: Day, age: string | number): Day | null {
  const match = /^([0-9]+) (month|months|year|years)$/.exec(String(age))
  if (match) return addMonths(since, Number(match[1]) * (match[2]?.startsWith('year') ? 12 : 1))
  const days = daysOf(age)
  return days === null ? null : since + days
}
