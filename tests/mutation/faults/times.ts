import { dayOf, isoOf, weekdayOf } from '../../../src/measure/calendar.js'
import { addEvent, addVisit } from '../added.js'
import type { Draft } from '../draft.js'
import { copyOf, dataOf, listAt, mapAt, put, textAt } from '../draft.js'
import type { FaultKind } from '../fault.js'
import { reportedAt } from '../fault.js'
import type { EventFile } from '../site-records.js'
import { eventsOf, routineVisitsOf, siteFile, sitesOf, visitsOf } from '../site-records.js'

const inVisits = /^sites\/[^/]+\/visits\//

/** Times, ends and starts, and who can have been where. */
export const timeFaults: readonly FaultKind[] = [
  {
    name: 'a visit ends before it starts',
    expect: 'ends-before-it-starts',
    at: inVisits,
    make(draft, random) {
      const visit = random.pick(sitesOf(draft).flatMap((site) => routineVisitsOf(draft, site)))
      const [start, end] = (textAt(visit?.data, 'time') ?? '').split(' to ')
      if (!visit || start === undefined || end === undefined) return null
      put(draft, visit.file, ['time'], `${end} to ${start}`)
      return reportedAt(visit.file, 'time')
    },
  },
  {
    name: 'a contract ends before it begins',
    expect: 'ends-before-it-starts',
    at: /\/site\.yaml$/,
    make(draft, random) {
      const file = siteFile(random.pick(sitesOf(draft)) ?? '')
      const contract = listAt(dataOf(draft, file), 'contract')
      const from = dayOf(textAt(contract[0], 'from') ?? '')
      if (from === null) return null
      put(draft, file, ['contract', contract.length], {
        from: isoOf(from - 30),
        until: isoOf(from - 60),
        contractor: 'Invented Pest Services',
        'routine-visits': 'monthly',
      })
      return reportedAt(file, 'contract', contract.length, 'until')
    },
  },
  {
    name: 'a condition was to be mended before it was found',
    expect: 'ends-before-it-starts',
    at: inVisits,
    make(draft, random) {
      const entries = sitesOf(draft)
        .flatMap((site) => visitsOf(draft, site))
        .flatMap((visit) =>
          Object.entries(mapAt(visit.data, 'conditions')).map(([name, facts]) => ({ visit, name, facts })),
        )
      // One that is mended by now, so that nothing is late on the last day.
      const mended = entries.filter(
        ({ visit, name, facts }) =>
          textAt(facts, 'by') !== undefined &&
          textAt(facts, 'new') !== undefined &&
          isMended(draft, visit, name),
      )
      const entry = random.pick(mended)
      if (!entry) return null
      put(draft, entry.visit.file, ['conditions', entry.name, 'by'], isoOf(entry.visit.day - 1))
      return reportedAt(entry.visit.file, 'conditions', entry.name, 'by')
    },
  },
  {
    name: 'a closure ends before it begins',
    expect: 'ends-before-it-starts',
    at: /^district\.yaml$/,
    make(draft) {
      const years = listAt(dataOf(draft, 'district.yaml'), 'calendar')
      const year = years.length - 1
      const path = ['calendar', year, 'closed', 'spring-break']
      const [first, last] = (textAt(mapAt(years[year], 'closed'), 'spring-break') ?? '').split(' to ')
      if (first === undefined || last === undefined) return null
      put(draft, 'district.yaml', path, `${last} to ${first}`)
      return reportedAt('district.yaml', ...path)
    },
  },
  {
    name: 'a time is on no clock in the night the clock is set forward',
    expect: 'clock-time-not-there',
    at: inVisits,
    make(draft, random) {
      const day = sundayIn(draft, 3, 2)
      if (day === null) return null
      const site = random.pick(sitesOf(draft)) ?? ''
      const visit = addVisit(draft, site, day, 'callback', { time: '01:10 to 03:50' })
      const before = copyOf(draft)
      put(draft, visit, ['time'], '02:10 to 03:50')
      return { ...reportedAt(visit, 'time'), before }
    },
  },
  {
    name: 'a time states the offset of another zone',
    expect: 'clock-time-not-there',
    at: inVisits,
    make(draft, random) {
      const visit = random.pick(sitesOf(draft).flatMap((site) => routineVisitsOf(draft, site)))
      const [start, end] = (textAt(visit?.data, 'time') ?? '').split(' to ')
      if (!visit || start === undefined || end === undefined) return null
      put(draft, visit.file, ['time'], `${start}+02:00 to ${end}+02:00`)
      return reportedAt(visit.file, 'time')
    },
  },
  {
    name: 'a time is on the clock twice in the night it is set back',
    expect: 'clock-time-ambiguous',
    at: inVisits,
    make(draft, random) {
      const day = sundayIn(draft, 11, 1)
      if (day === null) return null
      const site = random.pick(sitesOf(draft)) ?? ''
      const visit = addVisit(draft, site, day, 'callback', { time: '00:10 to 02:40' })
      const before = copyOf(draft)
      put(draft, visit, ['time'], '01:10 to 02:40')
      return { ...reportedAt(visit, 'time'), before }
    },
  },
  {
    name: 'the time zone is misspelt',
    expect: 'unknown-time-zone',
    at: /^district\.yaml$/,
    make(draft) {
      put(draft, 'district.yaml', ['time-zone'], 'America/Los_Angels')
      return reportedAt('district.yaml', 'time-zone')
    },
  },
  {
    name: 'one person is in two buildings at once',
    expect: 'in-two-places',
    at: inVisits,
    make(draft, random) {
      const [here, there] = sitesOf(draft)
      if (here === undefined || there === undefined) return null
      const visit = random.pick(routineVisitsOf(draft, here))
      const who = textAt(visit?.data, 'by')
      const [start] = (textAt(visit?.data, 'time') ?? '').split(' to ')
      if (
        !visit ||
        who === undefined ||
        start === undefined ||
        eventsOn(draft, there, visit.day, who).length > 0
      )
        return null
      // A minute after the other began, so that it is the later of the two, and the only other of the day.
      if (eventsOn(draft, here, visit.day, who).length > 1) return null
      const fields = { purpose: 'callback', time: `${aMinuteAfter(start)} to 23:50` }
      return reportedAt(addEvent(draft, there, 'visits', visit.day, who, fields), 'time')
    },
  },
  {
    name: 'someone who took part was in another building',
    expect: 'in-two-places',
    at: inVisits,
    make(draft) {
      const [here, there] = sitesOf(draft)
      if (here === undefined || there === undefined) return null
      const day = draft.lastDay - 10
      const who = 'added-hand'
      draft.files.set(`people/${who}.yaml`, 'name: Invented Hand\nroles: [technician]\n')
      addVisit(draft, here, day, 'callback', { with: [who], time: '20:00 to 20:40' })
      const other = addVisit(draft, there, day, 'callback', { with: [who], time: '21:30 to 22:00' }, 'later')
      const before = copyOf(draft)
      put(draft, other, ['time'], '20:30 to 22:00')
      return { ...reportedAt(other, 'time'), before }
    },
  },
]

