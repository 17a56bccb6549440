import type { RecordOf } from '../records/kinds.js'
import type { Day, Place } from '../types.js'
import type { LoadedEvent } from './loaded.js'
import { dayIn } from './spans.js'

type ConditionEntry = NonNullable<RecordOf<'visit'>['conditions']>[string]

export type ConditionEventKind = 'new' | 'still' | 'repaired' | 'fixed' | 'closed' | 'holds'

export interface ConditionEvent {
  readonly kind: ConditionEventKind
  readonly day: Day
  readonly at: Place
  readonly says: string
  /** Who is to mend it and by when, where this very entry says so. */
  readonly owner?: ConditionEntry['owner']
  readonly due?: Day
}

/** One correctable condition from the visit that found it to whatever was last said of it. */
export interface ConditionHistory {
  /** `<visit>/<name>` */
  readonly id: string
  readonly name: string
  readonly area: string | undefined
  readonly kind: ConditionEntry['kind']
  readonly gives: ConditionEntry['gives']
  readonly owner: ConditionEntry['owner']
  readonly due: Day | undefined
  readonly says: string
  readonly events: readonly ConditionEvent[]
  readonly open: boolean
  /** Day it was last put right, by whom, and the day someone looked again and found it still good. */
  readonly closed?: { readonly day: Day; readonly how: 'repaired' | 'fixed' | 'closed'; readonly at: Place }
  readonly recheckedOn?: Day
  /** How often it came back after having been put right. */
  readonly reopened: number
}

/** A mention of a condition that leads nowhere, or to more than one. */
export interface ConditionMention {
  readonly name: string
  readonly at: Place
  readonly fault: 'unknown' | 'ambiguous'
  readonly candidates: readonly string[]
}

interface Live {
  readonly id: string
  readonly name: string
  readonly opened: ConditionEntry
  owner: ConditionEntry['owner']
  due: Day | undefined
  events: ConditionEvent[]
  open: boolean
  closed: ConditionHistory['closed']
  recheckedOn: Day | undefined
  reopened: number
}

/**
 * Replays what visits and repairs say of conditions. On one day, what a visit found (new, still) comes before
 * repairs, and repairs before what a visit found put right, so that a repair and its closing can share a day.
 */
export function replayConditions(
  visits: readonly LoadedEvent<'visit'>[],
  repairs: readonly LoadedEvent<'repair'>[],
): { readonly conditions: readonly ConditionHistory[]; readonly mentions: readonly ConditionMention[] } {
  const all: Live[] = []
  const mentions: ConditionMention[] = []
  for (const step of stepsInOrder(visits, repairs)) {
    if (step.kind === 'repair') repairConditions(step.repair, all, mentions)
    else visitConditions(step.visit, step.phase, all, mentions)
  }
  return { conditions: all.map(finished), mentions }
}

type Step =
  | {
      readonly day: Day
      readonly order: number
      readonly kind: 'visit'
      readonly phase: 'found' | 'put right'
      readonly visit: LoadedEvent<'visit'>
    }
  | {
      readonly day: Day
      readonly order: number
      readonly kind: 'repair'
      readonly repair: LoadedEvent<'repair'>
    }

function stepsInOrder(
  visits: readonly LoadedEvent<'visit'>[],
  repairs: readonly LoadedEvent<'repair'>[],
): Step[] {
  const steps: Step[] = []
  for (const visit of visits) {
    if (!visit.data.conditions) continue
    steps.push({ day: visit.day, order: 0, kind: 'visit', phase: 'found', visit })
    steps.push({ day: visit.day, order: 2, kind: 'visit', phase: 'put right', visit })
  }
  for (const repair of repairs)
    if (repair.data.mends) steps.push({ day: repair.day, order: 1, kind: 'repair', repair })
  // A stable sort keeps visits of one day in their own order.
  return steps.sort((a, b) => a.day - b.day || a.order - b.order)
}

