import { lstatSync } from 'node:fs'
import { join } from 'node:path'
import { broughtBy } from '../../check/brought-by.js'
import { overlaid } from '../../files/overlaid.js'
import { safeWrite } from '../../files/safe-write.js'
import type { Source } from '../../files/source.js'
import type { ReadOptions } from '../../ledger/read-ledger.js'
import type { WrittenChecked } from '../write-checked.js'
import { isWrongIn } from '../write-checked.js'
import type { AmendState } from './amend-state.js'

/**
 * Writes a corrected record in place of the one on the disk, but only if nothing in it is wrong in itself, and only if
 * the file is still what was read. What the change brings is told against the record as it was committed, so that a fault
 * an editor put in is not passed over.
 */
export function writeAmended(
  root: string,
  source: Source,
  { record, onDisk, committed }: AmendState,
  text: string,
  options: ReadOptions,
): WrittenChecked {
  const { file } = record
  const before = overlaid(source, new Map([[file, committed]]))
  const bytes = Buffer.from(text, 'utf8')
  // A record of the district itself belongs to no site: it is judged with none.
  // What is still to come is read too: an application can be planned.
  const asOf = Math.max(options.asOf, record.day ?? options.asOf)
  const brought = broughtBy(before, record.site ?? '', new Map([[file, bytes]]), {
    asOf,
    asOfIsToday: options.asOfIsToday && asOf === options.asOf,
  })
  if (isWrongIn(brought, file)) return { is: 'wrong', brought: brought.problems }
  const path = join(root, file)
  const refused = (detail: string): WrittenChecked => ({ is: 'refused', why: { refused: 'failed', detail } })
  try {
    // A file is replaced by renaming, which asks nothing of the file itself.
    if ((lstatSync(path).mode & 0o222) === 0) return refused('is read-only; nothing was written')
    const now = source.read(file)
    if ('refused' in now || !Buffer.from(now.bytes).equals(onDisk))
      return refused(
        'was changed on the disk in the meantime; nothing was written. Look at it, and run this again',
      )
    safeWrite(path, text)
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === '') throw error
    return refused(`could not be written (${code})`)
  }
  return { is: 'written', brought: brought.problems }
}
