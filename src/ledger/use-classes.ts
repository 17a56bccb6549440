import { liesOutdoors } from '../records/area-kinds.js'
import type { DutySection } from '../records/rulebook-duties.js'
import { pestTable } from '../records/tables.js'
import type { UseMatcher } from '../records/use-matcher.js'
import type { RegisterEntry } from './register.js'
import type { Duty } from './rulebooks-in-force.js'
import type { SiteView } from './site-view.js'
import { dayIn } from './spans.js'
import type { Treatment } from './treatments.js'
import { activeClassesOf } from './treatments.js'

/** The duties of a section that hold for a treatment: those in force on its day whose classes it is in, and not exempt. */
export function dutiesFor<S extends DutySection>(
  view: SiteView,
  section: S,
  treatment: Treatment,
): Duty<S>[] {
  return view.district.rulebooks
    .duties(section, treatment.day)
    .filter((duty) => holdsFor(view, duty, treatment))
}

/** Whether a duty, in force or not, is about a treatment: it is of its classes, and not exempt. */
export function holdsFor(
  view: SiteView,
  { rulebook, says }: Duty<DutySection>,
  treatment: Treatment,
): boolean {
  const isOf = (name: string) => isOfClass(view, rulebook, name, treatment)
  const { 'holds-for': only, 'not-for': exempt } = says
  return (only?.some(isOf) ?? true) && !(exempt?.some(isOf) ?? false)
}

/**
 * Whether a treatment is of a class of uses that a rulebook defines. What a record does not tell does not fit: an
 * exemption has to be shown.
 */
export function isOfClass(view: SiteView, rulebook: string, name: string, treatment: Treatment): boolean {
  const any = view.district.rulebooks.useClass(rulebook, name, treatment.day)
  return any?.some((matcher) => fits(view, matcher, treatment)) ?? false
}

function fits(view: SiteView, matcher: UseMatcher, treatment: Treatment): boolean {
  const fitsFacet = facetTest(view, treatment)
  return Object.entries(matcher).every(([facet, wanted]) => fitsFacet(facet as keyof UseMatcher, wanted))
}

/** The facets of a description that what is recorded of a treatment does not fit. */
export function facetsThatDoNotFit(
  view: SiteView,
  matcher: UseMatcher,
  treatment: Treatment,
): (keyof UseMatcher)[] {
  const fitsFacet = facetTest(view, treatment)
  return (Object.keys(matcher) as (keyof UseMatcher)[]).filter((facet) => !fitsFacet(facet, matcher[facet]))
}

function facetTest(
  view: SiteView,
  treatment: Treatment,
): (facet: keyof UseMatcher, wanted: unknown) => boolean {
  const { application } = treatment
  const product = treatment.product?.data
  const actives = Object.keys(product?.['active-ingredients'] ?? {})
  const allOf = <T>(facts: readonly T[], wanted: readonly (T | undefined)[]) =>
    facts.length > 0 && facts.every((fact) => fact !== undefined && wanted.includes(fact))
  const places = treatment.areas.map(({ area }) => area && liesOutdoors(area.facts.kind))
  const kinds = treatment.areas.map(({ area }) => area?.facts.kind)
  const reach = treatment.areas.map(({ withinReach }) => withinReach)
  const tests: {
    readonly [K in keyof Required<UseMatcher>]: (wanted: NonNullable<UseMatcher[K]>) => boolean
  } = {
    product: (wanted) => isIn(product?.kind, wanted),
    formulation: (wanted) => isIn(treatment.formulation, wanted),
    method: (wanted) => isIn(treatment.method, wanted),
    active: (wanted) => allOf(actives, wanted),
    class: (wanted) => product !== undefined && allOf(activeClassesOf(product), wanted),
    'signal-word': (wanted) => isIn(product?.['signal-word'], wanted),
    'registered-as': (wanted) => isIn(product?.['registered-as'] ?? 'full', wanted),
    cancelled: (wanted) => (wanted === 'yes') === isCancelled(treatment),
    'restricted-use': (wanted) => (wanted === 'yes') === (product?.['restricted-use'] === 'yes'),
    'within-reach': (wanted) => allOf(reach, [wanted]),
    pest: (wanted) =>
      treatment.pests.length > 0 &&
      treatment.pests.every((pest) => isIn(pestTable().get(pest)?.group, wanted)),
    place: (wanted) => allOf(places, [wanted === 'outdoors']),
    area: (wanted) => allOf(kinds, wanted),
    site: (wanted) => isIn(view.site.data.kind ?? 'school', wanted),
    pupils: (wanted) => isIn(application?.pupils, wanted),
    'for-hire': (wanted) => (wanted === 'yes') === isForHire(view, treatment),
    purpose: (wanted) => isIn(application?.purpose ?? 'pest-control', wanted),
    emergency: (wanted) => (wanted === 'yes') === (application?.emergency !== undefined),
  }
  return (facet, wanted) => wanted === undefined || (tests[facet] as (wanted: unknown) => boolean)(wanted)
}

function isIn<T extends string>(fact: T | undefined, wanted: readonly T[]): boolean {
  return fact !== undefined && wanted.includes(fact)
}

/** Whether a firm applied it, and not the district's own people; someone whose firm is not recorded is one of them. */
function isForHire({ district }: SiteView, { by }: Treatment): boolean {
  const firm = district.people.get(by)?.data.firm
  return firm !== undefined && district.firms.get(firm)?.data.own !== 'yes'
}

/** Whether the registration of what was used had been cancelled or suspended, and the time to use up stocks was over. */
export function isCancelled({
  product,
  day,
}: Pick<Treatment, 'day'> & { readonly product: RegisterEntry | undefined }): boolean {
  const cancelled = product?.data.cancelled
  if (!cancelled) return false
  const lastDay = cancelled['use-until']
  return lastDay === undefined ? day >= dayIn(cancelled.on) : day > dayIn(lastDay)
}
