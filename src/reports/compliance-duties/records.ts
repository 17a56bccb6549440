import type { SiteView } from '../../ledger/site-view.js'
import { dayIn } from '../../ledger/spans.js'
import type { Treatment } from '../../ledger/treatments.js'
import { isoOf } from '../../measure/calendar.js'
import { lackingUnder } from '../../rules/application-records/application-record-incomplete.js'
import { lastDayToWrite } from '../../rules/application-records/application-record-late.js'
import type { RecordElement } from '../../rules/application-records/record-elements.js'
import {
  elementsWithoutPlace,
  elementWords,
  mayBeCertified,
  missingElements,
} from '../../rules/application-records/record-elements.js'
import { lacksRegistration } from '../../rules/products/pesticide-without-registration.js'
import type { Assessor, Part } from './held.js'
import { notApplicable, together } from './held.js'

/** What the record holds, and when it was written. */
export const assessRecords: Assessor<'records'> = (view, treatment, duty) => {
  const { says } = duty
  const asked = says.elements ?? []
  const missing = new Set<RecordElement>([
    ...lackingUnder(view, treatment, duty),
    ...asked.filter((element) => toldByOthers(view, treatment, element) === 'lacks'),
  ])
  const isShortForm =
    missing.size === 0 &&
    says['short-form-under'] !== undefined &&
    missingElements(view, treatment, asked).length > 0
  const counted = isShortForm ? (says['short-form'] ?? []) : asked
  const noPlace = elementsWithoutPlace(treatment, counted)
  const absentPeople = counted.includes('certified-applicator') ? peopleNotThere(view, treatment) : []
  const there = counted.filter((element) => !missing.has(element) && !noPlace.includes(element))
  const parts: Part[] = []
  if (there.length > 0)
    parts.push({
      outcome: 'shown',
      why: `${isShortForm ? `the short form will do, under ${says['short-form-under']} that day; ` : ''}it shows ${listed(there)}`,
    })
  if (missing.size > 0)
    parts.push({
      outcome: 'not shown',
      why: `it does not show ${listed([...missing])}`,
      absent: [...missing],
    })
  if (noPlace.length > 0)
    parts.push({
      outcome: 'cannot be checked',
      why: `the reading that tells of this bait has no place for ${listed(noPlace)}`,
      absent: noPlace,
    })
  if (absentPeople.length > 0)
    parts.push({
      outcome: 'cannot be checked',
      why: `${absentPeople.join(' and ')} is not there, so nobody is shown to have been certified`,
      absent: absentPeople,
    })
  parts.push(...partsOfTerm(treatment, lastDayToWrite(says, treatment.day)))
  if (parts.length > 0) return together(parts)
  return notApplicable('it asks for nothing beyond product, day, place and who')
}

function listed(elements: readonly RecordElement[]): string {
  return elements.map((element) => elementWords[element]).join('; ')
}

/** Elements that rules of other families tell of, which the record holds or lacks all the same. */
function toldByOthers(view: SiteView, treatment: Treatment, element: RecordElement): 'lacks' | 'holds' {
  const lacks =
    element === 'registration'
      ? treatment.product !== undefined && lacksRegistration(treatment.product.data)
      : element === 'certified-applicator' && !mayBeCertified(view, treatment)
  return lacks ? 'lacks' : 'holds'
}

function peopleNotThere({ district }: SiteView, { record }: Treatment): string[] {
  const { by, 'supervised-by': supervisor } = record.data
  return [by, supervisor].flatMap((id) =>
    id === undefined || district.people.has(id) ? [] : [`people/${id}.yaml`],
  )
}

function partsOfTerm({ record }: Treatment, last: number | undefined): Part[] {
  if (last === undefined) return []
  const onPaper = record.data['on-paper']
  if (onPaper === undefined)
    return [
      {
        outcome: 'cannot be checked',
        why: `when it was written is not recorded; the last day for it was ${isoOf(last)}`,
        absent: ['on-paper'],
      },
    ]
  const inTime = dayIn(onPaper) <= last
  return [
    {
      outcome: inTime ? 'shown' : 'not shown',
      why: `written ${onPaper}, ${inTime ? 'within its term' : `after ${isoOf(last)}, the last day for it`}`,
    },
  ]
}
