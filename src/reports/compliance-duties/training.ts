import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isoOf } from '../../measure/calendar.js'
import type { AskedCourse } from '../../rules/licences/training-gaps.js'
import { trainingAsked } from '../../rules/licences/training-gaps.js'
import type { Assessor, Held } from './held.js'
import { absentRecord, notApplicable, notShown, shown, together } from './held.js'

const knownCourses = new WeakMap<SiteView, ReadonlyMap<Treatment, readonly AskedCourse[]>>()

/** The courses asked at a use, of whoever applied, or of the coordinator where it hangs on what is used. */
export const assessTraining: Assessor<'training'> = (view, treatment, duty) => {
  let found = knownCourses.get(view)
  if (!found) {
    found = new Map(trainingAsked(view))
    knownCourses.set(view, found)
  }
  const asked = (found.get(treatment) ?? []).filter(
    (one) => one.duty.rulebook === duty.rulebook && one.duty.name === duty.name,
  )
  if (asked.length === 0)
    return notApplicable(
      duty.says.who === 'coordinator'
        ? 'asked of the coordinator whatever is used; the table of courses tells it'
        : 'asked of nobody on that day',
    )
  return together(
    asked.map(({ who, is, begun }): Held => {
      const name = view.district.people.get(who)?.data.name ?? who
      switch (is) {
        case 'trained':
          return shown(`${name} had the course`, `people/${who}.yaml`)
        case 'in time':
          return shown(`${name} began ${isoOf(begun)} and was still within the time given for it`)
        case 'lacking':
          return notShown(`no course \`${duty.says.course}\` of ${name} counts on that day`)
        default:
          return absentRecord(view, 'person', who)
      }
    }),
  )
}
