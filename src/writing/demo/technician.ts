import { chance, pick } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { answerComplaints } from './complaints.js'
import { inspectConditions } from './conditions.js'
import { firstOfNextMonth } from './days.js'
import { firstCatchers, moveDevice, setRecord } from './devices.js'
import type { Draft } from './draft.js'
import { emptyDraft } from './draft.js'
import { figures } from './figures.js'
import { fileVisit } from './filing.js'
import type { Findings } from './findings.js'
import { answerFindings, findingOf, lookRound, noteSweepings } from './findings.js'
import { applyNotified } from './notified.js'
import { pestIndex } from './pests.js'
import { lookAt, renewedReading } from './readings.js'
import { snapReading, startRound } from './rounds.js'
import { hasRoutineIn } from './routine.js'
import type { Person } from './staff.js'
import { applyBait, mayTreat, takeEffect } from './treatments.js'
import type { Area, Device, Site, Task, World } from './world.js'
import { managerOf } from './world.js'

export interface Call {
  readonly purpose: 'routine' | 'callback' | 'follow-up'
  readonly who: Person
  readonly day: Day
  readonly from: number
  readonly minutes: number
  readonly areas: readonly Area[]
  readonly tasks: readonly Task[]
  readonly appliesNotified: boolean
}

/** One visit of a technician: reads, looks round, acts, answers, and commits the record. */
export function visit(world: World, site: Site, call: Call): void {
  const routine = call.purpose === 'routine'
  const remark =
    routine && chance(site.random, 0.3)
      ? pick(site.random, [
          'walked from the dock to the playground',
          'custodian let us in',
          `${site.name}, monthly service`,
        ])
      : undefined
  const draft = emptyDraft(call.purpose, call.who, call.day, call.from, call.minutes, remark)
  enterAreas(world, site, draft, call)
  const findings: Findings = new Map()
  readDevices(world, site, draft, findings, routine)
  lookRound(world, site, draft, findings)
  if (routine) noteSweepings(site, draft)
  if (call.appliesNotified) applyNotified(world, site, draft)
  doTasks(world, site, draft, call.tasks, findings)
  answerFindings(world, site, draft, findings)
  answerComplaints(world, site, draft, (complaint) => {
    const finding = findings.get(`${complaint.area.index} ${complaint.pest}`)
    return finding ? finding.animals + finding.seen : 0
  })
  lookAtConditions(world, site, draft, findings, routine)
  meetPeople(world, site, draft, routine)
  if (routine) {
    moveSome(world, site, draft)
    for (const device of firstCatchers(world, site, draft.day)) {
      draft.set[device.id] = setRecord(world, site, device, draft.day)
      draft.changesSite = true
    }
    advise(site, draft)
  }
  fileVisit(world, site, draft, routine)
}

function enterAreas(world: World, site: Site, draft: Draft, call: Call): void {
  const routine = call.purpose === 'routine'
  for (const area of call.areas) {
    if (routine && world.trouble.happens('area left out', site.id, draft.day, area.id)) continue
    if (routine && world.trouble.happens('area not entered', site.id, draft.day, area.id)) {
      draft.noEntry[area.id] = pick(site.random, ['no key', 'locked, no one there', 'class in session'])
    } else draft.inspected.push(area)
  }
}

function readDevices(world: World, site: Site, draft: Draft, findings: Findings, routine: boolean): void {
  for (const device of site.devices.values()) {
    if (device.pickedUp || !draft.inspected.includes(device.area)) continue
    if (device.kind === 'snap-trap') {
      readSnap(site, draft, device, findings)
      continue
    }
    if (!routine && !mattersNow(device, draft)) continue
    const look = lookAt(world, site, device, draft.day)
    if (!look) continue
    if (look.reading) draft.readings[device.id] = look.reading
    else draft.none.push(device.id)
    for (const [pest, animals] of look.caught) {
      const finding = findingOf(findings, device.area, pest)
      finding.animals += animals
      const week = (7 * animals) / Math.max(1, look.nights) / device.traps
      finding.mostPerTrapWeek = Math.max(finding.mostPerTrapWeek, week)
      if (look.bait > 0) takeEffect(site, device.area, pest, 'blocks', draft.day)
    }
    if (device.watches && routine) endWatch(site, draft, device, look.caught.size > 0)
  }
}

/** Between routine visits only traps are read, not stations or plant cards. */
function mattersNow(device: Device, draft: Draft): boolean {
  return device.lastRead < draft.day && device.kind !== 'bait-station' && device.kind !== 'termite-station'
}

function readSnap(site: Site, draft: Draft, device: Device, findings: Findings): void {
  if (device.set === draft.day) return
  const reading = snapReading(site, device, draft.day, false)
  if (!reading) {
    draft.none.push(device.id)
    return
  }
  draft.readings[device.id] = reading
  const pest = device.draws[0]?.pest
  const caught = device.for?.[0] === undefined ? 0 : Number(reading[device.for[0]]) || 0
  if (pest !== undefined && caught > 0) findingOf(findings, device.area, pest).animals += caught
}

/** A trap that watched a complaint is taken up after three checks with nothing. */
function endWatch(site: Site, draft: Draft, device: Device, caught: boolean): void {
  device.quietChecks = caught ? 0 : device.quietChecks + 1
  if (device.quietChecks < 3) return
  draft.takenUp[device.id] = 'nothing in three checks'
  site.devices.delete(device.id)
}

