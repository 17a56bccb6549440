import type { z } from 'zod'
import { readRecord } from '../files/read-record.js'
import type { Entry, Source } from '../files/source.js'
import { dayOf } from '../measure/calendar.js'
import type { Role } from '../records/fields.js'
import type { RecordKind } from '../records/kinds.js'
import { recordKinds } from '../records/kinds.js'
import type { RecordPath, StrayPath } from '../records/paths.js'
import { recordPathOf } from '../records/paths.js'
import type { Meaningful } from '../records/schema-walk.js'
import { meaningfulIn } from '../records/schema-walk.js'
import { shapeOf } from '../records/shape.js'
import type { Loaded, LoadedEvent, ReadFault } from './loaded.js'

/** The files of a ledger, sorted into the district's records and each site's. Nothing is read yet. */
export interface Inventory {
  readonly district: readonly RecordPath[]
  /** Files of records by site. Only the files are kept: there are hundreds of thousands in a large ledger. */
  readonly sites: ReadonlyMap<string, readonly string[]>
  readonly faults: readonly ReadFault[]
  /** Files that are no records: labels, diagrams, pages of notes. */
  readonly otherFiles: readonly string[]
}

export function inventoryOf(source: Source): Inventory {
  return inventoryOfEntries(source.list())
}

export function inventoryOfEntries(entries: readonly Entry[]): Inventory {
  const district: RecordPath[] = []
  const sites = new Map<string, string[]>()
  const faults: ReadFault[] = []
  const otherFiles: string[] = []
  // In order of path, whatever order the source has, so that nothing below can depend on it.
  for (const entry of [...entries].sort((a, b) => (a.path < b.path ? -1 : 1))) {
    if (entry.kind === 'closed') {
      faults.push({ file: entry.path, kind: 'refused', detail: 'is a folder that cannot be looked into' })
      continue
    }
    if (entry.kind === 'folder' && !/\.ya?ml$/i.test(entry.path)) continue
    const found = recordPathOf(entry.path)
    if (found === null) {
      if (entry.kind === 'file') otherFiles.push(entry.path)
      continue
    }
    if (entry.kind !== 'file') faults.push(notAFile(entry.path, entry.kind))
    else if ('stray' in found) faults.push(strayFault(found))
    else {
      if (found.site === undefined) district.push(found)
      else pushTo(sites, found.site, found.file)
    }
  }
  return { district, sites, faults, otherFiles }
}

/** What the paths of record files say; what is no path of a record is left out. */
export function recordPathsOf(files: readonly string[]): RecordPath[] {
  return files.flatMap((file) => {
    const found = recordPathOf(file)
    return found === null || 'stray' in found ? [] : [found]
  })
}

function pushTo<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key)
  if (list) list.push(value)
  else map.set(key, [value])
}

function notAFile(file: string, kind: 'folder' | 'link' | 'other'): ReadFault {
  if (kind === 'other') return { file, kind: 'refused', detail: 'is not a plain file' }
  return { file, kind: 'stray', why: kind, hint: '' }
}

function strayFault(stray: StrayPath): ReadFault {
  return { file: stray.file, kind: 'stray', why: stray.stray, hint: stray.hint ?? '' }
}

export type AnyLoaded = Loaded<RecordKind> | LoadedEvent<RecordKind>

/** Reads one record. What is wrong goes to `faults`; null when the record cannot be used. */
export function readOne(source: Source, path: RecordPath, faults: ReadFault[]): AnyLoaded | null {
  const read = source.read(path.file)
  if ('refused' in read) {
    faults.push({ file: path.file, kind: 'refused', detail: read.detail })
    return null
  }
  const parsed = readRecord(read.bytes)
  if ('faults' in parsed) {
    for (const fault of parsed.faults) faults.push({ file: path.file, kind: 'text', fault })
    return null
  }
  const shaped = shapeOf(recordKinds[path.kind].schema as z.ZodType, parsed.data)
  for (const fault of shaped.faults) faults.push({ file: path.file, kind: 'shape', fault, record: path.kind })
  if (!shaped.usable) return null
  const { files, impossible } = meaningOf(path, shaped.record)
  for (const date of impossible)
    faults.push({ file: path.file, kind: 'impossible-date', path: date.path, text: date.value })
  if (impossible.length > 0) return null
  const loaded = { kind: path.kind, file: path.file, id: path.id, data: shaped.record, files }
  if (path.day === undefined) return loaded as unknown as AnyLoaded
  return {
    ...loaded,
    day: path.day,
    who: path.who ?? '',
    ...(path.site === undefined ? {} : { site: path.site }),
  } as unknown as AnyLoaded
}

/** The files a record names, and the dates in it that are in no calendar. */
function meaningOf(path: RecordPath, record: unknown): { files: Meaningful[]; impossible: Meaningful[] } {
  const found = meaningfulIn(
    recordKinds[path.kind].schema,
    record,
    (role, value) => role.role === 'file' || isImpossible(role, value),
  )
  return {
    files: found.filter(({ role }) => role.role === 'file'),
    impossible: found.filter(({ role }) => role.role !== 'file'),
  }
}

function isImpossible({ role }: Role, value: string): boolean {
  if (role === 'date') return dayOf(value) === null
  return role === 'dates' && value.split(' to ').some((text) => dayOf(text) === null)
}
