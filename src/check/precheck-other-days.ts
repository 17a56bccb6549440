import { overlaid } from '../files/overlaid.js'
import { readRecord } from '../files/read-record.js'
import type { Source } from '../files/source.js'
import { dayOf, isoOf } from '../measure/calendar.js'
import type { Day, Problem } from '../types.js'
import { textOf } from './draft.js'
import type { DraftedApplication, Precheck, StillToDo } from './precheck.js'
import { precheck } from './precheck.js'

/** The same draft on another of its days (`rain-dates`), and what is told of it otherwise than of the first. */
export interface OtherDay {
  readonly day: Day
  readonly found: Precheck
  readonly broken: readonly Problem[]
  readonly stillToDo: readonly StillToDo[]
  /** Would be broken on the first day and not on this. */
  readonly onlyFirst: readonly Problem[]
  /** Notices and signs of which no record tells whether they give the other days; they were counted. */
  readonly unsure: readonly string[]
}

/** Each other day of a draft, judged as if the whole of it were moved there and the first day had never been. */
export function otherDays(
  source: Source,
  draft: DraftedApplication,
  first: Precheck,
  today: Day,
): readonly OtherDay[] {
  const read = readRecord(draft.text)
  if ('faults' in read || !first.treatment) return []
  const dates = Array.isArray(read.data['rain-dates']) ? read.data['rain-dates'] : []
  const days = dates.flatMap((date) => (typeof date === 'string' ? (dayOf(date) ?? []) : []))
  return [...new Set(days)]
    .filter((day) => day !== draft.path.day)
    .map((day) => onOtherDay(source, { draft, data: read.data, dates }, day, first, today))
}

interface ReadDraft {
  readonly draft: DraftedApplication
  readonly data: Readonly<Record<string, unknown>>
  readonly dates: readonly unknown[]
}

function onOtherDay(
  source: Source,
  { draft, data, dates }: ReadDraft,
  day: Day,
  first: Precheck,
  today: Day,
): OtherDay {
  const path = placeOn(source, draft.path, day)
  const { laid, unsure } = noticesMoved(source, draft.path, path.id)
  const left = dates.filter((date) => typeof date === 'string' && date > isoOf(day))
  const { 'rain-dates': _, ...rest } = data
  const text = textOf(left.length === 0 ? rest : { ...rest, 'rain-dates': left })
  const moved = overlaid(source, new Map([[draft.path.file, null], ...laid]))
  const found = precheck(moved, { path, text }, today)
  const names = new Map([
    [draft.path.file, 'draft'],
    [path.file, 'draft'],
  ])
  return {
    day,
    found,
    broken: without(found.broken, first.broken, names),
    onlyFirst: without(first.broken, found.broken, names),
    stillToDo: found.stillToDo.filter(
      ({ problem }) =>
        without(
          [problem],
          first.stillToDo.map((one) => one.problem),
          names,
        ).length > 0,
    ),
    unsure,
  }
}

function placeOn(source: Source, path: DraftedApplication['path'], day: Day): DraftedApplication['path'] {
  const idOn = (word: string) => `${isoOf(day)}-${path.who}${word}`
  const fileOf = (id: string) => `sites/${path.site}/applications/${id}.yaml`
  // Another application of that person may lie on that day already.
  const isTaken = (id: string) => !('refused' in source.read(fileOf(id)))
  const id = isTaken(idOn('')) ? idOn('-instead') : idOn('')
  return { ...path, id, day, file: fileOf(id) }
}

/**
 * Notices about the application as they would read of the other day. What was sent or put up gives that day too if it
 * says `rain-dates`; if it lists what it says without them, it told people of the first day only, and is left out.
 */
function noticesMoved(source: Source, { site, id }: DraftedApplication['path'], newId: string) {
  const laid: [string, Uint8Array | null][] = []
  const unsure: string[] = []
  const paths = source
    .list()
    .map(({ path }) => path)
    .filter((path) => path.startsWith(`sites/${site}/notices/`) && path.endsWith('.yaml'))
  source.prefetch(paths)
  for (const path of paths) {
    const bytes = source.read(path)
    const read = 'refused' in bytes ? undefined : readRecord(bytes.bytes)
    if (!read || 'faults' in read || read.data.application !== id) continue
    const { sent, posted, ...rest } = read.data
    const given = Object.entries({ sent, posted }).filter(([, part]) => part !== undefined)
    const kept = given.filter(([, part]) => givesOtherDays(part) !== 'no')
    if (kept.some(([, part]) => givesOtherDays(part) === 'not recorded')) unsure.push(path)
    laid.push([
      path,
      kept.length === 0 ? null : textOf({ ...rest, ...Object.fromEntries(kept), application: newId }),
    ])
  }
  return { laid, unsure }
}

function givesOtherDays(part: unknown): 'yes' | 'no' | 'not recorded' {
  const says = typeof part === 'object' && part !== null && 'says' in part ? part.says : undefined
  if (!Array.isArray(says)) return 'not recorded'
  return says.includes('rain-dates') ? 'yes' : 'no'
}

/** Problems that are not among the others: the same rule at the same place of the same weight is the same. */
function without(
  problems: readonly Problem[],
  others: readonly Problem[],
  names: ReadonlyMap<string, string>,
): Problem[] {
  const left = others.map((problem) => keyOf(problem, names))
  return problems.filter((problem) => {
    const at = left.indexOf(keyOf(problem, names))
    if (at !== -1) left.splice(at, 1)
    return at === -1
  })
}

function keyOf({ rule, level, at }: Problem, names: ReadonlyMap<string, string>): string {
  return JSON.stringify([rule, level, names.get(at.file) ?? at.file, at.path])
}
