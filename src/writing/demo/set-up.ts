import type { Day } from '../../types.js'
import { firstCatchers, firstDevices, setRecord } from './devices.js'
import { emptyDraft } from './draft.js'
import { fileVisit } from './filing.js'
import type { Site, World } from './world.js'
import { managerOf } from './world.js'

const minutes = 150
const earliest = 400
const latest = 990

/** Books the set-up visit of every site: two or three a day for each technician, from the first workday on. */
export function planSetUps(world: World, sites: readonly Site[]): void {
  for (const site of sites) {
    for (let day = world.from; ; day++) {
      if (!world.calendar.isWorkday(day)) continue
      const from = world.diary.find(site.technician.id, day, earliest, latest, minutes)
      if (from === undefined) continue
      site.setUp = day
      site.setUpFrom = from
      break
    }
  }
}

/** The visit that sets every device with all that can be said of its place. */
export function setUpVisit(world: World, site: Site, day: Day): void {
  const draft = emptyDraft(
    'set-up',
    site.technician,
    day,
    site.setUpFrom,
    minutes,
    `${site.name}: devices set for the first time`,
  )
  draft.inspected.push(...site.areas)
  draft.siteManager = managerOf(site, day).id
  draft.complaintLog = 'read'
  for (const device of [...firstDevices(site, site.random, day), ...firstCatchers(world, site, day)]) {
    draft.set[device.id] = setRecord(world, site, device, day)
  }
  draft.changesSite = true
  fileVisit(world, site, draft, false)
}
