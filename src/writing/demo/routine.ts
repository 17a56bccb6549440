import { chance, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateOf, dayOf } from './days.js'
import { figures } from './figures.js'
import { expectedMinutes } from './readings.js'
import type { Person } from './staff.js'
import type { Site, World } from './world.js'

/** Starts of the morning stretches in which routine visits are made, in minutes after midnight. */
const starts = [360, 465, 570, 675, 780, 885]
/** Days of a month on which a routine visit can be made: school days, or in a month without any, workdays. */
function routineDays(world: World, site: Site, month: Day): Day[] {
  const days: Day[] = []
  const after = Math.max(month, (site.setUp ?? world.from) + 1)
  const { year, month: number } = dateOf(month)
  const end = dayOf(year, number + 1, 1)
  let school = false
  for (let day = month; day < end; day++) if (world.calendar.isSchoolDay(day)) school = true
  if (!school && !site.inRecess) return days
  for (let day = after; day < end; day++) {
    if (school ? world.calendar.isSchoolDay(day) : world.calendar.isWorkday(day)) days.push(day)
  }
  return days
}

export function hasRoutineIn(world: World, site: Site, month: Day): boolean {
  return routineDays(world, site, month).length > 0
}

/** Plans the month's routine visit of every site: each keeps to its part of the month, give or take some days. */
export function planMonth(world: World, sites: readonly Site[], month: Day): void {
  for (const site of sites) {
    site.nextRoutine = undefined
    const days = routineDays(world, site, month)
    if (days.length === 0) continue
    if (world.trouble.happens('visit missed', site.id, month)) continue
    const phase = ((site.number * 0.618034) % 1) * days.length
    const wanted = Math.floor(phase) + wholeBetween(site.random, -2, 2)
    const minutes = expectedMinutes(site, site.areas)
    const who = chance(site.random, figures.standsIn) ? another(world, site) : site.technician
    site.nextRoutine =
      findDay(world, site, days, wanted, who, minutes) ??
      world.staff.technicians
        .map((technician) => findDay(world, site, days, wanted, technician, minutes))
        .find((found) => found !== undefined)
  }
}

function another(world: World, site: Site): Person {
  const { technicians } = world.staff
  return technicians[wholeBetween(site.random, 0, technicians.length - 1)] ?? site.technician
}

function findDay(
  world: World,
  site: Site,
  days: readonly Day[],
  wanted: number,
  who: Person,
  minutes: number,
): Site['nextRoutine'] {
  for (let distance = 0; distance < days.length; distance++) {
    for (const index of distance === 0 ? [wanted] : [wanted + distance, wanted - distance]) {
      const day = days[Math.min(days.length - 1, Math.max(0, index))]
      if (day === undefined || site.notified?.day === day) continue
      for (const start of starts) {
        const from = start + wholeBetween(site.random, -8, 8)
        if (world.diary.book(who.id, day, from, minutes)) return { day, who, from, minutes }
      }
    }
  }
  return undefined
}
