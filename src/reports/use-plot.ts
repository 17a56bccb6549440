import { isoOf } from '../measure/calendar.js'
import type { Day, Plot } from '../types.js'
import type { Period } from './period.js'
import type { Use } from './use-collect.js'
import { coveredBy, overTimeId } from './use-over-time.js'
import { partsOf } from './use-periods.js'

/** With fewer parts there is no course to see. */
const fewestParts = 3

/**
 * How often pesticides were put to use, month by month or by the longer parts that the table over time has; undefined
 * where nothing was used. A part before the records of every site began is not known, which is no zero.
 */
export function usePlot(
  uses: readonly Use[],
  period: Period,
  schoolYearsFrom: readonly Day[],
  begins: readonly Day[],
): Plot | undefined {
  const { by, parts } = partsOf(period, schoolYearsFrom)
  if (uses.length === 0 || parts.length < fewestParts) return undefined
  return {
    kind: 'bars',
    id: 'uses-over-time',
    title: `Uses of pesticides by ${by}`,
    unit: 'uses',
    from: isoOf(period.from),
    to: isoOf(period.to),
    points: [],
    marks: [],
    bars: {
      by,
      parts: ['applied', 'bait put out'],
      rows: parts.map((part) => {
        const within = uses.filter(({ day }) => part.from <= day && day <= part.to)
        const isKnown = within.length > 0 || coveredBy(begins, part) !== 'not at all'
        const applied = within.filter(({ how }) => how === 'application').length
        return { name: part.name, values: isKnown ? [applied, within.length - applied] : [null, null] }
      }),
      overTime: by === 'month',
    },
    table: { id: overTimeId },
  }
}
