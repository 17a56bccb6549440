import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { isoOf } from '../measure/calendar.js'
import type { AreaKind } from '../records/area-kinds.js'
import { liesOutdoors } from '../records/area-kinds.js'
import type { Day } from '../types.js'
import type { ChanceToNotice } from './coverage-chance.js'
import { chanceWanted, mostTrapsToAdd } from './coverage-chance.js'
import type { AreaWatch, Watch } from './coverage-collect.js'
import { canBeShown, hasDeviceOfItsOwn } from './coverage-devices.js'

/** In order of urgency. */
export const needKinds = [
  'seen-no-device',
  'one-is-enough',
  'too-few',
  'not-entered',
  'not-inspected',
] as const
export type NeedKind = (typeof needKinds)[number]

/** What is missing in one area, or in several of one kind at one site. */
export interface Need {
  readonly kind: NeedKind
  readonly site: string
  /** None where the area itself was not looked at. */
  readonly pest?: string
  readonly areas: readonly string[]
  readonly areaKind: AreaKind | undefined
  /** How many areas of that kind there are at the site. */
  readonly of: number
  /** Devices to set, or to renew, at the least; null where that cannot be told. */
  readonly toAdd: number | null
  readonly why: string
  readonly onOne: boolean
  readonly lastSeen: Day | undefined
  /** Of noticing the threshold with the traps there, where they are too few. */
  readonly chance?: number
  readonly watch?: Watch
  readonly files: readonly string[]
}

/** Areas of one kind that a plan of one pest governs, over the whole ledger, and how many have a device for it. */
export interface KindWatch {
  readonly areas: number
  readonly withDevice: number
}

/** Key: `pest kind`. Every area of the ledger counts, whatever is filtered. */
export function kindsWatched(watches: readonly Watch[]): Map<string, KindWatch> {
  const kinds = new Map<string, KindWatch>()
  for (const watch of watches) {
    if (!watch.plan) continue
    const key = kindKey(watch)
    const { areas, withDevice } = kinds.get(key) ?? { areas: 0, withDevice: 0 }
    kinds.set(key, { areas: areas + 1, withDevice: withDevice + (watch.devices > 0 ? 1 : 0) })
  }
  return kinds
}

export const kindKey = ({ pest, kind }: Pick<Watch, 'pest' | 'kind'>) => `${pest} ${kind ?? ''}`

/** Whether devices for the pest could be asked of such an area at all. */
export function couldStand({ pest, kind, plan }: Watch, pestsOfDevices: ReadonlySet<string>): boolean {
  if (!plan || kind === undefined || liesOutdoors(kind) === true || !canBeShown(pest, kind)) return false
  return hasDeviceOfItsOwn(pest) || pestsOfDevices.has(pest)
}

/**
 * Whether an area without a device is the exception: the plan names its kind, or more than half of the areas of its kind in
 * the district have one for this pest. Not every area needs a trap, and one that no one expects there is no gap.
 */
function isExpected(watch: Watch, kinds: ReadonlyMap<string, KindWatch>): string | undefined {
  if (watch.plan?.namesKind) return 'the plan names this kind of area'
  const { areas, withDevice } = kinds.get(kindKey(watch)) ?? { areas: 0, withDevice: 0 }
  return withDevice * 2 > areas ? `${withDevice} of ${areas} such areas in the district have one` : undefined
}

export interface JudgedWatch {
  readonly watch: Watch
  readonly chance: ChanceToNotice | null
}

/** Whether a pest was seen or complained of, and nothing in a device shows it. */
export function isSeenNotCaught({ seen, catch: { caught, shown } }: Watch): boolean {
  return seen.length > 0 && caught === 0 && !shown
}

/** Whether no device that can catch stands there, and none has stood there since the pest was last seen. */
function isUnwatchedSince({ devices, fit, stoodSince }: Watch): boolean {
  return fit === 0 && (devices > 0 || !stoodSince)
}

export function needsOf(
  judged: readonly JudgedWatch[],
  areas: readonly AreaWatch[],
  kinds: ReadonlyMap<string, KindWatch>,
  pestsOfDevices: ReadonlySet<string>,
): Need[] {
  const needs = [
    ...judged.flatMap((one) => needOf(one, kinds, pestsOfDevices) ?? []),
    ...areas.flatMap((area) => lookNeedOf(area) ?? []),
  ]
  return grouped(needs, ofKind(judged, areas)).sort(byUrgency)
}

function needOf(
  { watch, chance }: JudgedWatch,
  kinds: ReadonlyMap<string, KindWatch>,
  pestsOfDevices: ReadonlySet<string>,
): Need | undefined {
  const { plan, devices, fit } = watch
  if (isSeenNotCaught(watch) && isUnwatchedSince(watch)) return seenNeed(watch, chance)
  const because = couldStand(watch, pestsOfDevices) ? isExpected(watch, kinds) : undefined
  if (plan?.onOne && fit === 0 && (devices > 0 || because !== undefined))
    return need(
      watch,
      'one-is-enough',
      1,
      `${standing(watch)}; one is enough to act by the plan${becauseWords(because)}`,
    )
  if (plan?.perTrap && !plan.onOne && (devices > 0 || because !== undefined)) return tooFewNeed(watch, chance)
  return undefined
}

function tooFewNeed(watch: Watch, chance: ChanceToNotice | null): Need | undefined {
  if (chance === null)
    return watch.fit === 0 ? { ...need(watch, 'too-few', 1, noTrapWords(watch)), chance: 0 } : undefined
  if (chance.enough) return undefined
  return { ...need(watch, 'too-few', chance.toAdd, tooFewWords(watch, chance)), chance: chance.chance }
}

