import { plantsAway } from '../ledger/plants-away.js'
import type { SiteView } from '../ledger/site-view.js'
import { areaOn } from '../ledger/standing.js'
import { isoOf } from '../measure/calendar.js'
import { postingAssessments } from '../rules/notices/assess-posting.js'
import { momentText } from '../rules/notices/moments.js'
import type { Day, Place } from '../types.js'

/** Something waiting that is no problem: it is done on the next visit, or when its own moment comes. */
export interface Waiting {
  readonly area: string | undefined
  readonly what: string
  /** When, in words; the next visit if not said. */
  readonly when: string | undefined
  readonly file: string
}

/** What is known of a site once it has been read: its areas in walking order, what waits there, and who worked there. */
export interface DueFacts {
  readonly site: string
  readonly areas: readonly {
    readonly id: string
    readonly keys: string | undefined
    readonly letInBy: string | undefined
  }[]
  /** Area of each complaint, application and visit entry a problem can point at: by file, or by file and key. */
  readonly areaAt: (place: Place) => string | undefined
  readonly areaOfDevice: ReadonlyMap<string, string>
  readonly waiting: readonly Waiting[]
  /** People by the last day on which they did something at the site. */
  readonly lastActed: ReadonlyMap<string, Day>
  /** Records of applications dated after the as-of day. */
  readonly later: readonly string[]
}

export function dueFactsOf(view: SiteView): DueFacts {
  return {
    site: view.id,
    areas: [...view.areas.values()].map(({ id, facts }) => ({
      id,
      keys: facts.keys,
      letInBy: facts['let-in-by'],
    })),
    areaAt: areaFinder(view),
    areaOfDevice: new Map(view.devices.map((device) => [device.id, areaOn(device, view.asOf)])),
    waiting: [...rechecks(view), ...plants(view), ...signsUp(view)],
    lastActed: lastActed(view),
    later: view.later.flatMap(({ kind, file }) => (kind === 'application' ? file : [])),
  }
}

function areaFinder(view: SiteView): (place: Place) => string | undefined {
  const known = new Map<string, string>()
  const key = (file: string, ...path: readonly (string | number)[]) => [file, ...path].join('\n')
  for (const { file, data } of view.complaints) if (data.area !== undefined) known.set(key(file), data.area)
  for (const { file, data } of view.applications) {
    const [area, ...others] = Object.keys(data.areas)
    if (area !== undefined && others.length === 0) known.set(key(file), area)
  }
  for (const { at, facts } of view.sightings) known.set(key(at.file, ...at.path), facts.area)
  for (const { events, area } of view.conditions)
    for (const { at } of events) if (area !== undefined) known.set(key(at.file, ...at.path), area)
  return ({ file, path }) => known.get(key(file, ...path.slice(0, 2))) ?? known.get(key(file))
}

/** Conditions that were put right and that no one has looked at again. */
function rechecks(view: SiteView): Waiting[] {
  return view.conditions
    .filter(
      ({ open, closed, recheckedOn }) => !open && closed?.how === 'repaired' && recheckedOn === undefined,
    )
    .map(({ name, area, closed }) => ({
      area,
      what: `look whether ${name} holds, put right ${isoOf(closed?.day ?? view.asOf)}`,
      when: undefined,
      file: closed?.at.file ?? view.site.file,
    }))
}

function plants(view: SiteView): Waiting[] {
  return plantsAway(view).map(({ name, area, since, dry, at }) => ({
    area,
    what:
      dry === false
        ? `see that ${name} is dry before it comes back, away since ${isoOf(since)}`
        : `${name} is away since ${isoOf(since)}; look at it before it comes back`,
    when: undefined,
    file: at.file,
  }))
}

/** Signs that hang: until when they have to, and that they then come down. */
function signsUp(view: SiteView): Waiting[] {
  return postingAssessments(view).flatMap(({ treatment, asked, gone }) => {
    const up = gone.find(({ down }) => down === undefined)
    if (!up || !asked.staysUntil) return []
    const { latest } = asked.staysUntil
    return [
      {
        area: treatment.areas.length === 1 ? treatment.areas[0]?.id : undefined,
        what: `take down the sign for the application of ${isoOf(treatment.day)}, and record it`,
        when: `not before ${momentText(view.district, { earliest: latest, latest })}`,
        file: up.posting.file,
      },
    ]
  })
}

function lastActed(view: SiteView): Map<string, Day> {
  const last = new Map<string, Day>()
  const act = (who: string | undefined, day: Day) => {
    if (who !== undefined && (last.get(who) ?? Number.NEGATIVE_INFINITY) < day) last.set(who, day)
  }
  for (const { day, data } of view.visits) {
    act(data.by, day)
    act(data['supervised-by'], day)
    for (const other of data.with ?? []) act(other, day)
  }
  for (const { day, by, application } of view.treatments) {
    act(by, day)
    act(application?.['supervised-by'], day)
  }
  return last
}