function visitConditions(
  visit: LoadedEvent<'visit'>,
  phase: 'found' | 'put right',
  all: Live[],
  mentions: ConditionMention[],
): void {
  for (const [key, entry] of Object.entries(visit.data.conditions ?? {})) {
    const at: Place = { file: visit.file, path: ['conditions', key] }
    if (entry.new !== undefined) {
      if (phase === 'found') all.push(begin(visit, key, entry, at))
      continue
    }
    const kind =
      entry.still !== undefined
        ? 'still'
        : entry.fixed !== undefined
          ? 'fixed'
          : entry.closed !== undefined
            ? 'closed'
            : entry.holds !== undefined
              ? 'holds'
              : undefined
    if (kind === undefined || (kind === 'still') !== (phase === 'found')) continue
    const condition = resolve(key, at, all, mentions)
    if (!condition) continue
    if (entry.owner !== undefined) condition.owner = entry.owner
    if (entry.by !== undefined) condition.due = dayIn(entry.by)
    happen(condition, { kind, day: visit.day, at, says: entry[kind] ?? '', ...statedIn(entry) })
  }
}

function repairConditions(repair: LoadedEvent<'repair'>, all: Live[], mentions: ConditionMention[]): void {
  for (const [n, key] of (repair.data.mends ?? []).entries()) {
    const at: Place = { file: repair.file, path: ['mends', n] }
    const condition = resolve(key, at, all, mentions)
    if (condition) happen(condition, { kind: 'repaired', day: repair.day, at, says: repair.data.done })
  }
}

function begin(visit: LoadedEvent<'visit'>, key: string, entry: ConditionEntry, at: Place): Live {
  const condition: Live = {
    id: `${visit.id}/${key}`,
    name: key,
    opened: entry,
    owner: entry.owner,
    due: entry.by === undefined ? undefined : dayIn(entry.by),
    events: [{ kind: 'new', day: visit.day, at, says: entry.new ?? '', ...statedIn(entry) }],
    open: true,
    closed: undefined,
    recheckedOn: undefined,
    reopened: 0,
  }
  if (entry.fixed !== undefined) happen(condition, { kind: 'fixed', day: visit.day, at, says: entry.fixed })
  return condition
}

function statedIn(entry: ConditionEntry): Pick<ConditionEvent, 'owner' | 'due'> {
  return {
    ...(entry.owner === undefined ? {} : { owner: entry.owner }),
    ...(entry.by === undefined ? {} : { due: dayIn(entry.by) }),
  }
}

function happen(condition: Live, event: ConditionEvent): void {
  condition.events.push(event)
  switch (event.kind) {
    case 'still':
      if (!condition.open) condition.reopened++
      condition.open = true
      condition.closed = undefined
      condition.recheckedOn = undefined
      return
    case 'repaired':
    case 'fixed':
      condition.open = false
      condition.closed = { day: event.day, how: event.kind, at: event.at }
      condition.recheckedOn = undefined
      return
    case 'closed':
      // After a repair, an inspector who finds it closed has looked again; otherwise this is the closing itself.
      if (!condition.open) condition.recheckedOn = event.day
      else condition.closed = { day: event.day, how: 'closed', at: event.at }
      condition.open = false
      return
    case 'holds':
      if (!condition.open) condition.recheckedOn = event.day
      return
    case 'new':
      return
  }
}

/** By full name; or by the short one, which must be unique among the open, or else means the latest closed. */
function resolve(
  key: string,
  at: Place,
  all: readonly Live[],
  mentions: ConditionMention[],
): Live | undefined {
  const full = all.find((condition) => condition.id === key)
  if (full) return full
  const same = all.filter((condition) => condition.name === key)
  const open = same.filter((condition) => condition.open)
  if (open.length > 1) {
    mentions.push({ name: key, at, fault: 'ambiguous', candidates: open.map((condition) => condition.id) })
    return undefined
  }
  const found = open[0] ?? same.at(-1)
  if (!found)
    mentions.push({ name: key, at, fault: 'unknown', candidates: all.map((condition) => condition.name) })
  return found
}

function finished(condition: Live): ConditionHistory {
  return {
    id: condition.id,
    name: condition.name,
    area: condition.opened.area,
    kind: condition.opened.kind,
    gives: condition.opened.gives,
    owner: condition.owner,
    due: condition.due,
    says: condition.opened.new ?? '',
    events: condition.events,
    open: condition.open,
    ...(condition.closed ? { closed: condition.closed } : {}),
    ...(condition.recheckedOn === undefined ? {} : { recheckedOn: condition.recheckedOn }),
    reopened: condition.reopened,
  }
}
