import type { LicenceAsked, LicenceStanding, Standing } from '../../ledger/licences.js'
import { askedBy, licencesOf, standingOf } from '../../ledger/licences.js'
import type { Loaded } from '../../ledger/loaded.js'
import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'

/** What can be wrong with the licence of whoever did the work; each is one rule. */
export type ApplicatorFault =
  | 'applicator-without-licence'
  | 'licence-not-in-force'
  | 'licence-of-another-state'
  | 'licence-without-category'
  | 'applicator-not-supervised'

export interface FoundFault {
  readonly fault: ApplicatorFault
  /** Whose licence it is about, and where the record names them. */
  readonly person: Loaded<'person'>
  readonly key: 'by' | 'supervised-by'
  readonly standing: LicenceStanding
  /** For a lack of supervision or of any licence: who supervised, if the record says. */
  readonly supervisor: Loaded<'person'> | undefined
  readonly asked: LicenceAsked
}

const faultOfStanding: Readonly<Partial<Record<Standing, ApplicatorFault>>> = {
  'no-licence': 'applicator-without-licence',
  'not-in-force': 'licence-not-in-force',
  'of-another-state': 'licence-of-another-state',
  'without-category': 'licence-without-category',
}

/** How a treatment stands to a duty that whoever applies is licensed; `standing` is that of the licence it rests on. */
export type ApplicatorStanding =
  | { readonly is: 'certified'; readonly worker: Loaded<'person'>; readonly standing: LicenceStanding }
  | {
      readonly is: 'supervised'
      readonly worker: Loaded<'person'>
      readonly supervisor: Loaded<'person'>
      readonly standing: LicenceStanding
    }
  | { readonly is: 'at fault'; readonly found: FoundFault }
  /** Not in the ledger, or with a record that is broken. */
  | { readonly is: 'not known'; readonly person: string }

/** How a treatment falls short of a duty to be licensed, if it does. People who are not known are told elsewhere. */
export function faultOf(
  view: SiteView,
  treatment: Treatment,
  duty: Duty<'licences'>,
): FoundFault | undefined {
  const standing = applicatorStanding(view, treatment, duty)
  return standing.is === 'at fault' ? standing.found : undefined
}

/** Of several ways in which it falls short it is told in one: the one nearest to being made good. */
export function applicatorStanding(
  view: SiteView,
  treatment: Treatment,
  duty: Duty<'licences'>,
): ApplicatorStanding {
  const { people } = view.district
  const { by, 'supervised-by': supervisedBy } = treatment.record.data
  const worker = people.get(by)
  const supervisor = supervisedBy === undefined ? undefined : people.get(supervisedBy)
  if (!worker) return { is: 'not known', person: by }
  const asked = askedBy(duty)
  const standing = standingOf(licencesOf(worker), asked, treatment.day)
  if (standing.is === 'certified') return { is: 'certified', worker, standing }
  // The holder of a lesser licence works under someone who is certified, whatever the duty says of those without any.
  const maySupervise = standing.is === 'uncertified' || duty.says.supervised === 'yes'
  const ofWorker: FoundFault = {
    fault: faultOfStanding[standing.is] ?? 'applicator-not-supervised',
    person: worker,
    key: 'by',
    standing,
    supervisor: maySupervise ? supervisor : undefined,
    asked,
  }
  if (!maySupervise || supervisedBy === undefined) return { is: 'at fault', found: ofWorker }
  if (!supervisor) return { is: 'not known', person: supervisedBy }
  const above = standingOf(licencesOf(supervisor), asked, treatment.day)
  if (above.is === 'certified') return { is: 'supervised', worker, supervisor, standing: above }
  const withoutAny = above.is === 'no-licence'
  if (withoutAny && standing.is !== 'uncertified') return { is: 'at fault', found: ofWorker }
  return {
    is: 'at fault',
    found: {
      fault: (withoutAny ? undefined : faultOfStanding[above.is]) ?? 'applicator-not-supervised',
      person: supervisor,
      key: 'supervised-by',
      standing: above,
      supervisor,
      asked,
    },
  }
}
