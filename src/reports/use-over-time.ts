import { isoOf } from '../measure/calendar.js'
import type { Day, Table } from '../types.js'
import type { Period } from './period.js'
import type { Use } from './use-collect.js'
import { partsOf } from './use-periods.js'
import { recordsOf, useCells, useColumns } from './use-tables.js'

const within = (uses: readonly Use[], { from, to }: Period) =>
  uses.filter(({ day }) => from <= day && day <= to)

const periodColumns = [
  { id: 'from', title: 'first day', for: 'work' },
  { id: 'to', title: 'last day', for: 'work' },
] as const

export const overTimeId = 'over-time'

/**
 * Month by month or school year by school year; a part without a use is a row too. One before the records of every site
 * began has no numbers: that nothing was used then is not known.
 */
export function overTimeTable(
  uses: readonly Use[],
  period: Period,
  schoolYearsFrom: readonly Day[],
  begins: readonly Day[],
  empty: string,
): Table {
  const { by, parts } = partsOf(period, schoolYearsFrom)
  return {
    id: overTimeId,
    title: by === 'school year' ? 'By school year, each with the recess after it' : `By ${by}`,
    columns: [{ id: 'when', title: by }, ...periodColumns, ...useColumns],
    rows:
      uses.length === 0
        ? []
        : parts.map((part) => {
            const of = within(uses, part)
            return {
              cells: {
                when: part.name,
                from: isoOf(part.from),
                to: isoOf(part.to),
                ...(of.length === 0 && coveredBy(begins, part) === 'not at all' ? {} : useCells(of)),
              },
              records: recordsOf(of),
            }
          }),
    empty,
  }
}

/** How far the records reach into a period: a period that they do not cover tells nothing of use. */
export type Covered = 'whole' | 'in part' | 'not at all'

export function coveredBy(begins: readonly Day[], { from, to }: Period): Covered {
  if (begins.every((day) => day > to)) return 'not at all'
  return begins.some((day) => day > from) ? 'in part' : 'whole'
}

const coveredInWords: Readonly<Record<Covered, string>> = {
  whole: 'wholly',
  'in part': 'in part',
  'not at all': 'not at all',
}

/** The period and the one before it, side by side. */
export function comparisonTable(
  rows: readonly {
    readonly name: string
    readonly period: Period
    readonly covered: Covered
    readonly uses: readonly Use[]
  }[],
): Table {
  return {
    id: 'before',
    title: 'This period and the one before, of the same length',
    columns: [
      { id: 'period', title: 'period' },
      ...periodColumns,
      { id: 'covered', title: 'in the records' },
      ...useColumns,
    ],
    rows: rows.map(({ name, period, covered, uses }) => ({
      cells: {
        period: name,
        from: isoOf(period.from),
        to: isoOf(period.to),
        covered: coveredInWords[covered],
        ...(covered === 'not at all' && uses.length === 0 ? {} : useCells(uses)),
      },
      records: recordsOf(uses),
    })),
    empty: 'Not examined.',
  }
}
