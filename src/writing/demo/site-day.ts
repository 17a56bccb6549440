import { chance } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { complaintToday } from './complaints.js'
import { faultsArise, repairToday } from './conditions.js'
import { liveThroughDay } from './nature.js'
import { noticesToday } from './notified.js'
import { incidentToday, storageToday } from './oddments.js'
import { expectedMinutes } from './readings.js'
import { custodianToday } from './rounds.js'
import { setUpVisit } from './set-up.js'
import type { Person } from './staff.js'
import { visit } from './technician.js'
import type { Area, Site, Task, World } from './world.js'

/** One day at one site, from what lives there to who comes by. */
export function siteDay(world: World, site: Site, day: Day): void {
  faultsArise(site, day)
  liveThroughDay(site, day)
  custodianToday(world, site, day)
  technicianToday(world, site, day)
  noticesToday(world, site, day)
  repairToday(world, site, day)
  complaintToday(world, site, day)
  storageToday(world, site, day)
  incidentToday(world, site, day)
}

function technicianToday(world: World, site: Site, day: Day): void {
  if (site.setUp === undefined || day < site.setUp) return
  if (day === site.setUp) {
    setUpVisit(world, site, day)
    return
  }
  const routine = site.nextRoutine
  if (routine && routine.day === day) {
    site.nextRoutine = undefined
    const tasks = site.tasks.filter(
      (task) => task.due <= day && canDo(world, task, day, routine.from, routine.from + routine.minutes),
    )
    visit(world, site, { purpose: 'routine', ...routine, areas: site.areas, tasks, appliesNotified: false })
    return
  }
  if (!world.calendar.isWorkday(day)) return
  const notified = site.notified
  if (notified && notified.day === day) {
    const { who, from, minutes } = notified
    const tasks = site.tasks.filter(
      (task) => task.due <= day && canDo(world, task, day, from, from + minutes),
    )
    const areas = areasOf(site, tasks, [notified.area], day)
    visit(world, site, { purpose: 'follow-up', who, day, from, minutes, areas, tasks, appliesNotified: true })
    return
  }
  callToday(world, site, day)
}

/** Bait outside school hours, rounds in the morning before another school day, the rest at any time. */
function canDo(world: World, task: Task, day: Day, from: number, until: number): boolean {
  if (task.kind === 'start-round') {
    return from <= 690 && world.calendar.isSchoolDay(day) && world.calendar.isSchoolDay(day + 1)
  }
  return (task.kind !== 'gel' && task.kind !== 'ant-bait') || until <= 440 || from >= 950
}

function areasOf(site: Site, tasks: readonly Task[], more: readonly Area[], day: Day): Area[] {
  const wanted = new Set<Area>(more)
  for (const task of tasks) wanted.add(task.area)
  for (const complaint of site.complaints) if (complaint.day <= day) wanted.add(complaint.area)
  return site.areas.filter((area) => wanted.has(area))
}

/** A callback for a complaint, or a follow-up for whatever is due. */
function callToday(world: World, site: Site, day: Day): void {
  const called = site.complaints.some((complaint) => complaint.visitOn <= day)
  const due = site.tasks.filter((task) => task.due <= day)
  if (!called && due.length === 0) return
  const rounds = due.filter((task) => task.kind === 'start-round' && canDo(world, task, day, 360, 690))
  const baits = due.filter((task) => task.kind === 'gel' || task.kind === 'ant-bait')
  const rest = due.filter((task) => task.kind === 'check' || task.kind === 'plant-back')
  const [tasks, earliest, latest]: [Task[], number, number] =
    rounds.length > 0
      ? [[...rounds, ...rest], 365, 700]
      : baits.length > 0
        ? [[...baits, ...rest], 955, 1170]
        : [rest, 425, 1020]
  if (!called && tasks.length === 0) return
  const areas = areasOf(site, tasks, [], day)
  const minutes = 15 + expectedMinutes(site, areas)
  const found = findTechnician(world, site, day, earliest, latest, minutes)
  if (!found) return
  visit(world, site, {
    purpose: called ? 'callback' : 'follow-up',
    who: found.who,
    day,
    from: found.from,
    minutes,
    areas,
    tasks,
    appliesNotified: false,
  })
}

function findTechnician(
  world: World,
  site: Site,
  day: Day,
  earliest: number,
  latest: number,
  minutes: number,
): { readonly who: Person; readonly from: number } | undefined {
  const later = earliest + (chance(site.random, 0.5) ? 5 : 20)
  const others = world.staff.technicians.filter((technician) => technician !== site.technician)
  for (const who of [site.technician, ...others]) {
    const from = world.diary.find(who.id, day, later, latest, minutes)
    if (from !== undefined) return { who, from }
  }
  return undefined
}
