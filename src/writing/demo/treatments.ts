import { gamma, wholeBetween } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { dateOf, dateText, hoursText } from './days.js'
import type { Draft } from './draft.js'
import { addAction } from './draft.js'
import { pestModel } from './pests.js'
import { levelOf, runningInfestation, turnToFall } from './rates.js'
import { lotOf } from './readings.js'
import type { Trial } from './trial.js'
import type { Outcome } from './truth.js'
import type { Area, SeriesNow, Site, World } from './world.js'
import { mapText } from './yaml.js'

/** How often a tactic works, works for a while, and by how much it lowers the log-rate a day. */
export const effects: Readonly<Record<string, { works: number; while: number; fall: number }>> = {
  cleaning: { works: 0.12, while: 0.25, fall: 0.03 },
  vacuuming: { works: 0.05, while: 0.35, fall: 0.05 },
  'habitat-change': { works: 0.45, while: 0.2, fall: 0.06 },
  'hand-removal': { works: 0.6, while: 0.2, fall: 0.06 },
  exclusion: { works: 0.25, while: 0.1, fall: 0.05 },
  trapping: { works: 0.75, while: 0.15, fall: 0.25 },
  gel: { works: 0.7, while: 0.15, fall: 0.1 },
  'ant-bait': { works: 0.75, while: 0.1, fall: 0.15 },
  blocks: { works: 0.6, while: 0.2, fall: 0.1 },
  dust: { works: 0.7, while: 0.15, fall: 0.08 },
  referral: { works: 0.8, while: 0.1, fall: 0.1 },
  'nest-treatment': { works: 0.9, while: 0.05, fall: 0.6 },
}

export function seriesAt(site: Site, area: Area, pest: number): SeriesNow | undefined {
  return site.series.find((now) => now.series.areaIndex === area.index && now.series.pestIndex === pest)
}

/** Something was done against a pest: decides what it truly does, and keeps that for the truth. */
export function takeEffect(site: Site, area: Area, pest: number, what: string, day: Day): void {
  const effect = effects[what]
  const now = seriesAt(site, area, pest)
  if (now && site.trial) takePlantedEffect(site.trial, now, what, day)
  const infestation = now && runningInfestation(now.series)
  if (!effect || !now || !infestation || levelOf(infestation, day) <= 0) return
  const falling = infestation.segments.at(-1)
  // A weak tactic never undoes a stronger one that is at work.
  if (falling && 'falls' in falling && falling.falls >= effect.fall) return
  const luck = site.nature.next()
  const outcome: Outcome =
    luck < effect.works ? 'works' : luck < effect.works + effect.while ? 'works for a while' : 'does not work'
  const fall = outcome === 'does not work' ? 0 : effect.fall
  if (fall > 0) turnToFall(infestation, day, fall)
  if (outcome === 'works') now.regrowsOn = Number.POSITIVE_INFINITY
  if (outcome === 'works for a while') now.regrowsOn = day + 10 + Math.round(gamma(site.nature, 3, 6))
  site.truth.treatments.push({ day, area: area.id, pest: pestModel(pest).id, what, outcome, fall })
}

const baits: readonly string[] = ['gel', 'ant-bait']

/** Whether a pest may be treated here: always, but in a trial only where that was planted, and once. */
export function mayTreat(site: Site, area: Area, pest: number): boolean {
  if (!site.trial) return true
  const now = seriesAt(site, area, pest)
  const treated = now && site.trial.pests[now.series.pest]?.treated
  return treated !== undefined && !now?.series.shifts.some((shift) => shift.why === 'treated')
}

function takePlantedEffect(trial: Trial, now: SeriesNow, what: string, day: Day): void {
  const log = trial.pests[now.series.pest]?.treated
  if (log === undefined || !baits.includes(what)) return
  now.series.shifts.push({ from: day + 1, log, why: 'treated' })
  now.baseNow *= Math.exp(log)
}

/** Gel in a kitchen or store, or ant bait in stations: an application record beside the visit. */
export function applyBait(
  world: World,
  site: Site,
  draft: Draft,
  what: 'gel' | 'ant-bait',
  area: Area,
  pest: number,
  attempt: number,
): boolean {
  const path = `sites/${site.id}/applications/${dateText(draft.day)}-${draft.by.id}.yaml`
  if (draft.more.some((file) => file.path === path)) return false
  const { id } = pestModel(pest)
  const gel = what === 'gel'
  // The mode of action changes from month to month, whatever the attempt.
  const product = gel ? (dateOf(draft.day).month % 2 === 1 ? 'gel-a' : 'gel-b') : 'ant-bait-c'
  const placements = gel ? wholeBetween(site.random, 3, 12) : wholeBetween(site.random, 1, 4)
  const amount = gel ? `${placements / 2} g` : `${placements} station`
  const start = draft.from + draft.minutes - 14
  const { trouble } = world
  const noReason = trouble.happens('no reason given', site.id, draft.day, product)
  const again = draft.day + wholeBetween(site.random, 13, 16)
  const record = {
    by: draft.by.id,
    status: 'done',
    product,
    pest: id,
    areas: {
      [area.id]: {
        amount,
        placements,
        where: gel ? 'cracks of equipment, hinge voids, behind panels' : 'inside the wall cabinet',
        'within-reach': 'no',
      },
    },
    method: gel ? 'crack-and-crevice' : 'in-a-station',
    formulation: gel ? 'gel' : 'bait-station',
    amount,
    time: hoursText(start, start + 12),
    lot: lotOf(product, draft.day),
    pupils: 'none in the building',
    reason: noReason
      ? undefined
      : `${attempt === 1 ? 'catch went on' : `catch went on after treatment ${attempt - 1}`} in ${area.name.toLowerCase()}`,
    'tried-first': noReason
      ? undefined
      : gel
        ? 'cleaned and vacuumed, sticky traps added to find the source'
        : 'trails wiped, crack sealed',
    'follow-up': { by: dateText(again + 9), look: 'traps of the area' },
  }
  draft.more.push({ path, text: mapText(record) })
  addAction(draft, `${what}-${area.id}`, {
    did: gel ? 'gel bait placed in cracks and voids' : 'ant bait stations placed out of reach',
    tactic: 'bait',
    why: 'corrective',
    area: area.id,
    pest: id,
    'follow-up': dateText(again + 9),
  })
  takeEffect(site, area, pest, what, draft.day)
  if (!trouble.happens('no follow-up after treatment', site.id, draft.day, product)) {
    site.tasks.push({ kind: 'check', due: again, area, pest, attempt })
  }
  return true
}

/** Whether a task of a kind already waits for an area and pest. */
export function waits(site: Site, kind: string, area: Area, pest: number): boolean {
  return site.tasks.some(
    (task) => task.kind === kind && task.area === area && 'pest' in task && task.pest === pest,
  )
}
