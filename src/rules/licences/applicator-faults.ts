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

/**
 * How a treatment falls short of a duty to be licensed, if it does: always in one way, the one nearest to being made
 * good. People who are not in the ledger, or whose record is broken, are told elsewhere.
 */
export function faultOf(
  view: SiteView,
  treatment: Treatment,
  duty: Duty<'licences'>,
): FoundFault | undefined {
  const { people } = view.district
  const { by, 'supervised-by': supervisedBy } = treatment.record.data
  const worker = people.get(by)
  const supervisor = supervisedBy === undefined ? undefined : people.get(supervisedBy)
  if (!worker) return undefined
  const asked = askedBy(duty)
  const standing = standingOf(licencesOf(worker), asked, treatment.day)
  if (standing.is === 'certified') return undefined
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
  if (!maySupervise || supervisedBy === undefined) return ofWorker
  if (!supervisor) return undefined
  const above = standingOf(licencesOf(supervisor), asked, treatment.day)
  if (above.is === 'certified') return undefined
  const withoutAny = above.is === 'no-licence'
  if (withoutAny && standing.is !== 'uncertified') return ofWorker
  return {
    fault: (withoutAny ? undefined : faultOfStanding[above.is]) ?? 'applicator-not-supervised',
    person: supervisor,
    key: 'supervised-by',
    standing: above,
    supervisor,
    asked,
  }
}
