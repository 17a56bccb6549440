import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { dutiesFor } from '../../ledger/use-classes.js'

/** Duties of a section that are owed for a treatment, before any emergency is thought of. */
export function owed<S extends 'notices' | 'postings'>(
  view: SiteView,
  section: S,
  treatment: Treatment,
): Duty<S>[] {
  const inRecess = fallsInRecess(view, treatment)
  return dutiesFor(view, section, treatment).filter(
    ({ says }) => !(says['unless-in-recess'] === 'yes' && inRecess),
  )
}

/** In a closure or recess, with nobody taught in the building. */
function fallsInRecess(view: SiteView, { day, application }: Treatment): boolean {
  return application?.pupils === 'none in the building' && view.district.calendar.closureOn(day) !== undefined
}

/**
 * What rulebooks ask when an application states an emergency: their duties take the place of notice and signs
 * beforehand in the same rulebook. One whose own notices and signs would not have been owed, since what was used is
 * exempt or nobody was there, asks for nothing in their place.
 */
export function emergencyDuties(view: SiteView, treatment: Treatment): Duty<'emergencies'>[] {
  if (!treatment.application?.emergency) return []
  const duties = dutiesFor(view, 'emergencies', treatment)
  if (duties.length === 0) return []
  const { rulebooks } = view.district
  const inForce = new Set<string>()
  const owing = new Set<string>()
  for (const section of ['notices', 'postings'] as const) {
    for (const { rulebook } of rulebooks.duties(section, treatment.day)) inForce.add(rulebook)
    for (const { rulebook } of owed(view, section, treatment)) owing.add(rulebook)
  }
  return duties.filter(({ rulebook }) => owing.has(rulebook) || !inForce.has(rulebook))
}

/** Rulebooks in which the stated emergency takes the place of what is owed beforehand. */
export function replacedBeforehand(view: SiteView, treatment: Treatment): ReadonlySet<string> {
  return new Set(emergencyDuties(view, treatment).map(({ rulebook }) => rulebook))
}
