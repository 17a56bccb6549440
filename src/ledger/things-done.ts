import type { tactics } from '../records/action.js'
import { baitFormulations } from '../records/use-words.js'
import type { Day } from '../types.js'
import { compareText } from './compare-text.js'
import type { ConditionHistory } from './condition-history.js'
import { isKindOf } from './labels.js'
import type { LoadedEvent } from './loaded.js'
import type { SiteView } from './site-view.js'
import type { Treatment } from './treatments.js'

export type Tactic = (typeof tactics)[number]

/** Something done to the pests of a place, on one day, in whatever records it is told. */
export interface ThingDone {
  /** Of the record that tells it, or of the first of them: `<record>`, or `<visit>/<name>`. */
  readonly id: string
  readonly kind: 'treatment' | 'repair' | 'action' | 'fixed on the spot'
  readonly day: Day
  /** Where; empty where no record says so. */
  readonly areas: readonly string[]
  /** Empty: of no pest in particular. */
  readonly pests: readonly string[]
  readonly tactic: Tactic
  readonly says: string
  readonly files: readonly string[]
}

/** A thing done with the condition it answers, by which an action and what put that condition right are one. */
interface Told extends ThingDone {
  readonly conditions: readonly string[]
}

/** Looking, and driving pests out to be counted, do nothing to how many there are. */
const onlyLooking: ReadonlySet<Tactic> = new Set(['monitoring', 'flushing'])

/**
 * Everything done to the pests of a site, by day: uses of a product (not lures), repairs, conditions fixed on the spot
 * and actions with a tactic and an area. Left out: actions that were only ended, monitoring and flushing, and conditions
 * found put right by someone else, because no one knows on which day that was.
 *
 * Records of one day with the same tactic in a shared area, against a shared pest or of no pest in particular, are one
 * thing done; so are an action called bait or pesticide and the treatment of that day, place and pest, and an action
 * and the repair of the condition it names. What puts a condition right is exclusion where the condition gave entry or
 * an opening was closed, else repair.
 */
export function thingsDone(view: SiteView): ThingDone[] {
  const things: Told[] = []
  for (const told of inOrder(view)) {
    const same = things.filter((thing) => isSame(thing, told))
    const first = same[0]
    if (!first) things.push(told)
    else {
      const merged = [...same.slice(1), told].reduce(merge, first)
      for (const other of same.slice(1)) things.splice(things.indexOf(other), 1)
      things[things.indexOf(first)] = merged
    }
  }
  return things.map(({ conditions: _, ...thing }) => thing)
}

/** Whether something could have touched a pest: it was against it, against a kind of it, or of no pest in particular. */
export function couldTouch({ pests }: Pick<ThingDone, 'pests'>, pest: string): boolean {
  return pests.length === 0 || pests.some((one) => isKindOf(pest, one) || isKindOf(one, pest))
}

const precedence: Record<ThingDone['kind'], number> = {
  treatment: 0,
  repair: 1,
  'fixed on the spot': 2,
  action: 3,
}

/** Within a day what tells most comes first, and what is of no pest in particular before what is. */
function inOrder(view: SiteView): Told[] {
  return [
    ...view.treatments.filter(isAgainstPests).map(fromTreatment),
    ...view.repairs.map((repair) => fromRepair(repair, view.conditions)),
    ...fixedOnTheSpot(view),
    ...view.visits.flatMap((visit) => fromActions(visit, view.conditions)),
  ].sort(
    (a, b) =>
      a.day - b.day ||
      precedence[a.kind] - precedence[b.kind] ||
      Number(a.pests.length > 0) - Number(b.pests.length > 0) ||
      compareText(a.id, b.id),
  )
}

/** Lures, devices and materials are no treatment; a product that is not in the register may be one. */
function isAgainstPests({ product }: Treatment): boolean {
  return product === undefined || !['lure', 'device', 'other-material', 'caulk'].includes(product.data.kind)
}

function fromTreatment(treatment: Treatment): Told {
  const { id, day, areas, pests, formulation, method, product, productId, record } = treatment
  const isBait =
    method === 'bait-placement' || (formulation !== undefined && baitFormulations.has(formulation))
  return {
    id,
    kind: 'treatment',
    day,
    areas: areas.map((area) => area.id).sort(),
    pests: [...new Set(pests)].sort(),
    tactic:
      product?.data.kind === 'living-agent'
        ? 'biological'
        : isBait || method === 'in-a-station'
          ? 'bait'
          : 'pesticide',
    says: `${product?.data.name ?? productId} (${method})`,
    files: [record.file],
    conditions: [],
  }
}

