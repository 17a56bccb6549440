import type { Random } from '../../measure/seeded-random.js'
import { wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateOf, dateText, dayOf } from './days.js'
import type { NameMaker } from './names.js'
import { inventedPhone } from './names.js'
import type { DemoFile } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

export interface Person {
  readonly id: string
  readonly name: string
  readonly email: string
  readonly roles: readonly string[]
  readonly employer: string
  readonly phone: string
  readonly licence?: string
}

export interface Staff {
  readonly coordinator: Person
  readonly clerk: Person
  readonly technicians: readonly Person[]
  readonly maintenance: readonly Person[]
  readonly grounds: Person
  /** Hires someone new. */
  readonly hire: (role: string) => Person
}

export const districtName = 'Tarn Hollow School District'
const districtMail = 'tarn-hollow.example'
const contractorName = 'Invented Pest Services'
export const contractorId = 'invented-pest-services'
const contractorMail = 'invented-pest.example'

/** One technician for about fourteen schools, two at least; one mender for about twenty-five. */
export function hireStaff(random: Random, names: NameMaker, sites: number): Staff {
  const hire = (role: string): Person => {
    const { id, name } = names.person()
    const outside = role === 'technician'
    return {
      id,
      name,
      email: `${id}@${outside ? contractorMail : districtMail}`,
      roles: outside ? ['technician', 'applicator'] : [role],
      employer: outside ? contractorName : districtName,
      phone: inventedPhone(random),
      ...(outside ? { licence: `AB-${wholeBetween(random, 1000, 9999)}` } : {}),
    }
  }
  const several = (role: string, count: number) => Array.from({ length: count }, () => hire(role))
  return {
    coordinator: hire('coordinator'),
    clerk: hire('clerk'),
    technicians: several('technician', Math.max(2, Math.ceil(sites / 14))),
    maintenance: several('maintenance', Math.max(1, Math.ceil(sites / 25))),
    grounds: hire('grounds'),
    hire,
  }
}

/** Licences run for two calendar years, from an even one; the renewal is entered in the December before. */
function licenceSpans(from: Day, day: Day): { from: Day; until: Day }[] {
  const first = dateOf(from).year
  const spans: { from: Day; until: Day }[] = []
  for (let even = first - (first % 2); dayOf(even, 1, 1) <= day + 31; even += 2) {
    spans.push({ from: dayOf(even, 1, 1), until: dayOf(even + 1, 12, 31) })
  }
  return spans
}

/** Days on which technicians' licences are renewed. */
export function isRenewalDay(day: Day): boolean {
  const { year, month, dayOfMonth: date } = dateOf(day)
  return year % 2 === 1 && month === 12 && date === 10
}

/** Days on which the yearly training of technicians is entered. */
export function isTrainingDay(day: Day): boolean {
  const { month, dayOfMonth: date } = dateOf(day)
  return month === 8 && date === 12
}

/** people/<id>.yaml as it stands on a day. */
export function personFile(person: Person, from: Day, day: Day, lateRenewals: ReadonlySet<string>): DemoFile {
  const record: YamlMap = {
    name: person.name,
    roles: person.roles,
    employer: person.employer,
    firm: person.licence === undefined ? undefined : contractorId,
    phone: person.phone,
    ...(person.licence === undefined ? {} : { licences: licences(person, from, day, lateRenewals) }),
    ...training(person, from, day),
  }
  return { path: `people/${person.id}.yaml`, text: mapText(record) }
}

function licences(person: Person, from: Day, day: Day, lateRenewals: ReadonlySet<string>): YamlMap {
  const spans = licenceSpans(from, day).map((span) => {
    const late = lateRenewals.has(`${person.id} ${dateOf(span.from).year}`)
    return { from: dateText(span.from + (late ? 24 : 0)), until: dateText(span.until) }
  })
  return {
    'state-commercial': {
      number: person.licence,
      state: 'OR',
      kind: 'commercial applicator, invented number',
      categories: ['structural', 'ornamental'],
      spans,
    },
  }
}

/** firms/<id>.yaml of the contractor as it stands on a day; its licence runs with those of its technicians. */
export function firmFile(from: Day, day: Day): DemoFile {
  const record: YamlMap = {
    name: contractorName,
    address: '4 Invented Road, Tarn Hollow',
    phone: '555-0100',
    licences: {
      'state-operator': {
        number: 'AB-7001',
        state: 'OR',
        kind: 'commercial operator, invented number',
        categories: ['structural', 'ornamental'],
        spans: licenceSpans(from, day).map((span) => ({
          from: dateText(span.from),
          until: dateText(span.until),
        })),
      },
    },
  }
  return { path: `firms/${contractorId}.yaml`, text: mapText(record) }
}

function training(person: Person, from: Day, day: Day): YamlMap {
  const first = dateOf(from).year - 1
  const taken: Record<string, YamlMap> = {}
  if (person.roles.includes('technician') || person.roles.includes('coordinator')) {
    for (let year = first; dayOf(year, 8, 12) <= day; year++) {
      taken[`ipm-${year}`] = {
        on: dateText(dayOf(year, 8, 12)),
        topic: 'Inspecting schools, least hazard first',
        course: 'school-ipm',
        hours: 3,
        until: dateText(dayOf(year + 1, 9, 30)),
      }
    }
  } else if (person.roles.includes('custodian')) {
    taken['trap-checks'] = {
      on: dateText(from - 20),
      topic: 'Checking traps by day, and droppings without dust',
      hours: 1,
    }
  } else return {}
  return { training: taken }
}
