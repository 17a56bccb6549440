import { chance, pick, poisson } from '../../measure/seeded-random.js'
import type { Day } from '../../types.js'
import { findGap } from './conditions.js'
import { setRecord, standDevice, wallSpot } from './devices.js'
import type { Draft } from './draft.js'
import { addAction } from './draft.js'
import { planNestTreatment, planVoidDust } from './notified.js'
import { pestModel } from './pests.js'
import { reachesPlan } from './plans.js'
import { runningInfestation } from './rates.js'
import { mayTreat, takeEffect, waits } from './treatments.js'
import type { Area, Site, World } from './world.js'
import type { YamlMap } from './yaml.js'

/** What one visit found of one pest in one area. */
export interface Finding {
  readonly area: Area
  readonly pest: number
  animals: number
  mostPerTrapWeek: number
  seen: number
}

export type Findings = Map<string, Finding>

export function findingOf(findings: Findings, area: Area, pest: number): Finding {
  const key = `${area.index} ${pest}`
  let finding = findings.get(key)
  if (!finding) {
    finding = { area, pest, animals: 0, mostPerTrapWeek: 0, seen: 0 }
    findings.set(key, finding)
  }
  return finding
}

interface Sign {
  readonly evidence: string
  readonly facts: YamlMap
  readonly counted: boolean
}

const signs: Readonly<Record<string, Sign>> = {
  'german-cockroach': { evidence: 'live', facts: { stage: 'adults', 'by-day': 'yes' }, counted: true },
  'american-cockroach': { evidence: 'live', facts: { stage: 'adults', 'by-day': 'yes' }, counted: true },
  'house-mouse': { evidence: 'droppings', facts: { age: 'fresh', cleaned: 'yes' }, counted: false },
  'norway-rat': { evidence: 'burrow', facts: { age: 'fresh' }, counted: false },
  'odorous-house-ant': { evidence: 'live', facts: { stage: 'workers' }, counted: true },
  'pavement-ant': { evidence: 'live', facts: { stage: 'workers' }, counted: true },
  yellowjacket: { evidence: 'live', facts: { stage: 'workers' }, counted: true },
}

/** Looks round the inspected areas and notes what is seen outside devices. */
export function lookRound(world: World, site: Site, draft: Draft, findings: Findings): void {
  for (const now of site.series) {
    const { series } = now
    const model = pestModel(series.pestIndex)
    if (model.sighted === 0) continue
    const area = site.areas[series.areaIndex]
    if (!area || !draft.inspected.includes(area)) continue
    if (!chance(site.nature, 1 - Math.exp(-model.sighted * now.rate))) continue
    noteSign(world, site, draft, findings, area, series.pestIndex, now.rate)
    if (model.id === 'yellowjacket' && runningInfestation(series) && chance(site.nature, 0.4)) {
      findNest(world, site, draft, area, series.pestIndex)
    }
  }
}

function noteSign(
  world: World,
  site: Site,
  draft: Draft,
  findings: Findings,
  area: Area,
  pest: number,
  rate: number,
): void {
  const { id } = pestModel(pest)
  const sign = signs[id] ?? { evidence: 'live', facts: { stage: 'adults' }, counted: true }
  const count = sign.counted ? 1 + poisson(site.nature, Math.min(12, 4 * rate)) : 1
  const small = sign.counted && id !== 'yellowjacket' && !id.endsWith('cockroach')
  const unsure = small && world.trouble.happens('identification left tentative', site.id, draft.day, area.id)
  draft.found[`${area.id}-${unsure ? 'small-insects' : id}`] = {
    pest: unsure ? 'unidentified' : id,
    area: area.id,
    evidence: sign.evidence,
    ...sign.facts,
    count: sign.counted ? count : undefined,
    ...(unsure ? { identified: 'tentative', looks: '3 mm, dark, in a line along the wall' } : {}),
  }
  if (unsure) return
  findingOf(findings, area, pest).seen += count
}

const sweepings = ['house-cricket', 'ground-beetle', 'pillbug', 'spider']

/** Dead strays, swept up: worth a line, and no sign of anything. */
export function noteSweepings(site: Site, draft: Draft): void {
  for (const area of draft.inspected) {
    if (area.kind !== 'utility' && area.kind !== 'loading-dock' && area.kind !== 'custodial') continue
    if (!chance(site.random, 0.35)) continue
    const pest = pick(site.random, sweepings)
    draft.found[`${area.id}-dead-${pest}`] = {
      pest,
      area: area.id,
      evidence: 'dead',
      count: 1 + poisson(site.random, 1.5),
      cleaned: 'yes',
    }
  }
}

function findNest(world: World, site: Site, draft: Draft, area: Area, pest: number): void {
  draft.found[`nest-${area.id}`] = {
    pest: pestModel(pest).id,
    area: area.id,
    evidence: 'nest',
    'nest-state': 'active',
  }
  planNestTreatment(world, site, draft, area, pest)
}

