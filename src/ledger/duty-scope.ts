import { liesOutdoors } from '../records/area-kinds.js'
import type { DutySection } from '../records/rulebook-duties.js'
import { activeTable, pestTable } from '../records/tables.js'
import type { UseMatcher } from '../records/use-matcher.js'
import type { Duty } from './rulebooks-in-force.js'
import type { SiteView } from './site-view.js'
import type { Treatment } from './treatments.js'
import { facetsThatDoNotFit, isOfClass } from './use-classes.js'

/**
 * Whether a duty holds for a treatment, and if not, why: `yes` exactly where `dutiesFor` gives it. Where a class that it
 * is confined to hangs on a fact that is not recorded, that is told, and not taken for an exemption.
 */
export type Scope =
  | { readonly holds: 'yes' }
  | {
      readonly holds: 'no'
      readonly why: string
      readonly isExempt: boolean
      readonly classes: readonly string[]
    }
  | { readonly holds: 'not known'; readonly absent: readonly string[]; readonly classes: readonly string[] }

export function scopeOf(view: SiteView, duty: Duty<DutySection>, treatment: Treatment): Scope {
  const { 'holds-for': only, 'not-for': exempt } = duty.says
  const { product, productId } = treatment
  if (!product)
    return {
      holds: 'not known',
      absent: [`products/${productId}/product.yaml`],
      classes: only ?? exempt ?? [],
    }
  const exemption = exempt?.find((name) => isOfClass(view, duty.rulebook, name, treatment))
  if (exemption !== undefined)
    return {
      holds: 'no',
      why: `of the class \`${exemption}\`, which is exempt`,
      isExempt: true,
      classes: [exemption],
    }
  if (!only || only.some((name) => isOfClass(view, duty.rulebook, name, treatment))) return { holds: 'yes' }
  const open = only.flatMap((name) => {
    const absent = absentForClass(view, duty.rulebook, name, treatment)
    return absent.length === 0 ? [] : [{ name, absent }]
  })
  if (open.length > 0)
    return {
      holds: 'not known',
      absent: [...new Set(open.flatMap(({ absent }) => absent))],
      classes: open.map(({ name }) => name),
    }
  const names = only.map((name) => `\`${name}\``).join(' or ')
  return { holds: 'no', why: `not of the class ${names}, for which it holds`, isExempt: false, classes: only }
}

/**
 * Facts without which nobody can tell whether a treatment is of a class; none where what is recorded rules it out, or
 * puts it in.
 */
export function absentForClass(
  view: SiteView,
  rulebook: string,
  name: string,
  treatment: Treatment,
): readonly string[] {
  const any = view.district.rulebooks.useClass(rulebook, name, treatment.day)
  if (!any) return [`uses.${name} of the rulebook ${rulebook}`]
  const open = any.flatMap((matcher) => {
    const absent = facetsThatDoNotFit(view, matcher, treatment).map((facet) =>
      absentFact(view, matcher, facet, treatment),
    )
    return absent.some((facts) => facts.length === 0) ? [] : absent.flat()
  })
  return [...new Set(open)]
}

/** What is not recorded where a facet does not fit; none where it is recorded and something else. */
function absentFact(
  view: SiteView,
  matcher: UseMatcher,
  facet: keyof UseMatcher,
  treatment: Treatment,
): readonly string[] {
  const { productId, product, areas, pests, by } = treatment
  const ofProduct = (key: string) => [`${key} of products/${productId}`]
  const actives = Object.keys(product?.data['active-ingredients'] ?? {})
  switch (facet) {
    case 'formulation':
      return treatment.formulation === undefined ? ofProduct('formulation') : []
    case 'active':
      return actives.length === 0 ? ofProduct('active-ingredients') : []
    case 'class':
      if (actives.length === 0) return ofProduct('active-ingredients')
      return actives
        .filter((id) => !activeTable().has(id))
        .map((id) => `the group of the active ingredient ${id}`)
    case 'signal-word':
      return product?.data['signal-word'] === undefined ? ofProduct('signal-word') : []
    case 'restricted-use':
      // Only what is registered is classified for restricted use.
      return product?.data['restricted-use'] === undefined && product?.data.kind !== 'minimum-risk'
        ? ofProduct('restricted-use')
        : []
    case 'within-reach':
      return unknownIn(
        areas.map(({ withinReach }) => withinReach),
        [matcher['within-reach']],
        'within-reach',
      )
    case 'pest':
      if (pests.length === 0) return ['pest']
      return unknownIn(
        pests.map((pest) => pestTable().get(pest)?.group),
        matcher.pest ?? [],
        'which pest it was',
      )
    case 'place':
      return unknownIn(
        areas.map(({ area }) => area && liesOutdoors(area.facts.kind)),
        [matcher.place === 'outdoors'],
        'whether the area lies outdoors',
      )
    case 'area':
      return unknownIn(
        areas.map(({ area }) => area?.facts.kind),
        matcher.area ?? [],
        'kind of the area',
      )
    case 'pupils':
      return treatment.application?.pupils === undefined ? ['pupils'] : []
    case 'for-hire':
      return view.district.people.has(by) ? [] : [`people/${by}.yaml`]
    default:
      return []
  }
}

/** A list does not fit for lack of a fact only where everything that is recorded does. */
function unknownIn<T>(facts: readonly (T | undefined)[], wanted: readonly (T | undefined)[], what: string) {
  const known = facts.filter((fact) => fact !== undefined)
  return known.length < facts.length && known.every((fact) => wanted.includes(fact)) ? [what] : []
}
