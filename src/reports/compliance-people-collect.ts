import { askedBy } from '../ledger/licences.js'
import type { Duty } from '../ledger/rulebooks-in-force.js'
import type { SiteView } from '../ledger/site-view.js'
import type { Treatment } from '../ledger/treatments.js'
import { isPesticide } from '../ledger/treatments.js'
import { dutiesFor } from '../ledger/use-classes.js'
import { isoOf } from '../measure/calendar.js'
import type { FoundFault } from '../rules/licences/applicator-faults.js'
import { applicatorStanding } from '../rules/licences/applicator-faults.js'
import type { FirmStanding } from '../rules/licences/firm-without-licence.js'
import { firmOf, firmStandings } from '../rules/licences/firm-without-licence.js'
import type { AskedCourse } from '../rules/licences/training-gaps.js'
import { trainingAsked } from '../rules/licences/training-gaps.js'
import type { Day } from '../types.js'
import type { Outcome } from './outcomes.js'
import { absentInWords } from './outcomes.js'
import type { Period } from './period.js'

export type HolderRole = 'applicator' | 'supervisor' | 'firm'

/** What one use asks of the licence of one holder under one duty, and what the records show of it. */
export interface LicenceUse {
  readonly site: string
  readonly day: Day
  readonly file: string
  readonly role: HolderRole
  /** Undefined where the records name no firm. */
  readonly id: string | undefined
  /** Whose firm it would be, where none is named. */
  readonly unnamed?: string
  /** Undefined where no rulebook in force asks anything. */
  readonly duty: Duty<'licences'> | undefined
  readonly outcome: Outcome
  readonly why: string
}

export interface CourseAtUse {
  readonly site: string
  readonly day: Day
  readonly file: string
  readonly who: string
  /** Undefined where no rulebook in force asks for a course. */
  readonly duty: AskedCourse['duty'] | undefined
  readonly is: AskedCourse['is'] | 'not asked' | 'not known'
  readonly begun: Day
}

/** Licences and courses at the uses of a site, so that the rest of its records can be let go. */
export interface PeopleFacts {
  readonly site: string
  readonly begins: string
  readonly licences: readonly LicenceUse[]
  readonly training: readonly CourseAtUse[]
  /** Uses of the period that were before the records of the site begin. */
  readonly beforeRecords: number
}

export function collectPeople(view: SiteView, { from, to }: Period): PeopleFacts {
  const inPeriod = ({ day }: Treatment) => from <= day && day <= to
  const uses = view.treatments.filter(
    (use) => inPeriod(use) && (isPesticide(use) || use.product === undefined),
  )
  const judged = uses.filter(({ day }) => day >= view.begins)
  const unknown = judged.filter(({ product }) => product === undefined)
  const courses = [...trainingAsked(view)].filter(([use]) => inPeriod(use))
  return {
    site: view.id,
    begins: isoOf(view.begins),
    licences: judged.flatMap((use) =>
      use.product === undefined ? [unknownUse(view, use)] : [...ofPeople(view, use), ...ofFirm(view, use)],
    ),
    training: [
      ...courses.flatMap(([use, asked]) => coursesAt(view, use, asked)),
      ...unknown.map((use) => ({
        ...placeOf(view, use),
        who: use.by,
        duty: undefined,
        is: 'not known' as const,
        begun: use.day,
      })),
    ],
    beforeRecords: uses.length - judged.length,
  }
}

function placeOf(view: SiteView, use: Treatment) {
  return { site: view.id, day: use.day, file: use.record.file }
}

function unknownUse(view: SiteView, use: Treatment): LicenceUse {
  return {
    ...placeOf(view, use),
    role: 'applicator',
    id: use.by,
    duty: undefined,
    outcome: 'cannot be checked',
    why: `${use.productId} is not in the register, so whether it is a pesticide is not told`,
  }
}

function ofPeople(view: SiteView, use: Treatment): LicenceUse[] {
  const duties = dutiesFor(view, 'licences', use).filter(({ says }) => says.of === 'applicator')
  const supervisedBy = use.record.data['supervised-by']
  const place = placeOf(view, use)
  if (duties.length === 0) {
    const nothing = { ...place, duty: undefined, outcome: 'not applicable' as const, why: notAsked }
    return [
      { ...nothing, role: 'applicator', id: use.by },
      ...(supervisedBy === undefined ? [] : [{ ...nothing, role: 'supervisor' as const, id: supervisedBy }]),
    ]
  }
  return duties.flatMap((duty): LicenceUse[] => {
    const judged = { ...place, duty }
    const { worker, supervisor } = ofOneDuty(view, use, duty)
    return [
      { ...judged, role: 'applicator', id: use.by, ...worker },
      ...(supervisedBy === undefined
        ? []
        : [{ ...judged, role: 'supervisor' as const, id: supervisedBy, ...supervisor }]),
    ]
  })
}

const noneRecorded = 'no licence is recorded'
const notAsked = 'no rulebook in force asks for a licence'

