import type { Source } from '../../files/source.js'
import type { Loaded } from '../../ledger/loaded.js'
import { readOne } from '../../ledger/read-records.js'
import type { RecordOf } from '../../records/kinds.js'

/** What the ledger says of the district itself; undefined where that record cannot be used. */
export function districtRecord(source: Source): RecordOf<'district'> | undefined {
  const read = readOne(source, { file: 'district.yaml', kind: 'district', id: 'district' }, [])
  return (read as Loaded<'district'> | null)?.data
}
