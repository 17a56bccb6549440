import type { YamlMap } from '../demo/yaml.js'
import { recordText } from '../demo/yaml.js'

/** What was answered so far, in the shape of the record to be. What was not answered is not in it. */
export interface VisitDraft {
  readonly by?: string
  readonly enteredBy?: string
  readonly onPaper?: string
  readonly word?: string
  /** Who else took part. */
  readonly with: readonly string[]
  readonly supervisedBy?: string
  readonly purpose?: string
  readonly start?: string
  readonly end?: string
  readonly siteManager?: string
  readonly complaintLog?: string
  readonly answers: Readonly<Record<string, string>>
  readonly inspected: readonly string[]
  readonly noEntry: Readonly<Record<string, string>>
  readonly set: Readonly<Record<string, YamlMap>>
  /** The place that a device was moved to, and how it stands there. */
  readonly moved: Readonly<Record<string, YamlMap>>
  /** Devices picked up while pupils are here. */
  readonly pickedUp: readonly string[]
  /** Devices that had been picked up, put out again. */
  readonly putOut: readonly string[]
  /** Devices taken up for good, and why. */
  readonly takenUp: Readonly<Record<string, string>>
  /** By device; `none` for one that was looked at with nothing on it. */
  readonly readings: Readonly<Record<string, 'none' | YamlMap>>
  readonly found: Readonly<Record<string, YamlMap>>
  readonly conditions: Readonly<Record<string, YamlMap>>
  readonly actions: Readonly<Record<string, YamlMap>>
  readonly plants: Readonly<Record<string, YamlMap>>
  /** Photos and scans beside the record. */
  readonly files: Readonly<Record<string, YamlMap>>
  readonly recommended: readonly string[]
  readonly notes: readonly string[]
}

export const emptyDraft: VisitDraft = {
  with: [],
  answers: {},
  inspected: [],
  noEntry: {},
  set: {},
  moved: {},
  pickedUp: [],
  putOut: [],
  takenUp: {},
  readings: {},
  found: {},
  conditions: {},
  actions: {},
  plants: {},
  files: {},
  recommended: [],
  notes: [],
}

/** The record as it is written: only what was answered, keys in the order of a visit. */
export function draftText(draft: VisitDraft): string {
  return recordText([
    ['purpose', draft.purpose],
    ['by', draft.by],
    // Who made the visit and typed it is said once.
    ['entered-by', draft.enteredBy === draft.by ? undefined : draft.enteredBy],
    ['on-paper', draft.onPaper],
    ['with', listOrNone(draft.with)],
    ['supervised-by', draft.supervisedBy],
    [
      'time',
      draft.start === undefined || draft.end === undefined ? undefined : `${draft.start} to ${draft.end}`,
    ],
    ['site-manager', draft.siteManager],
    ['complaint-log', draft.complaintLog],
    ['answers', mapOrNone(draft.answers)],
    ['inspected', listOrNone(draft.inspected)],
    ['no-entry', mapOrNone(draft.noEntry)],
    ['set', mapOrNone(draft.set)],
    ['moved', mapOrNone(draft.moved)],
    ['picked-up', listOrNone(draft.pickedUp)],
    ['put-out', listOrNone(draft.putOut)],
    ['taken-up', mapOrNone(draft.takenUp)],
    ['readings', mapOrNone(readingsOf(draft))],
    ['found', mapOrNone(draft.found)],
    ['conditions', mapOrNone(draft.conditions)],
    ['actions', mapOrNone(draft.actions)],
    ['plants', mapOrNone(draft.plants)],
    ['files', mapOrNone(draft.files)],
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

function listOrNone(list: readonly string[]): readonly string[] | undefined {
  return list.length === 0 ? undefined : list
}

function textOrNone(texts: readonly string[]): string | undefined {
  return texts.length === 0 ? undefined : texts.join('; ')
}
