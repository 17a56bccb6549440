import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { compareFractions } from '../../measure/fractions.js'
import type { Quantity } from '../../measure/quantities.js'
import { exactly, parseQuantity } from '../../measure/quantities.js'
import { sumAs, sumsOf } from '../../measure/rates.js'

/**
 * Whether everything that one applicator treated at the site on the day of a treatment, as far as `counts`, comes to
 * less than a limit. Exactly the limit is not less; and where one extent of the day is not recorded, nothing is known to
 * be less. What was treated at other sites on that day is not seen here.
 */
export function isDayExtentUnder(
  view: SiteView,
  treatment: Treatment,
  limit: string,
  counts: (other: Treatment) => boolean,
): boolean {
  const most = parseQuantity(limit)
  const bound = most && exactly(most)
  if (!most || !bound) return false
  const ofDay = view.treatments.filter(
    (other) =>
      other.day === treatment.day && responsibleFor(other) === responsibleFor(treatment) && counts(other),
  )
  const extents = ofDay.map(extentOf)
  const known = extents.flatMap((extent) => extent ?? [])
  if (extents.some((extent) => extent === undefined)) return false
  return compareFractions(sumAs(sumsOf(known), most).size, bound) < 0
}

/** The certified applicator answers for the day, whoever held the nozzle. */
function responsibleFor({ record }: Treatment): string {
  return record.data['supervised-by'] ?? record.data.by
}

/** The extent treated in all, or in each of the areas if every one tells it. */
function extentOf({ application }: Treatment): readonly Quantity[] | undefined {
  if (!application) return undefined
  const whole = application['treated-extent']
  const texts = whole === undefined ? Object.values(application.areas).map(({ extent }) => extent) : [whole]
  const read = texts.flatMap((text) => (text === undefined ? [] : (parseQuantity(text) ?? [])))
  return read.length === texts.length ? read : undefined
}
