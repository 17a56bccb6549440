import type { YamlMap } from '../demo/yaml.js'
import { recordText } from '../demo/yaml.js'

/** What was answered so far, in the shape of the record to be. What was not answered is not in it. */
export interface VisitDraft {
  readonly by?: string
  readonly enteredBy?: string
  readonly onPaper?: string
  readonly word?: string
  readonly purpose?: string
  readonly start?: string
  readonly end?: string
  readonly siteManager?: string
  readonly complaintLog?: string
  readonly answers: Readonly<Record<string, string>>
  readonly inspected: readonly string[]
  readonly noEntry: Readonly<Record<string, string>>
  readonly set: Readonly<Record<string, YamlMap>>
  /** Devices taken up for good, and why. */
  readonly takenUp: Readonly<Record<string, string>>
  /** By device; `none` for one that was looked at with nothing on it. */
  readonly readings: Readonly<Record<string, 'none' | YamlMap>>
  readonly found: Readonly<Record<string, YamlMap>>
  readonly conditions: Readonly<Record<string, YamlMap>>
  readonly actions: Readonly<Record<string, YamlMap>>
  readonly recommended: readonly string[]
  readonly notes: readonly string[]
}

export const emptyDraft: VisitDraft = {
  answers: {},
  inspected: [],
  noEntry: {},
  set: {},
  takenUp: {},
  readings: {},
  found: {},
  conditions: {},
  actions: {},
  recommended: [],
  notes: [],
}

/** The record as it is written: only what was answered, keys in the order of a visit. */
export function draftText(draft: VisitDraft): string {
  return recordText([
    ['purpose', draft.purpose],
    ['by', draft.by],
    ['entered-by', draft.enteredBy],
    ['on-paper', draft.onPaper],
    [
      'time',
      draft.start === undefined || draft.end === undefined ? undefined : `${draft.start} to ${draft.end}`,
    ],
    ['site-manager', draft.siteManager],
    ['complaint-log', draft.complaintLog],
    ['answers', mapOrNone(draft.answers)],
    ['inspected', draft.inspected.length === 0 ? undefined : draft.inspected],
    ['no-entry', mapOrNone(draft.noEntry)],
    ['set', mapOrNone(draft.set)],
    ['taken-up', mapOrNone(draft.takenUp)],
    ['readings', mapOrNone(readingsOf(draft))],
    ['found', mapOrNone(draft.found)],
    ['conditions', mapOrNone(draft.conditions)],
    ['actions', mapOrNone(draft.actions)],
    ['recommended', textOrNone(draft.recommended)],
    ['notes', textOrNone(draft.notes)],
  ])
}

function readingsOf({ readings }: VisitDraft): YamlMap {
  const none = Object.keys(readings).filter((id) => readings[id] === 'none')
  const others = Object.entries(readings).flatMap(([id, reading]) =>
    reading === 'none' ? [] : [[id, reading] as const],
  )
  return { ...(none.length === 0 ? {} : { none }), ...Object.fromEntries(others) }
}

function mapOrNone(map: YamlMap): YamlMap | undefined {
  return Object.keys(map).length === 0 ? undefined : map
}

function textOrNone(texts: readonly string[]): string | undefined {
  return texts.length === 0 ? undefined : texts.join('; ')
}
