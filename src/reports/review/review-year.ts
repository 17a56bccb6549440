import type { DistrictView } from '../../ledger/district-view.js'
import { civilOf, dayOf } from '../../measure/calendar.js'
import type { NamedYear } from '../../rules/yearly/years.js'
import { yearsOf } from '../../rules/yearly/years.js'
import type { Day } from '../../types.js'

/** The year that is looked back on. The recess after a school year belongs to it, so that no day is left out. */
export interface ReviewYear {
  readonly name: string
  readonly kind: 'school' | 'calendar'
  readonly from: Day
  readonly to: Day
  /** The year of the record of its meeting: the one it ends in. */
  readonly record: string
}

const always: Pick<DistrictView, 'asOf' | 'recordsBegin'> = {
  asOf: Number.POSITIVE_INFINITY,
  recordsBegin: Number.NEGATIVE_INFINITY,
}

/**
 * A school year of the district's calendar (`2025-2026`) or any calendar year (`2026`), also one before the records. A
 * school year that lies in one calendar year bears the name of that and comes first. What is no year, or no school year
 * that the calendar states, is refused with what there is.
 */
export function reviewYear(view: DistrictView, name: string): ReviewYear | { readonly refused: string } {
  const school = yearsOf({ ...view, ...always }, 'school')
  const found = school.find((year) => year.name === name)
  if (found) return asReviewYear(found, 'school')
  const first = /^[12][0-9]{3}$/.test(name) ? dayOf(`${name}-01-01`) : null
  if (first !== null) {
    const [year] = yearsOf({ ...view, asOf: first, recordsBegin: first }, 'calendar')
    if (year) return asReviewYear(year, 'calendar')
  }
  const stated =
    school.length === 0 ? 'it states none' : `it states ${school.map((year) => year.name).join(', ')}`
  return {
    refused: /^[12][0-9]{3}-[12][0-9]{3}$/.test(name)
      ? `The calendar of district.yaml has no school year ${name}; ${stated}. A calendar year is written as 2026.`
      : `${name} is no year: write a school year of district.yaml (${stated}) or a calendar year, such as 2026.`,
  }
}

function asReviewYear({ name, first, last, through }: NamedYear, kind: ReviewYear['kind']): ReviewYear {
  return { name, kind, from: first, to: through, record: String(civilOf(last).year) }
}