type Judged = Pick<LicenceUse, 'outcome' | 'why'>

/** The one judgement of a use under a duty, told of the two people it may rest on. */
function ofOneDuty(
  view: SiteView,
  use: Treatment,
  duty: Duty<'licences'>,
): { readonly worker: Judged; readonly supervisor: Judged } {
  const found = applicatorStanding(view, use, duty)
  switch (found.is) {
    case 'not known': {
      const judged = absent(view, found.person)
      return { worker: judged, supervisor: judged }
    }
    case 'certified':
      return {
        worker: { outcome: 'shown', why: 'in force' },
        supervisor: { outcome: 'not applicable', why: 'not needed (whoever applied was certified)' },
      }
    case 'supervised':
      return {
        worker: { outcome: 'shown', why: 'under a certified supervisor' },
        supervisor: { outcome: 'shown', why: 'in force' },
      }
    case 'at fault':
      return ofFault(found.found)
  }
}

function ofFault(fault: FoundFault): { readonly worker: Judged; readonly supervisor: Judged } {
  const judged: Judged = { outcome: 'not shown', why: faultInWords(fault) }
  if (fault.key === 'supervised-by')
    return { worker: { ...judged, why: `of the supervisor, ${judged.why}` }, supervisor: judged }
  // Where supervision could have taken the place of a licence, it failed with that of the supervisor.
  if (fault.supervisor) return { worker: judged, supervisor: { ...judged, why: noneRecorded } }
  return {
    worker: judged,
    supervisor: {
      outcome: 'not applicable',
      why: 'no help (supervision takes no place of a licence here)',
    },
  }
}

function absent({ district }: SiteView, id: string): Judged {
  return { outcome: 'cannot be checked', why: absentInWords(district, 'person', id) }
}

function faultInWords({ fault, standing, asked, supervisor }: FoundFault): string {
  const ended = standing.ended === undefined ? '' : `, the last ended on ${isoOf(standing.ended)}`
  switch (fault) {
    case 'applicator-without-licence':
      return noneRecorded
    case 'licence-not-in-force':
      return `none in force${ended}`
    case 'licence-of-another-state':
      return `in force of ${statesOf(standing.licences)} and not of ${asked.state ?? 'the state'}${ended}`
    case 'licence-without-category':
      return `in force without the category ${asked.categories.join(' or ')}${ended}`
    case 'applicator-not-supervised':
      return supervisor ? 'not shown to be certified' : 'not certified, and nobody is recorded who supervised'
  }
}

function statesOf(licences: readonly { readonly state: string }[]): string {
  return [...new Set(licences.map(({ state }) => state))].join(', ')
}

function ofFirm(view: SiteView, use: Treatment): LicenceUse[] {
  const place = { ...placeOf(view, use), role: 'firm' as const }
  const person = view.district.people.get(use.by)
  const named = person && firmOf(view, use, person)
  const standings = firmStandings(view, use, named?.firm)
  if (standings.length === 0)
    return named?.id === undefined
      ? []
      : [{ ...place, id: named.id, duty: undefined, outcome: 'not applicable', why: notAsked }]
  return standings.map((standing): LicenceUse => {
    const { duty } = standing
    if (!person)
      return { ...place, id: undefined, unnamed: firmOfWhom(use.by), duty, ...absent(view, use.by) }
    if (named?.id === undefined)
      return {
        ...place,
        id: undefined,
        unnamed: firmOfWhom(person.data.name),
        duty,
        outcome: 'not shown',
        why: 'neither the person nor the contract names a firm',
      }
    if (!named.firm) {
      const why = absentInWords(view.district, 'firm', named.id)
      return { ...place, id: named.id, duty, outcome: 'cannot be checked', why }
    }
    return { ...place, id: named.id, duty, ...ofFirmStanding(standing) }
  })
}

function firmOfWhom(name: string): string {
  return `the firm of ${name}`
}

function ofFirmStanding({ isMet, standing, duty }: FirmStanding): Judged {
  if (isMet) return { outcome: 'shown', why: 'in force' }
  const ended = standing?.ended === undefined ? '' : `, the last ended on ${isoOf(standing.ended)}`
  const asked = askedBy(duty)
  const why =
    standing?.is === 'no-licence'
      ? noneRecorded
      : standing?.is === 'of-another-state'
        ? `in force of ${statesOf(standing.licences)} and not of ${asked.state ?? 'the state'}${ended}`
        : standing?.is === 'without-category'
          ? `in force without the category ${asked.categories.join(' or ')}${ended}`
          : `none in force${ended}`
  return { outcome: 'not shown', why }
}

function coursesAt(view: SiteView, use: Treatment, asked: readonly AskedCourse[]): CourseAtUse[] {
  const place = placeOf(view, use)
  const courses = asked.map(({ who, duty, is, begun }) => ({ ...place, who, duty, is, begun }))
  return courses.some(({ who }) => who === use.by)
    ? courses
    : [...courses, { ...place, who: use.by, duty: undefined, is: 'not asked', begun: use.day }]
}