function doTasks(world: World, site: Site, draft: Draft, tasks: readonly Task[], findings: Findings): void {
  for (const task of tasks) {
    if (!draft.inspected.includes(task.area) || !doTask(world, site, draft, task, findings)) continue
    const left = site.tasks.indexOf(task)
    if (left >= 0) site.tasks.splice(left, 1)
  }
}

/** Does one thing that was due; false when it has to wait for another visit. */
function doTask(world: World, site: Site, draft: Draft, task: Task, findings: Findings): boolean {
  switch (task.kind) {
    case 'check':
      lookAgain(site, draft, task, findings)
      return true
    case 'start-round':
      if (!site.round) startRound(world, site, draft, task.area, task.pest)
      return true
    case 'plant-back':
      draft.plants[task.plant] = {
        area: task.area.id,
        sprayed: 'contractor yard, off the property',
        product: 'soap-f',
        dry: draft.by.id,
        returned: 'back at its place, on a dry saucer',
      }
      return true
    default:
      return applyBait(world, site, draft, task.kind, task.area, task.pest, task.attempt)
  }
}

/** After a treatment the traps are read again; a catch asks for another attempt, three at most. */
function lookAgain(
  site: Site,
  draft: Draft,
  task: Extract<Task, { kind: 'check' | 'gel' | 'ant-bait' }>,
  findings: Findings,
): void {
  const finding = findings.get(`${task.area.index} ${task.pest}`)
  const animals = finding ? finding.animals + finding.seen : 0
  if (animals === 0) draft.notes.push(`no catch since the treatment in ${task.area.name.toLowerCase()}`)
  else if (task.attempt < 3 && mayTreat(site, task.area, task.pest)) {
    const ants = task.pest === antIndex
    site.tasks.push({
      kind: ants ? 'ant-bait' : 'gel',
      due: draft.day + 2,
      area: task.area,
      pest: task.pest,
      attempt: task.attempt + 1,
    })
  }
}

const antIndex = pestIndex.get('odorous-house-ant')

function lookAtConditions(
  world: World,
  site: Site,
  draft: Draft,
  findings: Findings,
  routine: boolean,
): void {
  const sure = new Set(
    [...findings.values()]
      .filter((finding) => finding.animals + finding.seen > 0)
      .map((finding) => finding.area),
  )
  const { records, advice } = inspectConditions(
    world,
    site,
    draft.day,
    new Set(draft.inspected),
    routine,
    sure,
    hasRoutineIn(world, site, firstOfNextMonth(draft.day)),
  )
  draft.conditions = records
  draft.advice.push(...advice)
}

function meetPeople(world: World, site: Site, draft: Draft, routine: boolean): void {
  const { trouble } = world
  const luck = site.random.next()
  const met = luck < 0.7 ? managerOf(site, draft.day).id : luck < 0.85 ? 'designee' : 'left word'
  if (routine || luck < 0.5) draft.siteManager = met
  if (routine || draft.purpose === 'callback') draft.complaintLog = 'read'
  if (!routine) return
  if (trouble.happens('site manager not named', site.id, draft.day)) draft.siteManager = undefined
  if (trouble.happens('complaint log not read', site.id, draft.day)) {
    draft.complaintLog = chance(site.random, 0.4) ? 'not found' : undefined
  }
  draft.withoutTime = trouble.happens('visit without time', site.id, draft.day)
}

const usualAdvice = [
  'empty the classroom bins nightly',
  'keep the dock door shut between deliveries',
  'pull the fryer out and clean behind it before the break',
  'no cartons on the kitchen floor overnight',
  'brush the floor drains on Friday',
  'lids shut on the dumpsters after every bag',
  'food in lidded boxes only in the classrooms',
  'hang mops head down to dry',
]

const usualNotes = [
  'custodian told of the open door at the dock',
  'kitchen staff asked about ants, none seen',
  'two boards had been moved by the cleaners and were put back',
  'new floor cleaner in use since last month',
  'door closer of the dock runs slowly',
  'boiler room swept since the last visit',
]

/** What every service report ends with: advice to the site manager, and whatever else was worth a line. */
function advise(site: Site, draft: Draft): void {
  draft.advice.push(pick(site.random, usualAdvice), pick(site.random, usualAdvice))
  if (chance(site.random, 0.5)) draft.notes.push(pick(site.random, usualNotes))
}

/** Now and then a board is moved along its wall, after it was read and renewed. */
function moveSome(world: World, site: Site, draft: Draft): void {
  for (const device of site.devices.values()) {
    if (device.kind !== 'sticky-trap' || device.lastRead !== draft.day) continue
    if (!chance(site.random, (site.trial ?? figures).moved)) continue
    const reading = draft.readings[device.id]
    const listed = draft.none.indexOf(device.id)
    if (!reading && listed < 0) continue
    if (site.trial?.renewed !== false) {
      if (listed >= 0) draft.none.splice(listed, 1)
      draft.readings[device.id] = renewedReading(
        { reading: reading ?? null, caught: new Map(), nights: 0, bait: 0 },
        device,
        site,
      )
    }
    draft.moved[device.id] = moveDevice(world, site, device, draft.day, site.random)
  }
}
