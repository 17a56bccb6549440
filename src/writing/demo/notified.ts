import { wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateText, hoursText } from './days.js'
import type { Draft } from './draft.js'
import { addAction } from './draft.js'
import { pestModel } from './pests.js'
import { lotOf } from './readings.js'
import type { Person } from './staff.js'
import { takeEffect } from './treatments.js'
import type { Area, DemoFile, Site, World } from './world.js'
import { unusedName } from './world.js'
import type { YamlMap } from './yaml.js'
import { mapText } from './yaml.js'

/** An application that is no bait: planned, notified, posted, then made outside school hours. */
export interface NotifiedApplication {
  readonly what: 'dust' | 'nest-treatment'
  readonly area: Area
  readonly pest: number
  readonly who: Person
  readonly plannedOn: Day
  readonly noticeOn: Day
  readonly day: Day
  readonly from: number
  readonly minutes: number
  /** Name of the action that stays open until the treatment. */
  readonly action: string | undefined
  readonly notified: boolean
  done: boolean
}

const products = { dust: 'dust-d', 'nest-treatment': 'aerosol-e' } as const

/** An active nest: closed off at once, treated after notice. */
export function planNestTreatment(world: World, site: Site, draft: Draft, area: Area, pest: number): void {
  if (site.notified) {
    addAction(draft, `closed-off-${area.id}`, {
      did: 'place still closed off, sign checked',
      tactic: 'restriction',
      why: 'corrective',
      area: area.id,
      pest: pestModel(pest).id,
    })
    return
  }
  const action = unusedName(site, `closed-off-${area.id}`)
  const planned = plan(world, site, draft, 'nest-treatment', area, pest, action)
  addAction(draft, action, {
    did: planned
      ? 'place closed off with tape and sign, staff told to keep everyone away'
      : 'place closed off with tape and sign; nest taken away by a licensed firm the same day',
    tactic: planned ? 'restriction' : 'referral',
    why: 'corrective',
    area: area.id,
    pest: pestModel(pest).id,
    until: planned ? 'the nest is treated' : undefined,
  })
  if (!planned) takeEffect(site, area, pest, 'nest-treatment', draft.day)
}

export function planVoidDust(world: World, site: Site, draft: Draft, area: Area, pest: number): void {
  const last = site.truth.treatments.findLast((treatment) => treatment.what === 'dust')
  if (site.notified || (last && last.area === area.id && draft.day - last.day < 120)) return
  plan(world, site, draft, 'dust', area, pest, undefined)
}

function plan(
  world: World,
  site: Site,
  draft: Draft,
  what: NotifiedApplication['what'],
  area: Area,
  pest: number,
  action: string | undefined,
): boolean {
  let noticeOn = draft.day + 1
  while (!world.calendar.isWorkday(noticeOn)) noticeOn++
  for (let day = noticeOn + 4; day < noticeOn + 12 && day <= world.until; day++) {
    if (!world.calendar.isWorkday(day) || site.nextRoutine?.day === day) continue
    const from = 975 + 5 * wholeBetween(site.random, 0, 12)
    const minutes = wholeBetween(site.random, 30, 45)
    if (!world.diary.book(draft.by.id, day, from, minutes)) continue
    const notified = !world.trouble.happens('notice not sent', site.id, day, what)
    const application: NotifiedApplication = {
      what,
      area,
      pest,
      who: draft.by,
      plannedOn: draft.day,
      noticeOn,
      day,
      from,
      minutes,
      action,
      notified,
      done: false,
    }
    site.notified = application
    draft.more.push(applicationFile(world, site, application))
    return true
  }
  return false
}

