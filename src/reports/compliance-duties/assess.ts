import { scopeOf } from '../../ledger/duty-scope.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import type { DutySection } from '../../records/rulebook-duties.js'
import { labelIsLaw } from '../../rules/label-is-law.js'
import type { Citation } from '../../types.js'
import { assessApprovals, assessProhibitions, assessRegistrations } from './before-use.js'
import { assessEmergencies } from './emergencies.js'
import { heldToFederalLaw } from './federal.js'
import type { Assessor, Held } from './held.js'
import { notApplicable, notChecked, shown } from './held.js'
import { heldToLabel } from './label.js'
import { assessLicences } from './licences.js'
import { assessNotices } from './notices.js'
import { assessPostings } from './postings.js'
import { assessRecords } from './records.js'
import { assessOccupancy, assessReentry } from './reentry.js'
import { assessTraining } from './training.js'
import { dutyInWords } from './words.js'

/** One duty held against one treatment. */
export interface HeldDuty extends Held {
  /** Section of the rulebook; `label`, `federal law`, or `beside the duties` where no rulebook's section asks. */
  readonly section: string
  readonly rulebook: string
  /** Name of the duty within the section. */
  readonly name: string
  readonly duty: string
  readonly citation: Citation
}

/** Sections whose duties are held against each treatment; the others are asked of years, people and papers. */
const assessors: { readonly [S in SectionOfUses]: Assessor<S> } = {
  notices: assessNotices,
  postings: assessPostings,
  emergencies: assessEmergencies,
  occupancy: assessOccupancy,
  reentry: assessReentry,
  records: assessRecords,
  licences: assessLicences,
  training: assessTraining,
  registrations: assessRegistrations,
  approvals: assessApprovals,
  prohibitions: assessProhibitions,
}
export type SectionOfUses = Exclude<DutySection, 'keeping' | 'yearly'>
export const sectionsOfUses = Object.keys(assessors) as SectionOfUses[]

/** Every duty in force on the day of a treatment that could bear on it, none passed over. */
export function dutiesHeld(view: SiteView, treatment: Treatment): HeldDuty[] {
  return [
    ...sectionsOfUses.flatMap((section) => ofSection(view, treatment, section)),
    ...(treatment.product ? heldToLabel(view, treatment) : [labelOfUnknown(treatment)]).map((one) => ({
      section: 'label',
      rulebook: 'the label',
      ...one,
    })),
    ...heldToFederalLaw(view, treatment).map((one) => ({
      section: 'federal law',
      rulebook: 'whatever rulebooks are listed',
      ...one,
    })),
  ]
}

function ofSection<S extends SectionOfUses>(view: SiteView, treatment: Treatment, section: S): HeldDuty[] {
  return view.district.rulebooks.duties(section, treatment.day).map((duty) => ({
    section,
    rulebook: duty.rulebook,
    name: duty.name,
    duty: dutyInWords(section, duty),
    citation: duty.citation,
    ...holdAgainst(view, treatment, section, duty),
  }))
}

function holdAgainst<S extends SectionOfUses>(
  view: SiteView,
  treatment: Treatment,
  section: S,
  duty: Duty<S>,
): Held {
  const scope = scopeOf(view, duty, treatment)
  switch (scope.holds) {
    case 'yes':
      return (assessors[section] as Assessor<S>)(view, treatment, duty)
    case 'no':
      // What a prohibition holds for is what it rules out: a use that is shown to be something else keeps it.
      return section === 'prohibitions' && !scope.isExempt
        ? shown(
            `not of the class ${scope.classes.map((name) => `\`${name}\``).join(' or ')}, which is ruled out`,
          )
        : notApplicable(scope.why)
    case 'not known':
      return notChecked(
        treatment.product
          ? `whether it is of the class ${scope.classes.map((name) => `\`${name}\``).join(' or ')} is not recorded`
          : 'the product is not in the register',
        ...scope.absent,
      )
  }
}

function labelOfUnknown({ productId }: Treatment) {
  return {
    name: 'label',
    duty: 'used as its label says',
    citation: labelIsLaw,
    ...notChecked('the product is not in the register', `products/${productId}/product.yaml`),
  }
}