function seenNeed(watch: Watch, chance: ChanceToNotice | null): Need {
  const toAdd =
    watch.devices > 0 ? 1 : chance === null ? 1 : chance.toAdd === null ? null : Math.max(1, chance.toAdd)
  return need(watch, 'seen-no-device', toAdd, `seen or complained of; ${standing(watch)}`)
}

function need(watch: Watch, kind: NeedKind, toAdd: number | null, why: string): Need {
  const files = watch.seen.map(({ file }) => file)
  return {
    kind,
    site: watch.site,
    pest: watch.pest,
    areas: watch.area === '' ? [] : [watch.area],
    areaKind: watch.kind,
    of: 1,
    toAdd,
    why,
    onOne: watch.plan?.onOne ?? false,
    lastSeen: watch.seen.length === 0 ? undefined : Math.max(...watch.seen.map(({ day }) => day)),
    watch,
    files: [...new Set([...files, ...watch.catch.files, ...(watch.plan ? [watch.plan.file] : [])])],
  }
}

function standing({ devices, area }: Watch): string {
  if (devices === 0) return `no device for it stands ${area === '' ? 'in the site' : 'there'}`
  return devices === 1
    ? 'its only device was found lost or spoilt and was not renewed'
    : `all ${devices} devices were found lost or spoilt and were not renewed`
}

const becauseWords = (because: string | undefined) => (because === undefined ? '' : `, and ${because}`)

function noTrapWords(watch: Watch): string {
  return `the plan counts the catch of traps; ${watch.fit > 0 ? 'what stands there counts nothing' : standing(watch)}`
}

function tooFewWords(watch: Watch, { chance, nights, toAdd }: ChanceToNotice): string {
  if (watch.traps === 0) return noTrapWords(watch)
  const chances = `at the threshold a check after ${nights} nights catches any with a chance of ${Math.floor(chance * 100)} %, less than ${chanceWanted * 100} %`
  return toAdd === null
    ? `${chances}; ${mostTrapsToAdd} traps more would not do, so clumped are its catches`
    : chances
}

/** Areas that no one was in, although routine visits were made; without any visit nothing is said of an area. */
function lookNeedOf(area: AreaWatch): Need | undefined {
  const times = area.routineVisits.length
  if (area.visited || times === 0) return undefined
  const days = [...new Set(area.refused)].map(isoOf)
  const visits = times === 1 ? 'the one routine visit' : `any of ${times} routine visits`
  const refused = days.length === 0 ? '' : `; it could not be entered on ${days.join(', ')}`
  const last =
    area.lastVisited === undefined
      ? 'by the records no one ever did'
      : `the last look was on ${isoOf(area.lastVisited)}`
  return {
    kind: days.length > 0 ? 'not-entered' : 'not-inspected',
    site: area.site,
    areas: [area.area],
    areaKind: area.kind,
    of: 1,
    toAdd: 0,
    why: `no one looked at it on ${visits} of the period${refused}; ${last}`,
    onOne: false,
    lastSeen: undefined,
    files: [area.siteFile, ...area.routineVisits],
  }
}

/** How many areas of each kind a site has, by what governs them; for `3 of 8`. */
function ofKind(judged: readonly JudgedWatch[], areas: readonly AreaWatch[]): Map<string, number> {
  const totals = new Map<string, number>()
  const add = (key: string) => totals.set(key, (totals.get(key) ?? 0) + 1)
  for (const { watch } of judged) add(`${watch.site} ${watch.pest} ${watch.kind ?? ''}`)
  for (const area of areas) add(`${area.site}  ${area.kind}`)
  return totals
}

/** One row for all areas of one kind at one site that lack the same; what was seen, and where devices stand, is told apart. */
function grouped(needs: readonly Need[], totals: ReadonlyMap<string, number>): Need[] {
  const groups = new Map<string, Need[]>()
  for (const [at, one] of needs.entries()) {
    const alone = one.kind === 'seen-no-device' || (one.watch !== undefined && one.watch.devices > 0)
    const key = `${one.kind} ${one.site} ${one.pest ?? ''} ${one.areaKind ?? ''} ${alone ? at : ''}`
    getOrMake(groups, key, () => []).push(one)
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    if (!first) return []
    const of = totals.get(`${first.site} ${first.pest ?? ''} ${first.areaKind ?? ''}`) ?? group.length
    if (group.length === 1) return [{ ...first, of }]
    const toAdd = group.map((one) => one.toAdd)
    return [
      {
        ...first,
        of,
        areas: group.flatMap((one) => one.areas).sort(compareText),
        toAdd: toAdd.reduce<number | null>(
          (sum, one) => (sum === null || one === null ? null : sum + one),
          0,
        ),
        why: [...new Set(group.map((one) => one.why))].join('; '),
        files: [...new Set(group.flatMap((one) => one.files))],
      },
    ]
  })
}

function byUrgency(a: Need, b: Need): number {
  const key = (one: Need) => `${one.site} ${one.pest ?? ''} ${one.areas.join(' ')}`
  return (
    needKinds.indexOf(a.kind) - needKinds.indexOf(b.kind) ||
    Number(b.onOne) - Number(a.onOne) ||
    Number(b.chance === 0) - Number(a.chance === 0) ||
    (b.lastSeen ?? 0) - (a.lastSeen ?? 0) ||
    compareText(key(a), key(b))
  )
}
