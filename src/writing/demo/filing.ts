import { chance, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateText, hoursText } from './days.js'
import type { Draft } from './draft.js'
import { visitFile } from './draft.js'
import { figures } from './figures.js'
import { siteFile } from './site-file.js'
import { specimenOf } from './specimens.js'
import type { Site, World } from './world.js'

/** Commits a technician's visit with everything that belongs to it. */
export function fileVisit(world: World, site: Site, draft: Draft, routine: boolean): void {
  const { staff, trouble } = world
  site.lastVisit = { day: draft.day, who: draft.by.id }
  const message = `${site.name}: ${draft.purpose} visit`
  specimenOf(world, site, draft)
  if (
    routine &&
    !draft.changesSite &&
    draft.more.length === 0 &&
    chance(site.random, figures.typedFromPaper)
  ) {
    draft.typedBy = staff.clerk
    const day = workdayAfter(world, draft.day, wholeBetween(site.random, 1, 6))
    world.commit(staff.clerk, day, 700 + wholeBetween(site.random, 0, 200), `${message}, typed from paper`, [
      visitFile(site, draft),
    ])
    return
  }
  const end = draft.from + draft.minutes
  const files = [visitFile(site, draft), ...draft.more, ...(draft.changesSite ? [siteFile(site)] : [])]
  const stated = !draft.withoutTime && draft.more.length === 0 && chance(site.random, figures.corrected)
  const silent = !stated && trouble.happens('silent edit of a committed visit', site.id, draft.day)
  if (!stated && !silent) {
    world.commit(draft.by, draft.day, Math.min(1430, end + wholeBetween(site.random, 2, 40)), message, files)
    return
  }
  const mistyped = visitFile(site, draft, { time: hoursText(draft.from, end - 5) })
  world.commit(draft.by, draft.day, Math.min(1430, end + 10), message, [mistyped, ...files.slice(1)])
  const day = workdayAfter(world, draft.day, wholeBetween(site.random, 2, 8))
  if (day > world.until) return
  const corrections = [
    { on: dateText(day), by: draft.by.id, why: 'left later than first written', keys: ['time'] },
  ]
  world.commit(draft.by, day, 720, `${site.name}: time of a visit corrected`, [
    visitFile(site, draft, stated ? { corrections } : {}),
  ])
}

function workdayAfter(world: World, day: Day, days: number): Day {
  let later = day + days
  while (!world.calendar.isWorkday(later)) later++
  return later
}
