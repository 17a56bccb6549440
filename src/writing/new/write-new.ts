import { existsSync, lstatSync, readdirSync, realpathSync } from 'node:fs'
import { dirname, join, sep } from 'node:path'
import { safeWrite } from '../../files/safe-write.js'

export type WrittenNew =
  | 'written'
  | { readonly refused: 'taken' | 'outside' | 'failed'; readonly detail: string }

/** Writes a new file of a ledger, never over another, and never through a link that leads out of the ledger. */
export function writeNew(root: string, file: string, text: string): WrittenNew {
  const path = join(root, file)
  try {
    if (lstatSync(path, { throwIfNoEntry: false })) return { refused: 'taken', detail: 'is there already' }
    if (leadsOut(root, path))
      return { refused: 'outside', detail: 'lies behind a link that leads out of the ledger' }
    safeWrite(path, text, { fresh: true })
    return 'written'
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === '') throw error
    // Another command may have taken the name since it was looked at.
    const isTaken = code === 'EEXIST' && existsSync(path)
    return isTaken
      ? { refused: 'taken', detail: 'is there already' }
      : {
          refused: 'failed',
          detail: `could not be written: ${reasons[code] ?? 'the disk refused it'} (${code})`,
        }
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EROFS: 'the disk may only be read',
  EACCES: 'you may not write there',
  EPERM: 'you may not write there',
  ENOTDIR: 'a file stands where a folder belongs',
  EEXIST: 'a file stands where a folder belongs',
}

function leadsOut(root: string, path: string): boolean {
  let folder = dirname(path)
  while (!existsSync(folder) && folder !== dirname(folder)) folder = dirname(folder)
  const inside = existsSync(root) ? realpathSync(root) : realpathSync(folder)
  return !`${realpathSync(folder)}${sep}`.startsWith(`${inside}${sep}`)
}

/** Ids of the people or sites of a ledger, from the names of their files alone. */
export function knownIds(root: string, kind: 'person' | 'site'): string[] {
  const folder = join(root, kind === 'person' ? 'people' : 'sites')
  if (!existsSync(folder)) return []
  const names = readdirSync(folder)
  return kind === 'person'
    ? names.filter((name) => name.endsWith('.yaml')).map((name) => name.slice(0, -'.yaml'.length))
    : names.filter((name) => existsSync(join(folder, name, 'site.yaml')))
}
