import type { Duty } from '../../ledger/rulebooks-in-force.js'
import type { SiteView } from '../../ledger/site-view.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isoOf } from '../../measure/calendar.js'
import type { FoundFault } from '../../rules/licences/applicator-faults.js'
import { applicatorStanding } from '../../rules/licences/applicator-faults.js'
import { firmOf, firmStandings } from '../../rules/licences/firm-without-licence.js'
import type { Assessor, Held } from './held.js'
import { absentRecord, notShown, shown } from './held.js'

/** The licence of whoever applied or supervised, or of the firm, on the day. */
export const assessLicences: Assessor<'licences'> = (view, treatment, duty) =>
  duty.says.of === 'firm' ? ofFirm(view, treatment, duty) : ofApplicator(view, treatment, duty)

function ofApplicator(view: SiteView, treatment: Treatment, duty: Duty<'licences'>): Held {
  const found = applicatorStanding(view, treatment, duty)
  switch (found.is) {
    case 'not known':
      return absentRecord(view, 'person', found.person)
    case 'at fault':
      return notShown(inWords(found.found))
    case 'certified':
      return shown(`licence ${numbersOf(found.standing)} of ${found.worker.data.name}`, found.worker.file)
    case 'supervised':
      return shown(
        `supervised by ${found.supervisor.data.name}, licence ${numbersOf(found.standing)}`,
        found.worker.file,
        found.supervisor.file,
      )
  }
}

function numbersOf({ licences }: { readonly licences: readonly { readonly number: string }[] }): string {
  return [...new Set(licences.map(({ number }) => number))].join(', ')
}

function inWords({ fault, person, standing, asked, key }: FoundFault): string {
  const who = `${person.data.name}${key === 'supervised-by' ? ', who supervised' : ''}`
  const ended = standing.ended === undefined ? '' : `; the last ended ${isoOf(standing.ended)}`
  switch (fault) {
    case 'applicator-without-licence':
      return `no licence of ${who} is recorded`
    case 'licence-not-in-force':
      return `no licence of ${who} is shown in force on that day${ended}`
    case 'licence-of-another-state':
      return `the licence of ${who} is of ${[...new Set(standing.licences.map(({ state }) => state))].join(', ')}; asked is ${asked.state ?? 'another state'}`
    case 'licence-without-category':
      return `the licence of ${who} does not show the category ${asked.categories.join(' or ')}`
    case 'applicator-not-supervised':
      return key === 'supervised-by'
        ? `no licence that certifies ${who} is recorded`
        : `the licence of ${who} is for work under a certified applicator, and nobody is recorded who supervised`
  }
}

function ofFirm(view: SiteView, treatment: Treatment, duty: Duty<'licences'>): Held {
  const person = view.district.people.get(treatment.by)
  if (!person) return absentRecord(view, 'person', treatment.by)
  const { id, firm } = firmOf(view, treatment, person)
  if (id === undefined)
    return notShown(`neither the record of ${person.data.name} nor the contract names a firm`, 'firm')
  if (!firm) return absentRecord(view, 'firm', id)
  const found = firmStandings(view, treatment, firm).find(
    (one) => one.duty.rulebook === duty.rulebook && one.duty.name === duty.name,
  )
  const standing = found?.standing
  if (found?.isMet && standing) return shown(`licence ${numbersOf(standing)} of ${firm.data.name}`, firm.file)
  const ended = standing?.ended === undefined ? '' : `; the last ended ${isoOf(standing.ended)}`
  return notShown(`no licence of ${firm.data.name} as asked is shown in force on that day${ended}`)
}