/** A Sunday of a month within the ledger: the clock is set on the second of March and the first of November. */
function sundayIn(draft: Draft, month: number, which: number): number | null {
  const begins = dayOf(textAt(dataOf(draft, 'district.yaml'), 'records-begin') ?? '') ?? draft.lastDay
  for (let day = begins + 7; day <= draft.lastDay; day++) {
    const [, m, d] = isoOf(day).split('-').map(Number)
    if (m === month && weekdayOf(day) === 7 && Math.ceil((d ?? 0) / 7) === which) return day
  }
  return null
}

function isMended(draft: Draft, visit: EventFile, name: string): boolean {
  const site = visit.file.split('/')[1] ?? ''
  const repaired = eventsOf(draft, site, 'repairs').some(
    ({ day, data }) => day >= visit.day && listAt(data, 'mends').includes(name),
  )
  const later = visitsOf(draft, site).filter(({ day }) => day > visit.day)
  const again = later.some(({ data }) => mapAt(data, 'conditions', name).still !== undefined)
  const closed = later.some(({ data }) => mapAt(data, 'conditions', name).closed !== undefined)
  return (repaired || closed) && !again
}

/** Visits and applications of one person at one site on one day. */
function eventsOn(draft: Draft, site: string, day: number, who: string): EventFile[] {
  return ['visits', 'applications']
    .flatMap((folder) => eventsOf(draft, site, folder))
    .filter((event) => event.day === day && textAt(event.data, 'by') === who)
}

function aMinuteAfter(time: string): string {
  const minutes = Number(time.slice(0, 2)) * 60 + Number(time.slice(3)) + 1
  const pair = (number: number) => String(number).padStart(2, '0')
  return `${pair(Math.floor(minutes / 60))}:${pair(minutes % 60)}`
}
