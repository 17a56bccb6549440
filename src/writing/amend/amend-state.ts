import { committedFile } from '../../files/git-history-objects.js'
import { readRecord } from '../../files/read-record.js'
import type { Source } from '../../files/source.js'
import type { RecordPath } from '../../records/paths.js'
import type { KeyChange, Keyed } from '../../reports/history/changed-keys.js'
import { changedKeys } from '../../reports/history/changed-keys.js'
import { entriesBeyond, isNamed, statedIn, statedOf } from '../../reports/history/stated.js'

/** A committed event, as the last commit has it and as it lies on the disk. */
export interface AmendState {
  readonly record: RecordPath
  readonly onDisk: Uint8Array
  readonly committed: Uint8Array
  readonly said: Keyed
  readonly says: Keyed
}

/** Reads what is to be corrected; or says why nothing is. */
export function amendState(
  root: string,
  source: Source,
  record: RecordPath,
): AmendState | { readonly refused: string } {
  const { file } = record
  const read = source.read(file)
  if ('refused' in read) return { refused: `${file} ${read.detail}.` }
  const committed = committedFile(root, file)
  if (typeof committed === 'string') return { refused: `${file} ${whyNothing[committed]}` }
  const [said, says] = [readRecord(committed), readRecord(read.bytes)]
  if ('faults' in says)
    return {
      refused: `${file} cannot be read as a record as it lies on the disk; \`doorsweep check\` tells why. Mend it first.`,
    }
  if ('faults' in said)
    return {
      refused: `${file} cannot be read as a record as it was committed, so what a correction would change cannot be told. Mend it with an editor, and add an entry under \`corrections\` by hand.`,
    }
  return { record, onDisk: read.bytes, committed, said: said.data, says: says.data }
}

const whyNothing = {
  'no git':
    'is in no git checkout that can be read, so nothing of it is committed. Edit it; a correction is stated for what was committed.',
  'no commit':
    'is not committed: there is no commit yet. Edit it; a correction is stated for what was committed.',
  'not committed': 'is not committed. Edit it and commit it; a correction is stated for what was committed.',
} as const

/** What differs from the last commit and no entry under `corrections` that is new since names. */
export function unstatedChanges(said: Keyed, says: unknown): KeyChange[] {
  const named = entriesBeyond(statedIn(says), statedIn(said)).flatMap((entry) => statedOf(entry).keys)
  return changedKeys(without(said), without(says as Keyed)).filter((change) => !isNamed(change, named))
}

function without({ corrections: _, ...rest }: Keyed): Keyed {
  return rest
}