function applicationFile(world: World, site: Site, application: NotifiedApplication): DemoFile {
  const { what, area, pest, who, day, from, minutes, done } = application
  const dust = what === 'dust'
  const amount = dust ? '1 oz' : '4 fl oz'
  const end = from + minutes
  const record: YamlMap = {
    by: who.id,
    status: done ? 'done' : 'planned',
    product: products[what],
    pest: pestModel(pest).id,
    areas: {
      [area.id]: {
        amount,
        extent: dust ? '6 ft2' : '2 ft2',
        where: dust ? 'closed wall void behind the pipes' : 'nest opening',
      },
    },
    method: dust ? 'void' : 'spot',
    formulation: dust ? 'dust' : 'aerosol',
    amount,
    'treated-extent': dust ? '6 ft2' : '2 ft2',
    time: done ? hoursText(from + 8, end - 8) : undefined,
    approved: { by: [world.staff.coordinator.id], on: dateText(application.noticeOn) },
    equipment: dust ? 'bellows duster' : 'aerosol can',
    lot: done ? lotOf(products[what], day) : undefined,
    weather:
      done && !dust
        ? { wind: `${2 + (day % 5)} mph`, temperature: `${58 + (day % 9)} F`, sky: 'dry' }
        : undefined,
    pupils: done ? 'none in the building' : undefined,
    'kept-out': done && !dust ? { how: 'tape', until: 'reopened' } : undefined,
    reason: dust ? 'caught on two visits running after drains were closed' : 'active nest where children are',
    'tried-first': dust ? 'floor drain closed, floor dried, traps read' : 'place closed off, bins moved away',
    dry: done ? { at: hoursText(end - 4, end - 4).slice(0, 5), by: who.id } : undefined,
    reopened: done ? { on: dateText(day + 1), at: '06:30', by: site.custodian.id } : undefined,
    'follow-up': {
      by: dateText(day + 35),
      look: dust ? 'boards of the room' : 'the place of the nest',
    },
    corrections: done
      ? [
          {
            on: dateText(day),
            by: who.id,
            why: 'carried out as planned',
            keys: ['status', 'time', 'lot', 'weather', 'pupils', 'kept-out', 'dry', 'reopened'],
          },
        ]
      : undefined,
  }
  return { path: `sites/${site.id}/applications/${dateText(day)}-${who.id}.yaml`, text: mapText(record) }
}

/** What notice and sign say: what the rulebook of the district asks. */
const noticeSays = [
  'trade-name',
  'active-ingredients',
  'registration',
  'location',
  'date',
  'time',
  'reason',
  'coordinator-contact',
]

function noticeFile(world: World, site: Site, application: NotifiedApplication, takenDown?: Day): DemoFile {
  const { coordinator } = world.staff
  const record: YamlMap = {
    by: coordinator.id,
    application: `${dateText(application.day)}-${application.who.id}`,
    sent: {
      to: 'everyone',
      at: '09:30',
      how: 'email and note home',
      recipients: 240 + 17 * (site.number % 20),
      'list-of': dateText(application.plannedOn),
      'list-kept-by': coordinator.id,
      says: noticeSays,
    },
    posted: {
      places: ['main entrance', `at the ${application.area.name.toLowerCase()}`],
      'at-the': ['each-entrance', 'treated-area'],
      at: '10:30',
      size: '8.5 x 11 in',
      says: noticeSays,
      'taken-down': takenDown === undefined ? undefined : dateText(takenDown),
      'taken-down-at': takenDown === undefined ? undefined : '10:00',
    },
    corrections:
      takenDown === undefined
        ? undefined
        : [
            {
              on: dateText(takenDown),
              by: coordinator.id,
              why: 'signs taken down',
              keys: ['posted.taken-down', 'posted.taken-down-at'],
            },
          ],
  }
  const path = `sites/${site.id}/notices/${dateText(application.noticeOn)}-${coordinator.id}.yaml`
  return { path, text: mapText(record) }
}

/** The coordinator's part: notice and signs before, signs taken down four days after. */
export function noticesToday(world: World, site: Site, day: Day): void {
  const application = site.notified
  if (!application) return
  const { coordinator } = world.staff
  if (application.notified && day === application.noticeOn) {
    world.commit(coordinator, day, 640, `${site.name}: notice of an application`, [
      noticeFile(world, site, application),
    ])
  }
  if (application.done && day >= application.day + 4 && world.calendar.isWorkday(day)) {
    if (application.notified) {
      world.commit(coordinator, day, 600, `${site.name}: signs taken down`, [
        noticeFile(world, site, application, day),
      ])
    }
    site.notified = undefined
  }
}

/** The application itself, within the visit of its day. */
export function applyNotified(world: World, site: Site, draft: Draft): void {
  const application = site.notified
  if (!application) return
  application.done = true
  draft.more.push(applicationFile(world, site, application))
  const { area, pest, what, day } = application
  if (application.action !== undefined) {
    addAction(draft, application.action, { ended: 'nest treated and removed, place opened again' })
  } else {
    addAction(draft, `dust-${area.id}`, {
      did: 'dust blown into the closed void',
      tactic: 'pesticide',
      why: 'corrective',
      area: area.id,
      pest: pestModel(pest).id,
    })
    site.tasks.push({ kind: 'check', due: day + 14, area, pest, attempt: 3 })
  }
  takeEffect(site, area, pest, what, day)
}
