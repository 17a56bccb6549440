import type { TextFault } from '../files/careful-reader.js'
import type { RecordKind, RecordOf } from '../records/kinds.js'
import type { Meaningful } from '../records/schema-walk.js'
import type { ShapeFault } from '../records/shape.js'
import type { Day, KeyPath } from '../types.js'

/** A record that was read and has the shape of its kind. */
export interface Loaded<K extends RecordKind> {
  readonly kind: K
  readonly file: string
  /** The stem of its path: the name other records use. */
  readonly id: string
  readonly data: RecordOf<K>
  /** Every file it names, as written: a path from the folder the record lies in. */
  readonly files: readonly Meaningful[]
}

/** A record of something that happened on a day. */
export interface LoadedEvent<K extends RecordKind> extends Loaded<K> {
  readonly day: Day
  readonly who: string
  readonly site?: string
}

/** What stood in the way of reading a file, as data; the rules of the reading family make problems of it. */
export type ReadFault = { readonly file: string } & (
  | { readonly kind: 'refused'; readonly detail: string }
  | { readonly kind: 'text'; readonly fault: TextFault }
  | { readonly kind: 'shape'; readonly fault: ShapeFault; readonly record: RecordKind }
  | { readonly kind: 'impossible-date'; readonly path: KeyPath; readonly text: string }
  | { readonly kind: 'future'; readonly today: Day }
  | { readonly kind: 'stray'; readonly why: StrayReason; readonly hint: string }
)

export type StrayReason =
  | 'unknown-place'
  | 'bad-name'
  | 'impossible-date'
  | 'wrong-ending'
  | 'folder'
  | 'link'
