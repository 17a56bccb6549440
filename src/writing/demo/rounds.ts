import { weekdayOf } from '../../measure/calendar.js'
import { binomial, chance, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { drawFromNow, setRecord, standDevice } from './devices.js'
import type { Draft } from './draft.js'
import { addAction, emptyDraft, visitFile } from './draft.js'
import { figures } from './figures.js'
import { pestModel } from './pests.js'
import { runningInfestation, turnToGrowth } from './rates.js'
import { clear, drawn } from './readings.js'
import { siteFile } from './site-file.js'
import { seriesAt, takeEffect } from './treatments.js'
import type { Area, Corner, Device, Site, World } from './world.js'
import { unusedName } from './world.js'
import type { YamlMap } from './yaml.js'

/** Sets a round of snap traps along one wall: every 8 ft for mice, every 15 ft for rats. */
export function startRound(world: World, site: Site, draft: Draft, area: Area, pest: number): void {
  const { id } = pestModel(pest)
  const step = id === 'norway-rat' ? 15 : 8
  const [left, top, right] = area.box
  const count = Math.min(5, Math.floor((right - left - 4) / step) + 1)
  const traps = chance(site.random, 0.3) ? 2 : 1
  const devices: Device[] = []
  for (let number = 0; number < count; number++) {
    const at: Corner = [left + 2 + step * number, top + 1]
    const name = `S${nextNumber(site, 'S')}`
    const device = standDevice(site, { id: name, kind: 'snap-trap', area, at, for: [id], traps }, draft.day)
    draft.set[name] = setRecord(world, site, device, draft.day)
    devices.push(device)
  }
  const run = unusedName(site, `${area.id}-wall`)
  site.runs.set(run, {
    along: `north wall of ${area.name.toLowerCase()}`,
    devices: devices.map((device) => device.id),
    active: [{ from: draft.day }],
  })
  const action = addAction(draft, unusedName(site, `round-${area.id}`), {
    did: `${count * traps} snap traps set along the wall, checked every day`,
    tactic: 'trapping',
    why: 'corrective',
    area: area.id,
    pest: id,
    until: `${figures.quietNightsToEnd} nights without a catch`,
  })
  site.round = {
    run,
    area,
    pest,
    devices,
    from: draft.day,
    action,
    quietNights: 0,
    nights: 0,
    out: true,
  }
  draft.changesSite = true
  takeEffect(site, area, pest, 'trapping', draft.day)
}

function nextNumber(site: Site, letter: string): number {
  const used = (site.names.get(letter) ?? 0) + 1
  site.names.set(letter, used)
  return used
}

/** The custodian's short visit: traps of a round every day, multiple-catch traps every week. */
export function custodianToday(world: World, site: Site, day: Day): void {
  const { calendar } = world
  if (site.setUp === undefined || day <= site.setUp) return
  const draft = emptyDraft('trap-check', site.custodian, day, wholeBetween(site.random, 350, 385), 8)
  const before = !calendar.isSchoolDay(day + 1)
  roundToday(world, site, draft, before)
  if (calendar.isSchoolDay(day)) catchersToday(world, site, draft, before)
  const written = draft.none.length > 0 || Object.keys(draft.readings).length > 0 || draft.putOut.length > 0
  if (!written) return
  draft.minutes = 6 + wholeBetween(site.random, 0, 9)
  const files = [visitFile(site, draft), ...draft.more, ...(draft.changesSite ? [siteFile(site)] : [])]
  world.commit(
    site.custodian,
    day,
    draft.from + 60 + wholeBetween(site.random, 0, 200),
    `${site.name}: trap check`,
    files,
  )
}

function roundToday(world: World, site: Site, draft: Draft, lastBefore: boolean): void {
  const { round } = site
  const { day } = draft
  if (!round || day === round.from || !world.calendar.isSchoolDay(day)) return
  if (!round.out) {
    if (!lastBefore) putOutRound(site, draft)
    return
  }
  if (world.trouble.happens('daily check missed', site.id, day, round.run)) return
  const leave = lastBefore && world.trouble.happens('traps left set over a break', site.id, day, round.run)
  const nights = day - (round.devices[0]?.lastRead ?? day)
  round.nights += nights
  const caught = readRound(site, draft, lastBefore && !leave)
  round.quietNights = caught > 0 ? 0 : round.quietNights + nights
  const yearEnds = lastBefore && !world.calendar.isSchoolDay(day + 4) && !world.calendar.isSchoolDay(day + 20)
  const quiet = round.nights >= figures.leastNights && round.quietNights >= figures.quietNightsToEnd
  if (quiet || round.nights >= figures.mostNights || yearEnds) endRound(site, draft, quiet)
  else if (lastBefore && !leave) {
    round.out = false
    draft.pickedUp.push(...round.devices.map((device) => device.id))
    for (const device of round.devices) device.pickedUp = true
  }
}

function putOutRound(site: Site, draft: Draft): void {
  const { round } = site
  if (!round) return
  round.out = true
  for (const device of round.devices) {
    device.pickedUp = false
    device.lastRead = draft.day
    drawFromNow(site, device)
    draft.putOut.push(device.id)
  }
}

/** Reads snap traps; each catch is taken off, and the trap set again or, before a break, emptied. */
function readRound(site: Site, draft: Draft, pickUp: boolean): number {
  const { round } = site
  let caught = 0
  for (const device of round?.devices ?? []) {
    const reading = snapReading(site, device, draft.day, pickUp)
    if (reading) draft.readings[device.id] = reading
    else draft.none.push(device.id)
    caught += device.draws.reduce((sum, draw) => sum + (Number(reading?.[pestModel(draw.pest).id]) || 0), 0)
  }
  return caught
}

export function snapReading(site: Site, device: Device, day: Day, pickUp: boolean): YamlMap | undefined {
  device.lastRead = day
  device.checks++
  const [first] = drawn(site, device)
  const animals = Math.min(device.traps, first?.[1] ?? 0)
  const again: YamlMap = pickUp ? { renewed: 'yes' } : { reset: 'yes' }
  const alone = binomial(site.random, device.traps - animals, figures.sprungAlone)
  if (animals === 0 && alone === 0) return undefined
  return {
    ...(first && animals > 0 ? { [pestModel(first[0]).id]: animals } : {}),
    ...(alone > 0 ? { sprung: device.traps === 1 ? 'empty' : { empty: alone } } : {}),
    ...again,
  }
}

function endRound(site: Site, draft: Draft, quiet: boolean): void {
  const { round } = site
  if (!round) return
  const why = quiet ? `${round.quietNights} quiet nights` : 'end of the round'
  for (const device of round.devices) {
    draft.takenUp[device.id] = why
    site.devices.delete(device.id)
  }
  draft.actions[round.action] = {
    ended: quiet ? `no catch in ${round.quietNights} nights` : 'traps taken up',
  }
  const span = site.runs.get(round.run)?.active[0]
  if (span) span.until = draft.day
  draft.changesSite = true
  const infestation = seriesAt(site, round.area, round.pest)
  const running = infestation && runningInfestation(infestation.series)
  const last = running?.segments.at(-1)
  // Once the traps are gone, whatever is left of an infestation that trapping held down grows again.
  if (running && last && 'falls' in last && !quiet) turnToGrowth(running, draft.day)
  site.round = undefined
}

const wednesday = 3

function catchersToday(world: World, site: Site, draft: Draft, lastBefore: boolean): void {
  const catchers = [...site.devices.values()].filter((device) => device.kind === 'multiple-catch-trap')
  if (catchers.length === 0) return
  const { day } = draft
  const { calendar } = world
  // A break of more than a long weekend: the traps are picked up on its eve.
  const breakAhead = lastBefore && ![1, 2, 3, 4].some((days) => calendar.isSchoolDay(day + days))
  if (catchers[0]?.pickedUp) {
    for (const device of catchers) {
      device.pickedUp = false
      device.lastRead = day
      drawFromNow(site, device)
      draft.putOut.push(device.id)
    }
    return
  }
  const dueAgain = day - Math.min(...catchers.map((device) => device.lastRead)) >= 6
  if (!breakAhead && !dueAgain && weekdayOf(day) !== wednesday) return
  for (const device of catchers) {
    device.lastRead = day
    const [first] = drawn(site, device)
    if (first && first[1] > 0) {
      draft.readings[device.id] = { [pestModel(first[0]).id]: first[1], renewed: 'yes' }
      answerCatch(site, draft, device, first[0])
    } else draft.none.push(device.id)
    clear(device)
    if (breakAhead) {
      device.pickedUp = true
      draft.pickedUp.push(device.id)
    }
  }
}

function answerCatch(site: Site, draft: Draft, device: Device, pest: number): void {
  const { area } = device
  draft.actions[`emptied-${device.id}`] = {
    did: 'mouse taken out, dock door kept shut, technician told',
    tactic: 'trapping',
    why: 'corrective',
    area: area.id,
    pest: pestModel(pest).id,
  }
  if (!site.round && !site.tasks.some((task) => task.kind === 'start-round')) {
    site.tasks.push({ kind: 'start-round', due: draft.day + 1, area, pest })
  }
}
