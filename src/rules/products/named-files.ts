import type { Loaded, LoadedEvent } from '../../ledger/loaded.js'
import type { RecordKind } from '../../records/kinds.js'
import { besideRecord } from '../../records/paths.js'
import type { Day, KeyPath } from '../../types.js'

/** A file that a record names. */
export interface NamedFile {
  /** As the record writes it, from its own folder. */
  readonly written: string
  /** From the root of the ledger. */
  readonly path: string
  /** Where the record names it. */
  readonly at: { readonly file: string; readonly path: KeyPath }
  /** Day from which it should be there. */
  readonly from: Day
}

/** Every file that records name; one that happened on a day asks for its file from that day on, others from `begins`. */
export function* namedFiles(
  records: Iterable<Loaded<RecordKind> | LoadedEvent<RecordKind>>,
  begins: Day,
): Iterable<NamedFile & { readonly record: Loaded<RecordKind> }> {
  for (const record of records) {
    for (const { value, path } of record.files)
      yield {
        record,
        written: value,
        path: pathFrom(record.file, value),
        at: { file: record.file, path },
        from: 'day' in record ? record.day : begins,
      }
  }
}

function pathFrom(record: string, written: string): string {
  return besideRecord(record, written).replaceAll(/\/{2,}/g, '/')
}
