import { chance, pick, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { clockText, dateOf, dateText } from './days.js'
import { figures } from './figures.js'
import type { Site, World } from './world.js'
import { managerOf } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

/** Twice a year, in October and April, the custodian looks through the store. */
export function storageToday(world: World, site: Site, day: Day): void {
  const { month, dayOfMonth: date } = dateOf(day)
  if ((month !== 10 && month !== 4) || !world.calendar.isSchoolDay(day)) return
  if (site.setUp === undefined || day <= site.setUp) return
  const wanted = 3 + (site.number % 15)
  if (date < wanted || site.lastStorage === `${dateOf(day).year} ${month}`) return
  site.lastStorage = `${dateOf(day).year} ${month}`
  const { trouble } = world
  const items: Record<string, YamlMap> = {
    'gel-1': {
      product: 'gel-a',
      amount: `${wholeBetween(site.random, 5, 30)} g`,
      lot: `L-${`${dateOf(day).year}`.slice(2)}11`,
    },
    'ants-1': { product: 'ant-bait-c', amount: `${wholeBetween(site.random, 2, 12)} station` },
    'blocks-1': { product: 'block-x', amount: `${wholeBetween(site.random, 10, 60)} block` },
  }
  if (trouble.happens('unlabelled container', site.id, day, 'custodial-cupboard')) {
    items['can-1'] = { what: 'half a can of wasp spray, no label', unauthorized: 'yes' }
  }
  const locked = trouble.happens('store not locked', site.id, day, 'custodial-cupboard') ? 'no' : 'yes'
  const record: YamlMap = {
    by: site.custodian.id,
    places: { 'custodial-cupboard': { area: 'custodial', locked, ventilated: 'yes', items } },
  }
  world.commit(site.custodian, day, 760, `${site.name}: store looked through`, [
    { path: `sites/${site.id}/storage/${dateText(day)}-${site.custodian.id}.yaml`, text: mapText(record) },
  ])
}

const incidents = [
  {
    kind: 'sting',
    area: 'playground',
    what: 'one child stung near the benches',
    did: 'nurse told, benches closed off, technician called',
    people: 1,
    pest: 'yellowjacket',
  },
  {
    kind: 'non-target-catch',
    area: 'boiler',
    what: 'small lizard on a glue board, alive',
    did: 'freed with oil and let go outdoors; board moved behind the pipe',
    people: 0,
    pest: undefined,
  },
  {
    kind: 'other',
    area: 'dock',
    what: 'delivery cart ran over a sticky trap',
    did: 'trap thrown away, floor wiped',
    people: 0,
    pest: undefined,
  },
] as const

export function incidentToday(world: World, site: Site, day: Day): void {
  if (!world.calendar.isSchoolDay(day) || site.setUp === undefined || day <= site.setUp) return
  if (!chance(site.random, figures.incidentsPerYear / 180)) return
  const manager = managerOf(site, day)
  const incident = pick(site.random, incidents)
  const minute = wholeBetween(site.random, 500, 850)
  const record: YamlMap = {
    by: manager.id,
    kind: incident.kind,
    at: clockText(minute),
    area: incident.area,
    what: incident.what,
    people: incident.people,
    pest: incident.pest,
    did: incident.did,
    told: ['site manager', 'IPM coordinator'],
  }
  world.commit(manager, day, minute + 30, `${site.name}: incident`, [
    { path: `sites/${site.id}/incidents/${dateText(day)}-${manager.id}.yaml`, text: mapText(record) },
  ])
}
