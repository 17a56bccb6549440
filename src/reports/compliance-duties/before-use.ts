import { holdsOn } from '../../ledger/spans.js'
import { isoOf } from '../../measure/calendar.js'
import { lackOf } from '../../rules/licences/approval-missing.js'
import { registrationsIn } from '../../rules/products/not-registered-in-state.js'
import { lacksRegistration } from '../../rules/products/pesticide-without-registration.js'
import type { Assessor } from './held.js'
import {
  absentRecord,
  noPlaceInAReading,
  notApplicable,
  notChecked,
  notShown,
  shown,
  together,
} from './held.js'

/** Whether the register shows the product registered in the state on the day. */
export const assessRegistrations: Assessor<'registrations'> = (view, { product, day }, duty) => {
  if (!product) return notChecked('the product is not in the register')
  const { states, 'special-local-need': need } = product.data
  if (duty.says['in-state'] !== 'yes')
    return lacksRegistration(product.data)
      ? notShown('the register shows no registration number', 'registration')
      : shown(`registration ${product.data.registration ?? need ?? 'not needed'}`, product.file)
  const state = duty.state ?? view.district.district.data.state ?? ''
  const spans = registrationsIn(state, product)
  if (!spans)
    return shown(`special local need registration ${need}; where it is good is held apart`, product.file)
  const where = state === '' ? 'in a state' : `in ${state}`
  const now = spans.find((span) => holdsOn(span, day))
  if (now) return shown(`registered ${where} from ${now.from}`, product.file)
  return states === undefined
    ? notChecked(`in which states it is registered is not in the register`, `states of ${product.id}`)
    : notShown(`no registration ${where} is shown in force on that day`)
}

/** Whether who has to approved beforehand. */
export const assessApprovals: Assessor<'approvals'> = (view, treatment, duty) => {
  const { application, day } = treatment
  if (!application) return noPlaceInAReading('approved')
  const { approved } = application
  const lack = lackOf(view.district, application, day, duty)
  const kinds = (some: readonly string[]) => some.map((kind) => kind.replace('-', ' ')).join(' or ')
  switch (lack?.lacks) {
    case 'approval':
      return notShown(
        `no approval by ${duty.says.by.map((kind) => kind.replace('-', ' ')).join(' and ')} is recorded`,
        'approved',
      )
    case 'time':
      return notShown(`approved ${approved?.on}, after the day of the application`)
    case 'approver':
      return notShown(`nobody who approved ${approved?.on} is shown to have been ${kinds(lack.kinds)} then`)
    case 'freshness':
      return notShown(`approved ${approved?.on}, good until ${isoOf(lack.goodUntil ?? day)}`)
  }
  if (!approved) return notApplicable('it asks nobody')
  const isThere = (person: string) => view.district.people.has(person)
  const gone = approved.by.filter((person) => !isThere(person))
  const byOthers = { ...application, approved: { ...approved, by: approved.by.filter(isThere) } }
  return gone.length > 0 && lackOf(view.district, byOthers, day, duty)
    ? together(gone.map((person) => absentRecord(view, 'person', person)))
    : shown(`approved ${approved.on} by ${approved.by.join(', ')}`)
}

/** A use for which a prohibition holds is one of what it rules out. */
export const assessProhibitions: Assessor<'prohibitions'> = (_view, _treatment, { says }) =>
  notShown(`as recorded, this use is one of what is ruled out: ${says.what}`)
