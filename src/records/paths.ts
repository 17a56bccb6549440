import { dayOf } from '../measure/calendar.js'
import type { Day } from '../types.js'
import { recordIdPattern } from './fields.js'
import type { RecordKind } from './kinds.js'

export { siteOfPath } from './site-of-path.js'

/** What a path says about the record that lies there: its kind, its id, and for an event its day and person. */
export interface RecordPath {
  readonly file: string
  readonly kind: RecordKind
  /** The path's stem: the name other records use. */
  readonly id: string
  readonly site?: string
  readonly day?: Day
  /** What follows the date: the id of the person, and after it a distinguishing word where one is needed. */
  readonly who?: string
}

/** Why a YAML file lies where no record belongs. */
export interface StrayPath {
  readonly file: string
  readonly stray: 'unknown-place' | 'bad-name' | 'impossible-date' | 'wrong-ending'
  readonly hint?: string
}

/** The path of a file that a record names: it lies beside the record, in its folder. */
export function besideRecord(record: string, file: string): string {
  return record.slice(0, record.lastIndexOf('/') + 1) + file
}

const districtFolders: Record<string, RecordKind> = {
  people: 'person',
  firms: 'firm',
  plans: 'plan',
  rulebooks: 'rulebook',
  wordings: 'wording',
  exceptions: 'exception',
}

const districtEventFolders: Record<string, RecordKind> = { education: 'education', filings: 'filing' }

export const siteFolders: Record<string, RecordKind> = {
  visits: 'visit',
  applications: 'application',
  complaints: 'complaint',
  repairs: 'repair',
  notices: 'notice',
  incidents: 'incident',
  storage: 'storage',
  specimens: 'specimen',
}

const id = new RegExp(recordIdPattern)
const eventStem = /^([0-9]{4}-[0-9]{2}-[0-9]{2})-([a-z][a-z0-9-]*)$/

/**
 * Says what a path holds; null for a file that is no YAML and so no record (a label, a diagram, a page of notes).
 * A file, or a link, that stands where a folder of records belongs is stray: it would hide them all.
 */
export function recordPathOf(file: string): RecordPath | StrayPath | null {
  if (/\.ya?ml$/i.test(file) && !file.endsWith('.yaml')) return { file, stray: 'wrong-ending' }
  if (isRecordFolder(file)) return { file, stray: 'unknown-place' }
  if (!file.endsWith('.yaml')) return null
  const parts = file.slice(0, -'.yaml'.length).split('/')
  const [first = '', second = '', third = '', fourth = ''] = parts
  if (parts.length === 1 && first === 'district') return { file, kind: 'district', id: 'district' }
  const folderKind =
    parts.length === 2 && Object.hasOwn(districtFolders, first) ? districtFolders[first] : undefined
  if (folderKind) return named(file, folderKind, second)
  if (parts.length === 2 && first === 'reviews') {
    return /^[12][0-9]{3}$/.test(second)
      ? { file, kind: 'review', id: second }
      : { file, stray: 'bad-name', hint: 'reviews/<year>.yaml' }
  }
  const eventKind =
    parts.length === 2 && Object.hasOwn(districtEventFolders, first) ? districtEventFolders[first] : undefined
  if (eventKind) return event(file, eventKind, second)
  if (parts.length === 3 && first === 'products' && third === 'product') return named(file, 'product', second)
  if (first === 'sites' && id.test(second)) {
    if (parts.length === 3 && third === 'site') return { file, kind: 'site', id: second, site: second }
    const kind = parts.length === 4 && Object.hasOwn(siteFolders, third) ? siteFolders[third] : undefined
    if (kind) return event(file, kind, fourth, second)
  }
  return { file, stray: 'unknown-place' }
}

const topFolders = new Set([
  ...Object.keys(districtFolders),
  ...Object.keys(districtEventFolders),
  'products',
  'sites',
  'reviews',
])

function isRecordFolder(file: string): boolean {
  const [first = '', second = '', third = '', ...rest] = file.split('/')
  if (second === '') return topFolders.has(first)
  if (third === '') return (first === 'sites' || first === 'products') && id.test(second)
  return first === 'sites' && id.test(second) && rest.length === 0 && Object.hasOwn(siteFolders, third)
}

function named(file: string, kind: RecordKind, stem: string): RecordPath | StrayPath {
  return id.test(stem) ? { file, kind, id: stem } : { file, stray: 'bad-name' }
}

function event(file: string, kind: RecordKind, stem: string, site?: string): RecordPath | StrayPath {
  const match = eventStem.exec(stem)
  if (!match) return { file, stray: 'bad-name', hint: '<date>-<who>.yaml' }
  const day = dayOf(match[1] ?? '')
  if (day === null) return { file, stray: 'impossible-date', hint: match[1] ?? '' }
  return { file, kind, id: stem, day, who: match[2] ?? '', ...(site === undefined ? {} : { site }) }
}
