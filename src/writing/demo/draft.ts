import type { Day } from '../../types.js'
import { dateText, hoursText } from './days.js'
import type { Person } from './staff.js'
import type { Area, DemoFile, Site } from './world.js'
import type { Line, Yaml, YamlMap } from './yaml.js'
import { recordText } from './yaml.js'

/** A visit while it is being made. */
export interface Draft {
  readonly purpose: 'routine' | 'callback' | 'trap-check' | 'follow-up' | 'set-up'
  readonly by: Person
  readonly day: Day
  readonly from: number
  minutes: number
  typedBy: Person | undefined
  siteManager: string | undefined
  complaintLog: string | undefined
  readonly answers: Record<string, string>
  readonly inspected: Area[]
  readonly noEntry: Record<string, string>
  readonly none: string[]
  readonly readings: Record<string, YamlMap>
  readonly found: Record<string, YamlMap>
  conditions: Record<string, YamlMap>
  readonly actions: Record<string, YamlMap>
  readonly plants: Record<string, YamlMap>
  readonly set: Record<string, YamlMap>
  readonly moved: Record<string, YamlMap>
  readonly pickedUp: string[]
  readonly putOut: string[]
  readonly takenUp: Record<string, string>
  readonly advice: string[]
  readonly notes: string[]
  readonly remark: string | undefined
  withoutTime: boolean
  /** site.yaml is written anew with this visit. */
  changesSite: boolean
  /** Applications and other records committed together with it. */
  readonly more: DemoFile[]
}

export function emptyDraft(
  purpose: Draft['purpose'],
  by: Person,
  day: Day,
  from: number,
  minutes: number,
  remark?: string,
): Draft {
  return {
    purpose,
    by,
    day,
    from,
    minutes,
    typedBy: undefined,
    siteManager: undefined,
    complaintLog: undefined,
    answers: {},
    inspected: [],
    noEntry: {},
    none: [],
    readings: {},
    found: {},
    conditions: {},
    actions: {},
    plants: {},
    set: {},
    moved: {},
    pickedUp: [],
    putOut: [],
    takenUp: {},
    advice: [],
    notes: [],
    remark,
    withoutTime: false,
    changesSite: false,
    more: [],
  }
}

/** An action, under a name of its own within the visit. */
export function addAction(draft: Draft, name: string, action: YamlMap): string {
  let free = name
  for (let number = 2; free in draft.actions; number++) free = `${name}-${number}`
  draft.actions[free] = action
  return free
}

const filled = <T extends Yaml>(value: T & object): T | undefined =>
  Object.keys(value).length > 0 ? value : undefined

const sentence = (parts: readonly string[]) => (parts.length > 0 ? parts.join('; ') : undefined)

export function visitPath(site: Site, draft: Draft): string {
  return `sites/${site.id}/visits/${dateText(draft.day)}-${draft.by.id}.yaml`
}

/** The visit as it is written down. `changed` are keys to add or replace, for one that was mistyped or corrected. */
export function visitFile(site: Site, draft: Draft, changed: YamlMap = {}): DemoFile {
  const readings: YamlMap = {
    ...(draft.none.length > 0 ? { none: draft.none } : {}),
    ...draft.readings,
  }
  const time = hoursText(draft.from, draft.from + draft.minutes)
  const lines: Line[] = [
    ...(draft.remark === undefined ? [] : [draft.remark]),
    ['purpose', draft.purpose],
    ['by', draft.by.id],
    ['entered-by', draft.typedBy?.id],
    ['on-paper', draft.typedBy ? dateText(draft.day) : undefined],
    ['time', changed.time ?? (draft.withoutTime ? undefined : time)],
    ['site-manager', draft.siteManager],
    ['complaint-log', draft.complaintLog],
    ['answers', filled(draft.answers)],
    ['inspected', filled(draft.inspected.map((area) => area.id))],
    ['no-entry', filled(draft.noEntry)],
    ['readings', filled(readings)],
    ['found', filled(draft.found)],
    ['conditions', filled(draft.conditions)],
    ['actions', filled(draft.actions)],
    ['plants', filled(draft.plants)],
    ['set', filled(draft.set)],
    ['moved', filled(draft.moved)],
    ['picked-up', filled(draft.pickedUp)],
    ['put-out', filled(draft.putOut)],
    ['taken-up', filled(draft.takenUp)],
    ['recommended', sentence([...new Set(draft.advice)])],
    ['notes', sentence(draft.notes)],
    ['corrections', changed.corrections],
  ]
  const oneLine = draft.purpose === 'trap-check' ? ['readings', 'taken-up'] : []
  return { path: visitPath(site, draft), text: recordText(lines, oneLine) }
}
