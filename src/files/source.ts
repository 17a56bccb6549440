import type { NotChecked } from '../types.js'
import type { Opening } from './opening.js'
import type { Stamps } from './stamps.js'

/** Where bytes come from: the work tree, git's index, or any revision. Paths are from the ledger root, with `/`. */
export interface Source {
  /** `work tree`, `index`, or the revision as given. */
  readonly name: string
  /** How another thread opens the same; a source that is only here cannot be opened there. */
  readonly opening?: Opening
  /**
   * Every entry below the root but for dot files, sorted by path. A source may spare itself the folders for which `goesInto`
   * says no; it may list what is in them all the same.
   */
  list(goesInto?: (folder: string) => boolean): readonly Entry[]
  /** Whether a plain file lies there that a ledger is made of: no link, nothing behind one, no dot file. */
  isFile(path: string): boolean
  /**
   * Reads one file. Never throws for what is on disk: a file that cannot be read is a refusal. So is one larger than
   * `atMost` bytes, `largestRecord` if not said.
   */
  read(path: string, atMost?: number): Bytes | Refusal
  /** SHA-256 of a file of any size, in hex. */
  sha256(path: string): { readonly sha256: string } | Refusal
  /**
   * Stamps of what it lists, by group of files; not every source has them. `now` is the time before any file is read, in
   * milliseconds.
   */
  stamps?(entries: readonly Entry[], groupOf: (path: string) => string | undefined, now: number): Stamps
  /** Tells the source which files will be asked for next, so that it can fetch them at once. */
  prefetch(paths: readonly string[]): void
  /** Parts of the ledger that the source does not hold and that no listed entry stands for. */
  readonly notChecked?: readonly NotChecked[]
}

export interface Entry {
  readonly path: string
  /** `closed` is a folder that cannot be looked into: what is in it is not known. */
  readonly kind: 'file' | 'folder' | 'link' | 'closed' | 'other'
  readonly size: number
}

/** Whether a path leads through a folder that no ledger is read from. */
export function isHidden(path: string): boolean {
  return path.split('/').some((part) => part.startsWith('.') || part === 'node_modules')
}

export interface Bytes {
  readonly bytes: Uint8Array
}

export type RefusalReason =
  | 'missing'
  | 'folder'
  | 'link'
  | 'not-a-file'
  | 'too-large'
  | 'no-permission'
  | 'failed'

export interface Refusal {
  readonly refused: RefusalReason
  readonly detail: string
}

/** A record is a page of text; a larger file is not one. */
export const largestRecord = 1024 * 1024

export function tooLarge(size: number, atMost: number): Refusal {
  const most = atMost === largestRecord ? 'a record is at most' : 'what is read is at most'
  return { refused: 'too-large', detail: `is ${size} bytes; ${most} ${atMost}` }
}
