import type { z } from 'zod'
import { readRecord } from '../files/read-record.js'
import type { Source } from '../files/source.js'
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
  readonly sites: ReadonlyMap<string, readonly RecordPath[]>
  readonly faults: readonly ReadFault[]
  /** Every plain file of the ledger, so that a file reference can be looked up. */
  readonly files: ReadonlySet<string>
}

export function inventoryOf(source: Source): Inventory {
  const district: RecordPath[] = []
  const sites = new Map<string, RecordPath[]>()
  const faults: ReadFault[] = []
  const files = new Set<string>()
  // In order of path, whatever order the source has, so that nothing below can depend on it.
  for (const entry of [...source.list()].sort((a, b) => (a.path < b.path ? -1 : 1))) {
    if (entry.kind === 'folder' && !/\.ya?ml$/i.test(entry.path)) continue
    if (entry.kind === 'file') files.add(entry.path)
    const found = recordPathOf(entry.path)
    if (found === null) continue
    if (entry.kind !== 'file') faults.push(notAFile(entry.path, entry.kind))
    else if ('stray' in found) faults.push(strayFault(found))
    else {
      if (found.site === undefined) district.push(found)
      else pushTo(sites, found.site, found)
    }
  }
  return { district, sites, faults, files }
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
