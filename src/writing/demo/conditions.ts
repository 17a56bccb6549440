import { chance, pick, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { conditionTemplates } from './condition-templates.js'
import { dateOf, dateText, dayOf } from './days.js'
import { figures } from './figures.js'
import type { Person } from './staff.js'
import type { Area, Condition, Site, World } from './world.js'
import { unusedName } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

export function templateOf(condition: Condition) {
  const template = conditionTemplates[condition.template]
  if (!template) throw new RangeError(`no condition ${condition.template}`)
  return template
}

/** Faults come by themselves; nobody knows of them yet. */
export function faultsArise(site: Site, day: Day): void {
  const faded = site.fading.findIndex((fault) => fault.day <= day)
  if (faded >= 0) {
    for (const fault of site.fading.splice(faded, 1)) {
      shiftArea(site, fault.area, day, -1, `${fault.why} fades`)
    }
  }
  if (chance(site.nature, figures.faultsPerYear / 365))
    arise(site, wholeBetween(site.nature, 0, conditionTemplates.length - 1), day)
}

function arise(site: Site, template: number, day: Day, area?: Area): Condition | undefined {
  const facts = conditionTemplates[template]
  const places = area ? [area] : site.areas.filter((candidate) => facts?.where.includes(candidate.kind))
  if (!facts || places.length === 0) return undefined
  const place = pick(site.nature, places)
  const open = (other: Condition) =>
    other.state !== 'done' && other.template === template && other.area === place
  if (site.conditions.some(open)) return undefined
  const condition: Condition = {
    name: unusedName(site, facts.name),
    template,
    area: place,
    arose: day,
    state: 'unseen',
    due: undefined,
    quietly: false,
    repairOn: undefined,
    mended: undefined,
    foundOn: undefined,
  }
  site.conditions.push(condition)
  shiftArea(site, place, area ? day + 1 : day, 1, condition.name)
  return condition
}

/** A fault came (1) or its effect went (-1): the rates of the pests of its area change. */
function shiftArea(site: Site, area: Area, day: Day, sign: 1 | -1, why: string): void {
  for (const now of site.series) {
    if (now.series.areaIndex !== area.index) continue
    const log = sign * (site.trial ? (site.trial.pests[now.series.pest]?.fault ?? 0) : figures.faultLog)
    now.series.shifts.push({ from: day, log, why })
    now.baseNow *= Math.exp(log)
  }
}

/** A mouse or rat came in somewhere: the technician looks for the gap and finds one. */
export function findGap(site: Site, area: Area, day: Day): void {
  const template = conditionTemplates.findIndex(
    (candidate) => candidate.gives === 'entry' && candidate.where.includes(area.kind),
  )
  if (template < 0) return
  const known = site.conditions.some(
    (condition) =>
      condition.area === area && condition.state !== 'done' && templateOf(condition).gives === 'entry',
  )
  if (!known) arise(site, template, day, area)
}

/**
 * What one visit says of the conditions in the areas it inspected. Only routine visits look again at what was mended.
 */
export function inspectConditions(
  world: World,
  site: Site,
  day: Day,
  inspected: ReadonlySet<Area>,
  routine: boolean,
  sure: ReadonlySet<Area>,
  routineNextMonth: boolean,
): { readonly records: Record<string, YamlMap>; readonly advice: string[] } {
  const records: Record<string, YamlMap> = {}
  const advice: string[] = []
  for (const condition of site.conditions) {
    if (!inspected.has(condition.area)) continue
    const template = templateOf(condition)
    if (condition.state === 'unseen') {
      if (!sure.has(condition.area) && !chance(site.random, figures.faultSeen)) continue
      records[condition.name] = firstSeen(world, site, condition, day, routineNextMonth)
      advice.push(template.advice)
    } else if (condition.state === 'open' && routine && condition.quietly) {
      records[condition.name] = { closed: template.mended }
      condition.state = 'mended'
      condition.mended = day
      mend(site, condition, day)
    } else if (condition.state === 'open' && routine) {
      records[condition.name] = {
        still: pick(site.random, ['as before', 'waiting for parts', 'not yet done']),
      }
    } else if (condition.state === 'mended' && routine && condition.mended !== day) {
      if (world.trouble.happens('condition not looked at again', site.id, day, condition.name)) continue
      records[condition.name] = { holds: template.good }
      condition.state = 'done'
    }
  }
  return { records, advice }
}

function firstSeen(
  world: World,
  site: Site,
  condition: Condition,
  day: Day,
  routineNextMonth: boolean,
): YamlMap {
  const { trouble } = world
  const template = templateOf(condition)
  condition.foundOn = day
  const record = {
    new: template.says,
    area: condition.area.id,
    kind: template.kind,
    gives: template.gives,
  }
  const spot = template.owner === 'kitchen' || template.owner === 'teacher'
  if (spot && chance(site.random, figures.mendedOnTheSpot)) {
    condition.state = 'mended'
    condition.mended = day
    mend(site, condition, day)
    return { ...record, owner: template.owner, fixed: template.mended, by: dateText(day) }
  }
  condition.state = 'open'
  if (spot && routineNextMonth && chance(site.random, figures.mendedQuietly)) {
    condition.quietly = true
    condition.due = endOfNextMonth(day)
    return { ...record, owner: template.owner, by: dateText(condition.due) }
  }
  condition.due =
    day +
    (template.owner === 'maintenance' ? wholeBetween(site.random, 24, 42) : wholeBetween(site.random, 10, 21))
  const late = trouble.happens('condition mended late', site.id, day, condition.name)
  const days = late
    ? condition.due - day + wholeBetween(site.random, 6, 80)
    : wholeBetween(site.random, 1, condition.due - day - 4)
  if (!trouble.happens('condition never mended', site.id, day, condition.name))
    condition.repairOn = day + days
  return {
    ...record,
    owner: trouble.happens('condition without owner', site.id, day, condition.name)
      ? undefined
      : template.owner,
    by: trouble.happens('condition without date', site.id, day, condition.name)
      ? undefined
      : dateText(condition.due),
  }
}

function mend(site: Site, condition: Condition, day: Day): void {
  const helps = chance(site.nature, figures.repairHelps)
  const log = helps ? -figures.faultLog : 0
  if (helps) shiftArea(site, condition.area, day + 1, -1, `${condition.name} mended`)
  else {
    const later = day + wholeBetween(site.nature, 90, 270)
    site.fading.push({ day: later, area: condition.area, why: condition.name })
  }
  // In a trial what a repair does differs by pest and stands among the shifts of each series.
  if (!site.trial) site.truth.repairs.push({ day, condition: condition.name, area: condition.area.id, log })
}

/** Writes the repairs that are made today, one record for each person. */
export function repairToday(world: World, site: Site, day: Day): void {
  if (!world.calendar.isWorkday(day)) return
  const byPerson = new Map<Person, Condition[]>()
  for (const condition of site.conditions) {
    if (
      condition.state !== 'open' ||
      condition.quietly ||
      condition.repairOn === undefined ||
      condition.repairOn > day
    )
      continue
    if (condition.foundOn === day) continue
    const person = menderOf(world, site, condition)
    byPerson.set(person, [...(byPerson.get(person) ?? []), condition])
  }
  for (const [person, mended] of byPerson) {
    for (const condition of mended) {
      condition.state = 'mended'
      condition.mended = day
      mend(site, condition, day)
    }
    const first = mended[0]
    if (!first) continue
    const { owner } = templateOf(first)
    const openings: Record<string, string> = {}
    for (const condition of mended) {
      const { opening } = templateOf(condition)
      if (opening) openings[condition.area.id] = opening
    }
    const record: YamlMap = {
      by: person.id,
      mends: mended.map((condition) => condition.name),
      done: mended.map((condition) => templateOf(condition).mended).join('; '),
      area: first.area.id,
      owner,
      ...(owner === 'maintenance'
        ? {
            order: `WO-${wholeBetween(site.random, 100, 999)}`,
            cost: `${wholeBetween(site.random, 15, 240)} USD`,
          }
        : {}),
      openings: Object.keys(openings).length > 0 ? openings : undefined,
    }
    world.commit(person, day, wholeBetween(site.random, 840, 1000), `${site.name}: repair, ${first.name}`, [
      { path: `sites/${site.id}/repairs/${dateText(day)}-${person.id}.yaml`, text: mapText(record) },
    ])
  }
}

function menderOf(world: World, site: Site, condition: Condition): Person {
  const { owner } = templateOf(condition)
  const { staff } = world
  if (owner === 'maintenance')
    return staff.maintenance[site.number % staff.maintenance.length] ?? staff.coordinator
  return owner === 'grounds' ? staff.grounds : site.custodian
}

/** The last day of the month after a day. */
function endOfNextMonth(day: Day): Day {
  const { year, month } = dateOf(day)
  return dayOf(year, month + 2, 1) - 1
}
