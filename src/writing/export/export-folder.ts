import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs'
import { basename, dirname, join, relative, sep } from 'node:path'
import { safeWrite } from '../../files/safe-write.js'
import type { ExportFormat } from './part.js'
import { exportTables, tablesVersion } from './tables.js'

/** Names that begin with `_` are not data to the engines that read such folders. */
const marker = '_doorsweep-export.json'
const stamps = '_districts'

/** What is told of a district beside its tables; the last thing written, so that without it they may not be whole. */
export interface Stamp {
  readonly district: string
  readonly name: string
  readonly state: string | null
  readonly 'as-of': string
}

export type FolderRefused =
  | { readonly refused: 'not a folder' | 'in the ledger' | 'not an export' | 'unreadable marker' }
  | { readonly refused: 'other format'; readonly format: string }
  | { readonly refused: 'other version'; readonly version: string }
  | { readonly refused: 'other district'; readonly name: string }

export interface FolderState {
  /** `new`: it does not exist yet. */
  readonly kind: 'new' | 'empty' | 'export'
  /** What this folder already says of the district. */
  readonly stamp: Stamp | undefined
}

/** Whether an export may be written to a folder. Nothing is changed. Throws what the file system does. */
export function lookAtFolder(
  folder: string,
  root: string,
  format: ExportFormat,
  district: string,
): FolderState | FolderRefused {
  if (liesIn(folder, root)) return { refused: 'in the ledger' }
  if (!existsSync(folder)) return { kind: 'new', stamp: undefined }
  if (!statSync(folder).isDirectory()) return { refused: 'not a folder' }
  if (readdirSync(folder).length === 0) return { kind: 'empty', stamp: undefined }
  if (!existsSync(join(folder, marker))) return { refused: 'not an export' }
  const marked = readJson(join(folder, marker))
  if (typeof marked !== 'object' || marked === null) return { refused: 'unreadable marker' }
  const { 'format-version': version, files } = marked as { 'format-version'?: unknown; files?: unknown }
  if (version !== tablesVersion) return { refused: 'other version', version: String(version) }
  if (files !== format) return { refused: 'other format', format: String(files) }
  return { kind: 'export', stamp: readJson(join(folder, stamps, `${district}.json`)) as Stamp | undefined }
}

/** An empty folder in which the export is made: beside a folder that is not there yet, within one that is. */
export function workFolder(
  folder: string,
  kind: FolderState['kind'],
  district: string,
  unique: string,
): string {
  const name = `_writing-${district}-${unique}`
  const work = kind === 'new' ? join(dirname(folder), `.${basename(folder)}.${name}`) : join(folder, name)
  rmSync(work, { recursive: true, force: true })
  mkdirSync(work, { recursive: true })
  return work
}

/**
 * Puts what was made in its place. A new folder comes into being whole, by one renaming. In one that is there, the
 * partitions of this district are exchanged table by table; other districts are not touched. When that fails half-way,
 * what was there before is put back.
 */
export function putInPlace(
  work: string,
  folder: string,
  kind: FolderState['kind'],
  format: ExportFormat,
  stamp: Stamp,
): void {
  const mark = (where: string) =>
    safeWrite(join(where, marker), jsonOf({ 'format-version': tablesVersion, files: format }))
  const stampIn = (where: string) => safeWrite(join(where, stamps, `${stamp.district}.json`), jsonOf(stamp))
  if (kind === 'new') {
    mark(work)
    stampIn(work)
    renameSync(work, folder)
    return
  }
  mark(folder)
  rmSync(join(folder, stamps, `${stamp.district}.json`), { force: true })
  exchange(work, folder, `district=${stamp.district}`)
  stampIn(folder)
  rmSync(work, { recursive: true, force: true })
}

function exchange(work: string, folder: string, partition: string): void {
  const undo: (() => void)[] = []
  const move = (from: string, to: string) => {
    mkdirSync(dirname(to), { recursive: true })
    renameSync(from, to)
    undo.push(() => renameSync(to, from))
  }
  try {
    for (const { name } of exportTables) {
      const place = join(folder, name, partition)
      if (existsSync(place)) move(place, join(work, 'before', name))
      move(join(work, name, partition), place)
    }
  } catch (error) {
    for (const back of undo.reverse()) back()
    throw error
  }
}

/** Whether a place lies in a folder or is it, links followed as far as there is anything to follow. */
function liesIn(place: string, folder: string): boolean {
  const inside = relative(realpathSync(folder), realOf(place))
  return inside === '' || (inside !== '..' && !inside.startsWith(`..${sep}`) && !/^[A-Za-z]:/.test(inside))
}

function realOf(place: string): string {
  try {
    return realpathSync(place)
  } catch {
    const above = dirname(place)
    return above === place ? place : join(realOf(above), basename(place))
  }
}

function readJson(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return undefined
  }
}

const jsonOf = (document: unknown) => `${JSON.stringify(document, null, 2)}\n`
