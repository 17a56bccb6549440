import { dayOf, isoOf } from '../../../src/measure/calendar.js'
import type { Draft } from '../draft.js'
import { dataOf, listAt, mapAt, put, rename, renameKey, take, textAt } from '../draft.js'
import type { FaultKind, Random } from '../fault.js'
import { reportedAt, reportedAtKey, reportedAtLine } from '../fault.js'
import type { EventFile } from '../site-records.js'
import { eventsOf, lastRoutineVisit, sitesOf, visitsOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//
const inApplications = /^sites\/[^/]+\/applications\//

/** Faults of a single record: keys, shapes, counts, dates, names of files. */
export const readingFaults: readonly FaultKind[] = [
  {
    name: 'a key is misspelt',
    expect: 'unknown-key',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      renameKey(draft, visit.file, ['complaint-log'], 'complaint-lgo')
      return reportedAtKey(visit.file, 'complaint-lgo')
    },
  },
  {
    name: 'a key of another kind of record is used',
    expect: 'unknown-key',
    at: inVisits,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      put(draft, visit.file, ['lot'], 'L-2211')
      return reportedAtKey(visit.file, 'lot')
    },
  },
  {
    name: 'a key inside a set device is misspelt',
    expect: 'unknown-key',
    also: { 'placement-not-recorded': 'what stood under the key is not recorded under any that is known' },
    at: inVisits,
    make(draft, random) {
      const sets = allVisits(draft).flatMap((visit) =>
        Object.entries(mapAt(visit.data, 'set')).map(([device, facts]) => ({ visit, device, facts })),
      )
      const set = random.pick(sets.filter(({ facts }) => mapAt(facts)['within-reach'] !== undefined))
      if (!set) return null
      renameKey(draft, set.visit.file, ['set', set.device, 'within-reach'], 'in-reach')
      return reportedAtKey(set.visit.file, 'set', set.device, 'in-reach')
    },
  },
  {
    name: 'one area stands where a list belongs',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      const area = listAt(visit?.data, 'inspected')[0]
      if (!visit || area === undefined) return null
      put(draft, visit.file, ['inspected'], area)
      return reportedAt(visit.file, 'inspected')
    },
  },
  {
    name: 'a purpose is none that there is',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = random.pick(allVisits(draft))
      if (!visit) return null
      put(draft, visit.file, ['purpose'], 'inspection')
      return reportedAt(visit.file, 'purpose')
    },
  },
  {
    name: 'a visit has no purpose',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = random.pick(allVisits(draft))
      if (!visit) return null
      take(draft, visit.file, ['purpose'])
      return reportedAtLine(visit.file, 1)
    },
  },
  {
    name: 'a time is written with a point',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = random.pick(allVisits(draft))
      const time = textAt(visit?.data, 'time')
      if (!visit || time === undefined) return null
      put(draft, visit.file, ['time'], time.replaceAll(':', '.'))
      return reportedAt(visit.file, 'time')
    },
  },
  {
    name: 'a yes is written as true',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      for (const visit of random.shuffled(allVisits(draft))) {
        for (const [device, reading] of Object.entries(mapAt(visit.data, 'readings'))) {
          if (mapAt(reading).renewed === undefined) continue
          // The type of a parsed record has no room for what no record may hold.
          put(draft, visit.file, ['readings', device, 'renewed'], true as unknown as string)
          return reportedAt(visit.file, 'readings', device, 'renewed')
        }
      }
      return null
    },
  },
  {
    name: 'an amount has a unit of length',
    expect: 'shape',
    at: inApplications,
    unchecked: true,
    make(draft, random) {
      const application = random.pick(
        sitesOf(draft)
          .flatMap((site) => eventsOf(draft, site, 'applications'))
          .filter(({ data }) => data.amount !== undefined),
      )
      const amount = textAt(application?.data, 'amount')
      if (!application || amount === undefined) return null
      put(draft, application.file, ['amount'], `${amount.split(' ')[0]} ft`)
      return reportedAt(application.file, 'amount')
    },
  },
  {
    name: 'a day is written the American way',
    expect: 'shape',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = lastRoutineVisit(draft, random)
      if (!visit) return null
      const [year, month, day] = isoOf(visit.day).split('-')
      put(draft, visit.file, ['on-paper'], `${month}/${day}/${year}`)
      return reportedAt(visit.file, 'on-paper')
    },
  },
  {
    name: 'a count is below zero',
    expect: 'impossible-count',
    at: inVisits,
    unchecked: true,
    make: otherCount(-2),
  },
  {
    name: 'a count is one half',
    expect: 'impossible-count',
    at: inVisits,
    unchecked: true,
    make: otherCount(0.5),
  },
  {
    name: 'a paper page was filled in on 30 February',
    expect: 'impossible-date',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = random.pick(allVisits(draft))
      if (!visit) return null
      put(draft, visit.file, ['on-paper'], `${isoOf(visit.day).slice(0, 4)}-02-30`)
      return reportedAt(visit.file, 'on-paper')
    },
  },
  {
    name: 'the school year ends on 31 June',
    expect: 'impossible-date',
    at: /^district\.yaml$/,
    unchecked: true,
    make(draft) {
      const years = listAt(dataOf(draft, 'district.yaml'), 'calendar')
      const path = ['calendar', years.length - 1, 'until']
      put(draft, 'district.yaml', path, `${textAt(years.at(-1), 'until')?.slice(0, 4)}-06-31`)
      return reportedAt('district.yaml', ...path)
    },
  },
  {
    name: 'the name of a file holds a day that is in no calendar',
    expect: 'impossible-date',
    at: inVisits,
    unchecked: true,
    make(draft, random) {
      const visit = quietVisit(draft, random)
      if (!visit) return null
      const file = visit.file.replace(/\/\d{4}-\d\d-\d\d-/, `/${isoOf(visit.day).slice(0, 4)}-02-31-`)
      rename(draft, visit.file, file)
      return reportedAtLine(file, 1)
    },
  },
  {
    name: 'a visit is saved in a folder that is none',
    expect: 'stray-file',
    at: /\/vists\//,
    unchecked: true,
    make: moveVisit((file) => file.replace('/visits/', '/vists/')),
  },
  {
    name: 'a visit is saved as .yml',
    expect: 'stray-file',
    at: inVisits,
    unchecked: true,
    make: moveVisit((file) => file.replace(/\.yaml$/, '.yml')),
  },
  {
    name: 'a visit is named without its day',
    expect: 'stray-file',
    at: inVisits,
    unchecked: true,
    make: moveVisit((file) => file.replace(/\/\d{4}-\d\d-\d\d-/, '/')),
  },
  {
    name: 'a visit lies beside its site, not in it',
    expect: 'stray-file',
    at: /^sites\//,
    unchecked: true,
    make: moveVisit((file) => file.replace(/^sites\/[^/]+\/visits\//, 'sites/')),
  },
  {
    name: 'a visit is dated into next week',
    expect: 'date-in-future',
    at: inVisits,
    make(draft, random) {
      const visit = quietVisit(draft, random)
      if (!visit) return null
      const file = visit.file.replace(/\/\d{4}-\d\d-\d\d-/, `/${isoOf(draft.lastDay + 5)}-`)
      rename(draft, visit.file, file)
      return reportedAtLine(file, 1)
    },
  },
]

function allVisits(draft: Draft): EventFile[] {
  return sitesOf(draft).flatMap((site) => visitsOf(draft, site))
}

/** A visit that only says that traps were empty, long enough ago that later ones say so too. */
export function quietVisit(draft: Draft, random: Random): EventFile | undefined {
  const keys = ['purpose', 'by', 'time', 'readings']
  return random.pick(
    allVisits(draft).filter(
      ({ day, data }) =>
        day < draft.lastDay - 40 &&
        day > (dayOf(textAt(dataOf(draft, 'district.yaml'), 'records-begin') ?? '') ?? day) &&
        Object.keys(data).every((key) => keys.includes(key)) &&
        Object.keys(mapAt(data, 'readings')).every((key) => key === 'none'),
    ),
  )
}

function moveVisit(where: (file: string) => string): FaultKind['make'] {
  return (draft, random) => {
    const visit = quietVisit(draft, random)
    if (!visit) return null
    const file = where(visit.file)
    rename(draft, visit.file, file)
    return reportedAtLine(file, 1)
  }
}

function otherCount(count: number): FaultKind['make'] {
  return (draft, random) => {
    for (const visit of random.shuffled(allVisits(draft))) {
      for (const [device, reading] of Object.entries(mapAt(visit.data, 'readings'))) {
        const pest = Object.entries(mapAt(reading)).find(([, value]) => typeof value === 'number')?.[0]
        if (pest === undefined || pest === 'other-count') continue
        put(draft, visit.file, ['readings', device, pest], count)
        return reportedAt(visit.file, 'readings', device, pest)
      }
    }
    return null
  }
}
