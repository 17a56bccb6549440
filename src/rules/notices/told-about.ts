import { getOrMake } from '../../ledger/get-or-make.js'
import type { LoadedEvent } from '../../ledger/loaded.js'
import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isPesticide } from '../../ledger/treatments.js'
import { civilOf } from '../../measure/calendar.js'
import type { Day } from '../../types.js'

interface ByApplication {
  readonly notices: ReadonlyMap<string, readonly LoadedEvent<'notice'>[]>
  /** Ids of applications that were not cancelled, by `<day> <product>`. */
  readonly applications: ReadonlyMap<string, readonly LoadedEvent<'application'>[]>
}

const known = new WeakMap<SiteView, ByApplication>()

function byApplication(view: SiteView): ByApplication {
  const found = known.get(view)
  if (found) return found
  const notices = new Map<string, LoadedEvent<'notice'>[]>()
  for (const notice of view.notices) getOrMake(notices, notice.data.application, () => []).push(notice)
  const applications = new Map<string, LoadedEvent<'application'>[]>()
  for (const application of view.applications) {
    const { product, status } = application.data
    if (status !== 'cancelled')
      getOrMake(applications, `${application.day} ${product}`, () => []).push(application)
  }
  const made = { notices, applications }
  known.set(view, made)
  return made
}

/**
 * Pesticides put to use that people had to be told of. Bait in a device of which an application record tells too is
 * judged by that record.
 */
export function treatmentsToldOf(view: SiteView): Treatment[] {
  return view.treatments.filter(
    (treatment) =>
      treatment.day >= view.begins &&
      isPesticide(treatment) &&
      !(
        treatment.how === 'bait in a device' &&
        applicationsAlike(view, treatment).some(({ data }) => data.status === 'done')
      ),
  )
}

/**
 * Notices sent and signs posted for a treatment. A notice names an application; one that was planned for the day and
 * the product stands for bait that was then written in a reading.
 */
export function noticesAbout(view: SiteView, treatment: Treatment): readonly LoadedEvent<'notice'>[] {
  const { notices } = byApplication(view)
  if (treatment.how === 'application') return notices.get(treatment.id) ?? []
  return applicationsAlike(view, treatment).flatMap(({ id }) => notices.get(id) ?? [])
}

function applicationsAlike(view: SiteView, { day, productId }: Treatment) {
  return byApplication(view).applications.get(`${day} ${productId}`) ?? []
}

/** The school year of a day: the first day of the one last begun; by Julys where the calendar has none. */
export function schoolYearOf(view: SiteView, day: Day): string {
  const begun = view.district.district.data.calendar
    .map(({ from }) => from)
    .filter((from) => dayIn(from) <= day)
    .sort()
    .at(-1)
  if (begun !== undefined) return begun
  const { year, month } = civilOf(day)
  return `July ${month >= 7 ? year : year - 1}`
}
