import { chance, pick, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { clockText, dateText } from './days.js'
import { setRecord, standDevice, wallSpot } from './devices.js'
import type { Draft } from './draft.js'
import { efficiency } from './efficiency.js'
import { pestModel } from './pests.js'
import type { Area, Complaint, Site, World } from './world.js'
import { managerOf } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

const words: Readonly<Record<string, readonly string[]>> = {
  'german-cockroach': ['small brown cockroach ran under the counter', 'cockroach beside the dish machine'],
  'american-cockroach': ['big cockroach by the floor drain'],
  'house-mouse': [
    'small black droppings in the paper drawer',
    'mouse ran along the wall',
    'gnawed cracker box',
  ],
  'norway-rat': ['rat seen at the wall before school', 'hole in the ground by the wall'],
  'odorous-house-ant': ['ants on the window sill', 'trail of ants to the bin', 'ants in the lunch shelf'],
  'pavement-ant': ['ants coming up between the tiles'],
  'house-fly': ['flies round the serving line'],
  'fruit-fly': ['tiny flies at the fruit basket'],
  'drain-fly': ['little grey flies on the wall'],
  'fungus-gnat': ['gnats round the plant'],
  silverfish: ['silverfish in the paper box'],
  spider: ['big spider in the corner'],
  yellowjacket: ['wasps at the bins during lunch', 'wasps round the benches'],
}

/** Days for which a second complaint from the same area asks for a trap there. */
const repeatDays = 61

/** A school day's complaints: at most one a site. Named by the site manager, who enters it. */
export function complaintToday(world: World, site: Site, day: Day): void {
  const { calendar, options } = world
  if (site.trial || site.setUp === undefined || day <= site.setUp || !calendar.isSchoolDay(day)) return
  const next = [day + 1, day + 2].find((later) => calendar.isSchoolDay(later))
  if (options.clean && (next === undefined || next > world.until)) return
  for (const now of site.series) {
    const model = pestModel(now.series.pestIndex)
    if (!chance(site.nature, Math.min(0.5, model.complained * now.rate))) continue
    const area = site.areas[now.series.areaIndex]
    if (!area) continue
    if (options.clean && hasRecent(site, area, day) && !watched(site, area, model.id)) continue
    complain(world, site, day, area, now.series.pestIndex, next ?? day + 3)
    return
  }
}

function hasRecent(site: Site, area: Area, day: Day): boolean {
  return site.pastComplaints.some((past) => past.area === area.id && day - past.day <= repeatDays)
}

function watched(site: Site, area: Area, pest: string): boolean {
  for (const device of site.devices.values()) {
    if (device.area === area && !device.pickedUp && pest in efficiency[device.kind]) return true
  }
  return false
}

function complain(world: World, site: Site, day: Day, area: Area, pest: number, next: Day): void {
  const manager = managerOf(site, day)
  const id = `${dateText(day)}-${manager.id}`
  const { trouble } = world
  const never = trouble.happens('complaint never answered', site.id, day, id)
  const late = trouble.happens('complaint answered late', site.id, day, id)
  const minute = wholeBetween(site.random, 490, 880)
  const model = pestModel(pest)
  const record: YamlMap = {
    by: manager.id,
    from: pick(site.random, ['staff', 'staff', 'staff', 'parent', 'pupil', 'visitor']),
    at: clockText(minute),
    area: area.id,
    pest: model.id,
    says: pick(site.random, words[model.id] ?? ['insects seen']),
  }
  site.pastComplaints.push({ day, area: area.id })
  if (!never) {
    const visitOn = late ? next + wholeBetween(site.random, 3, 15) : next
    site.complaints.push({ id, day, area, pest, visitOn })
  }
  world.commit(manager, day, minute + wholeBetween(site.random, 5, 60), `${site.name}: complaint`, [
    { path: `sites/${site.id}/complaints/${id}.yaml`, text: mapText(record) },
  ])
}

/** What a visit says to the complaints that wait: what was found, and a trap where none stands yet. */
export function answerComplaints(
  world: World,
  site: Site,
  draft: Draft,
  found: (complaint: Complaint) => number,
): void {
  for (const complaint of site.complaints) {
    const model = pestModel(complaint.pest)
    const animals = found(complaint)
    const seen = animals > 0 ? `found ${model.id.replaceAll('-', ' ')}, see actions` : 'nothing seen today'
    let more = 'traps there go on being read'
    if (!watched(site, complaint.area, model.id)) {
      more = setWatch(world, site, draft, complaint) ? 'trap set' : 'looked at again on the next visit'
    }
    draft.answers[complaint.id] = `${seen}; ${more}`
  }
  site.complaints.length = 0
}

function setWatch(world: World, site: Site, draft: Draft, complaint: Complaint): boolean {
  const { area, pest } = complaint
  const { id } = pestModel(pest)
  const kind = id === 'fungus-gnat' ? 'sticky-card' : 'sticky-trap'
  if (!(id in efficiency[kind]) || ['outdoors', 'playground', 'waste'].includes(area.kind)) return false
  const used = (site.names.get('X') ?? 0) + 1
  site.names.set('X', used)
  const device = standDevice(
    site,
    { id: `X${used}`, kind, area, at: wallSpot(area, 2 + used), for: [id], watches: true },
    draft.day,
  )
  draft.set[device.id] = setRecord(world, site, device, draft.day)
  return true
}