function fromRepair(repair: LoadedEvent<'repair'>, conditions: readonly ConditionHistory[]): Told {
  const mended = conditions.filter((condition) =>
    condition.events.some(({ kind, at }) => kind === 'repaired' && at.file === repair.file),
  )
  const { area, openings, done } = repair.data
  const where = area === undefined ? mended.map((condition) => condition.area) : [area]
  const closes = openings !== undefined || mended.some(({ gives }) => gives === 'entry')
  return {
    id: repair.id,
    kind: 'repair',
    day: repair.day,
    areas: named([...where, ...Object.keys(openings ?? {})]),
    pests: [],
    tactic: closes ? 'exclusion' : 'repair',
    says: done,
    files: [repair.file],
    conditions: mended.map(({ id }) => id),
  }
}

function fixedOnTheSpot({ conditions, visits }: SiteView): Told[] {
  const visitIn = new Map(visits.map(({ file, id }) => [file, id]))
  return conditions.flatMap(({ id, name, area, gives, events }) =>
    events
      .filter(({ kind }) => kind === 'fixed')
      .map(
        ({ day, at, says }): Told => ({
          id: `${visitIn.get(at.file) ?? at.file}/${name}`,
          kind: 'fixed on the spot',
          day,
          areas: named([area]),
          pests: [],
          tactic: gives === 'entry' ? 'exclusion' : 'repair',
          says,
          files: [at.file],
          conditions: [id],
        }),
      ),
  )
}

function fromActions(visit: LoadedEvent<'visit'>, conditions: readonly ConditionHistory[]): Told[] {
  return Object.entries(visit.data.actions ?? {}).flatMap(([name, action]): Told[] => {
    const { tactic, area, pest, condition, did, ended } = action
    if (ended !== undefined || tactic === undefined || area === undefined || onlyLooking.has(tactic))
      return []
    return [
      {
        id: `${visit.id}/${name}`,
        kind: 'action',
        day: visit.day,
        areas: [area],
        pests: pest === undefined ? [] : [pest],
        tactic,
        says: did ?? name,
        files: [visit.file],
        conditions:
          condition === undefined
            ? []
            : conditions.filter(({ id, name }) => id === condition || name === condition).map(({ id }) => id),
      },
    ]
  })
}

function named(areas: readonly (string | undefined)[]): string[] {
  return [...new Set(areas.filter((area) => area !== undefined))].sort()
}

function isSame(thing: Told, told: Told): boolean {
  if (thing.day !== told.day) return false
  if (
    told.kind === 'action' &&
    thing.kind !== 'action' &&
    told.conditions.some((id) => thing.conditions.includes(id))
  )
    return true
  const sharesPest =
    thing.pests.length === 0 || told.pests.length === 0 || told.pests.some((pest) => couldTouch(thing, pest))
  return sharesPest && isSameTactic(thing, told) && told.areas.some((area) => thing.areas.includes(area))
}

function isSameTactic(thing: Told, told: Told): boolean {
  const tellsTreatment = told.kind === 'action' && (told.tactic === 'bait' || told.tactic === 'pesticide')
  return thing.tactic === told.tactic || (thing.kind === 'treatment' && tellsTreatment)
}

/** The first tells what it was. */
function merge(first: Told, other: Told): Told {
  const all = (key: 'areas' | 'files' | 'conditions') => [...new Set([...first[key], ...other[key]])].sort()
  return {
    ...first,
    // Whoever fixed it and called that cleaning knows best what it was.
    tactic: first.kind === 'fixed on the spot' && other.kind === 'action' ? other.tactic : first.tactic,
    areas: all('areas'),
    pests: pestsOf(first, other),
    says: first.says === other.says ? first.says : `${first.says}; ${other.says}`,
    files: all('files'),
    conditions: all('conditions'),
  }
}

/** What the record of a treatment says it was against stays; else "of no pest in particular" says more. */
function pestsOf(first: Told, other: Told): readonly string[] {
  if (first.kind === 'treatment' && (other.kind !== 'treatment' || other.pests.length === 0))
    return first.pests
  if (first.pests.length === 0 || other.pests.length === 0) return []
  return [...new Set([...first.pests, ...other.pests])].sort()
}
