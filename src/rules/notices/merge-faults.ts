import { getOrMake } from '../../ledger/get-or-make.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { Citation, Level, Place } from '../../types.js'
import { levelOfDuty } from '../adopted.js'
import { levelOfNotShown, recordAsksFor } from '../reentry/applications.js'
import type { Finding } from '../rule.js'
import { schoolYearOf } from './told-about.js'

/** One duty of which the records do not show that it was met, in the respect that one rule tells. */
export interface Fault {
  readonly treatment: Treatment
  readonly citation: Citation
  /** False where the records leave open whether it was met. */
  readonly certain: boolean
  readonly at: Place
  /** Record of the notice or sign it is about; undefined where it is about none, or several. */
  readonly record?: string
  /** The less, the stricter is what was asked: the moment by which it was due. */
  readonly strictness?: number
}

/** Faults that are one cause, so that they are told once, in the words of the strictest duty. */
export interface MergedFault<F extends Fault> {
  readonly strictest: F
  readonly faults: readonly F[]
  readonly certain: boolean
  /** How many more uses of the product in the school year it is about; bait in devices is told together. */
  readonly more: number
  /** What is the same for every rule of this family. */
  readonly finding: Pick<Finding, 'at' | 'from' | 'sources' | 'level' | 'identity' | 'related'> & {
    readonly sources: readonly Citation[]
    readonly level: Level
  }
}

/**
 * One cause is told once: what is missing once for each treatment, what is wrong with a notice once for each notice,
 * whichever rulebooks and groups it is wrong for. Bait in devices is told once for each product and school year.
 * Where some duties were not met for certain, those that are in doubt are not spoken of.
 */
export function* mergedFaults<F extends Fault>(
  view: SiteView,
  faults: readonly F[],
): Iterable<MergedFault<F>> {
  const groups = new Map<string, F[]>()
  for (const fault of faults) getOrMake(groups, causeOf(view, fault), () => []).push(fault)
  for (const group of groups.values()) {
    const sure = group.filter(({ certain }) => certain)
    const told = sure.length > 0 ? sure : group
    const strictest = told.reduce((a, b) => ((b.strictness ?? 0) < (a.strictness ?? 0) ? b : a))
    const [first = strictest] = told
    yield {
      strictest,
      faults: told,
      certain: sure.length > 0,
      more: new Set(told.map(({ treatment }) => treatment)).size - 1,
      finding: findingOf(view, first, told, sure.length > 0),
    }
  }
}

function causeOf(view: SiteView, { treatment, record }: Fault): string {
  return treatment.how === 'application'
    ? `${treatment.id} ${record ?? ''}`
    : `${treatment.productId} in devices, ${schoolYearOf(view, treatment.day)}`
}

function findingOf<F extends Fault>(view: SiteView, first: F, told: readonly F[], certain: boolean) {
  const { treatment, at } = first
  const sources = [...new Map(told.map(({ citation }) => [citation.text, citation])).values()]
  const isElsewhere = at.file !== treatment.record.file
  return {
    at,
    from: treatment.day,
    sources,
    level: certain ? levelOfDuty(sources) : levelOfNotShown(sources),
    ...(isElsewhere ? { related: [{ place: treatment.at('product'), says: 'what it is about' }] } : {}),
    ...(treatment.how === 'application'
      ? {}
      : { identity: [treatment.productId, schoolYearOf(view, treatment.day)] }),
  }
}

/**
 * Whether nothing but the hours of the application leaves a term open, and another rule tells of them already: where
 * a record has to hold them, and of a time that the clock showed twice or skipped.
 */
export function applicationHoursAreToldElsewhere(view: SiteView, treatment: Treatment): boolean {
  const hours = (treatment.record.data as { readonly time?: string }).time
  return hours !== undefined || recordAsksFor(view, treatment, 'start-and-end')
}