const firstSteps: Readonly<Record<string, readonly [did: string, tactic: string]>> = {
  'german-cockroach': ['vacuumed cracks, cleaned under the equipment', 'vacuuming'],
  'american-cockroach': ['floor drain cover closed, floor dried', 'cleaning'],
  'house-mouse': ['droppings wetted and wiped up, food lifted off the floor', 'cleaning'],
  'norway-rat': ['burrow collapsed, growth cut back from the wall', 'habitat-change'],
  'odorous-house-ant': ['trail wiped with soap, crack at the window sealed', 'exclusion'],
  'pavement-ant': ['trail wiped, floor joint sealed', 'exclusion'],
  'house-fly': ['bins emptied and washed, door closer set', 'cleaning'],
  'fruit-fly': ['fruit and bottles cleared, drain brushed', 'cleaning'],
  'drain-fly': ['drain brushed down to the trap', 'cleaning'],
  'fungus-gnat': ['watering stopped until the soil is dry', 'habitat-change'],
  'indianmeal-moth': ['infested goods found and discarded, shelf vacuumed', 'hand-removal'],
  silverfish: ['cardboard cleared, room aired', 'habitat-change'],
  'ground-beetle': ['door sweep set lower, light over the door turned away', 'exclusion'],
  yellowjacket: ['lids shut, bins moved away from the door', 'cleaning'],
  'western-subterranean-termite': ['licensed structural inspector called', 'referral'],
}

/** Does what the plan asks for everything at or above its threshold, and sets in motion what takes longer. */
export function answerFindings(world: World, site: Site, draft: Draft, findings: Findings): void {
  for (const finding of findings.values()) {
    const { id } = pestModel(finding.pest)
    const key = `${finding.area.index} ${finding.pest}`
    const animals = finding.animals + finding.seen
    const strikes = animals > 0 ? (site.strikes.get(key) ?? 0) + 1 : 0
    site.strikes.set(key, strikes)
    if (!reachesPlan(id, finding.area.kind, animals, finding.mostPerTrapWeek)) continue
    if (world.trouble.happens('no action at threshold', site.id, draft.day, id)) continue
    takeFirstStep(site, draft, finding.area, finding.pest)
    takeNextStep(world, site, draft, finding, strikes)
  }
}

function takeFirstStep(site: Site, draft: Draft, area: Area, pest: number): void {
  const { id } = pestModel(pest)
  const [did, tactic] = firstSteps[id] ?? ['cleaned', 'cleaning']
  addAction(draft, `${tactic}-${area.id}`, { did, tactic, why: 'corrective', area: area.id, pest: id })
  takeEffect(site, area, pest, tactic, draft.day)
}

function takeNextStep(world: World, site: Site, draft: Draft, finding: Finding, strikes: number): void {
  const { area, pest } = finding
  if (!mayTreat(site, area, pest)) return
  const { id } = pestModel(pest)
  const soon = (days: number): Day => draft.day + days
  const animals = finding.animals + finding.seen
  switch (id) {
    case 'german-cockroach':
      if (
        (animals >= 5 || (strikes >= 2 && animals >= 2)) &&
        !waits(site, 'gel', area, pest) &&
        !waits(site, 'check', area, pest)
      ) {
        site.tasks.push({ kind: 'gel', due: soon(2), area, pest, attempt: 1 })
      }
      return
    case 'house-mouse':
      findGap(site, area, draft.day)
      startRoundSoon(site, area, pest, soon(1))
      return
    case 'norway-rat':
      if (area.kind === 'loading-dock') {
        findGap(site, area, draft.day)
        startRoundSoon(site, area, pest, soon(1))
      } else if (finding.seen > 0) blockBurrow(world, site, draft, area, id)
      return
    case 'odorous-house-ant':
      if (
        strikes >= 2 &&
        animals >= 5 &&
        !waits(site, 'ant-bait', area, pest) &&
        !waits(site, 'check', area, pest)
      ) {
        site.tasks.push({ kind: 'ant-bait', due: soon(2), area, pest, attempt: 1 })
      }
      return
    case 'american-cockroach':
      if (strikes >= 3 && animals >= 3 && (area.kind === 'utility' || area.kind === 'custodial')) {
        planVoidDust(world, site, draft, area, pest)
      }
      return
    case 'fungus-gnat':
      if (strikes >= 2) takePlantAway(site, draft, area)
      return
    default:
      return
  }
}

/** A burrow is stopped loosely: whether the block moves shows whether it is in use. */
function blockBurrow(world: World, site: Site, draft: Draft, area: Area, pest: string): void {
  for (const device of site.devices.values()) {
    if (device.kind === 'blocked-entrance' && device.area === area) return
  }
  const used = (site.names.get('N') ?? 0) + 1
  site.names.set('N', used)
  const device = standDevice(
    site,
    {
      id: `N${used}`,
      kind: 'blocked-entrance',
      area,
      at: wallSpot(area, 3 * used),
      for: [pest],
      watches: true,
    },
    draft.day,
  )
  draft.set[device.id] = setRecord(world, site, device, draft.day)
}

function startRoundSoon(site: Site, area: Area, pest: number, due: Day): void {
  if (site.round || site.tasks.some((task) => task.kind === 'start-round')) return
  site.tasks.push({ kind: 'start-round', due, area, pest })
}

function takePlantAway(site: Site, draft: Draft, area: Area): void {
  if (site.tasks.some((task) => task.kind === 'plant-back')) return
  const used = (site.names.get('plant') ?? 0) + 1
  site.names.set('plant', used)
  const plant = `plant-${used}`
  draft.plants[plant] = { area: area.id, removed: 'fungus gnats in the soil' }
  site.tasks.push({ kind: 'plant-back', due: draft.day + 6, area, plant })
}
