import { createHash } from 'node:crypto'
import { closeSync, constants, fstatSync, lstatSync, openSync, readSync, realpathSync } from 'node:fs'
import { dirname, join, sep } from 'node:path'
import { listFolder } from './list-folder.js'
import type { Bytes, Refusal, RefusalReason, Source } from './source.js'
import { isHidden, largestRecord, tooLarge } from './source.js'
import { stampsOfTree } from './stamps.js'

/** The files as they lie on disk. Links are listed but never followed: a link could lead out of the ledger. */
export function workTree(root: string): Source & Required<Pick<Source, 'stamps'>> {
  const leadsOut = outsideOf(root)
  return {
    name: 'work tree',
    opening: { kind: 'work tree', root },
    list: (goesInto = () => true) => listFolder(root, goesInto),
    isFile: (path) => !isHidden(path) && isPlainFile(root, path),
    read: (path, atMost = largestRecord) => (leadsOut(path) ? linked : readFile(root, path, atMost)),
    sha256: (path) => (leadsOut(path) ? linked : hashFile(root, path)),
    stamps: (entries, groupOf, now) => stampsOfTree(root, entries, groupOf, now),
    prefetch: () => undefined,
  }
}

const linked: Refusal = { refused: 'link', detail: 'lies behind a link that leads out of the ledger' }

/** O_NOFOLLOW guards only the last step of a path; a link among its folders could still lead out of the ledger. */
function outsideOf(root: string): (path: string) => boolean {
  const known = new Map<string, boolean>()
  let top: string | undefined
  return (path) => {
    const folder = dirname(path)
    let leadsOut = known.get(folder)
    if (leadsOut === undefined) {
      try {
        top ??= realpathSync.native(root)
        leadsOut = !`${realpathSync.native(join(root, folder))}${sep}`.startsWith(`${top}${sep}`)
      } catch {
        // A folder that is not there is refused as missing when the file is opened.
        leadsOut = false
      }
      known.set(folder, leadsOut)
    }
    return leadsOut
  }
}

/** Under the very name it has: one in other letters, or behind a link, is no file on any machine. */
function isPlainFile(root: string, path: string): boolean {
  try {
    return (
      lstatSync(join(root, path)).isFile() &&
      realpathSync.native(join(root, path)) === join(realpathSync.native(root), path)
    )
  } catch {
    return false
  }
}

function open(root: string, path: string): number {
  // O_NONBLOCK: opening a pipe would otherwise wait for someone to write to it.
  return openSync(join(root, path), constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK)
}

function hashFile(root: string, path: string): { readonly sha256: string } | Refusal {
  let handle: number
  try {
    handle = open(root, path)
  } catch (error) {
    return refusal(error)
  }
  try {
    if (!fstatSync(handle).isFile()) return { refused: 'not-a-file', detail: 'is not a plain file' }
    const hash = createHash('sha256')
    const chunk = Buffer.allocUnsafe(64 * 1024)
    for (let got = readSync(handle, chunk); got > 0; got = readSync(handle, chunk))
      hash.update(chunk.subarray(0, got))
    return { sha256: hash.digest('hex') }
  } catch (error) {
    return refusal(error)
  } finally {
    closeSync(handle)
  }
}

const changing: Refusal = {
  refused: 'failed',
  detail: 'changed again and again while it was read; run the command again',
}

function readFile(root: string, path: string, atMost: number, timesLeft = 3): Bytes | Refusal {
  let handle: number
  try {
    handle = open(root, path)
  } catch (error) {
    return refusal(error)
  }
  try {
    const stat = fstatSync(handle)
    if (stat.isDirectory()) return { refused: 'folder', detail: 'is a folder' }
    if (!stat.isFile()) return { refused: 'not-a-file', detail: 'is not a plain file' }
    if (stat.size > atMost) return tooLarge(stat.size, atMost)
    const bytes = Buffer.allocUnsafe(stat.size)
    let filled = 0
    while (filled < bytes.length) {
      const got = readSync(handle, bytes, filled, bytes.length - filled, filled)
      if (got === 0) break
      filled += got
    }
    const after = fstatSync(handle)
    if (filled === stat.size && after.size === stat.size && after.mtimeMs === stat.mtimeMs) return { bytes }
    // Someone writes to it just now: half of the old and half of the new is what nobody ever wrote.
    return timesLeft > 0 ? readFile(root, path, atMost, timesLeft - 1) : changing
  } catch (error) {
    return refusal(error)
  } finally {
    closeSync(handle)
  }
}

const reasonOfCode: Record<string, RefusalReason> = {
  ENOENT: 'missing',
  ENOTDIR: 'missing',
  ELOOP: 'link',
  EISDIR: 'folder',
  EACCES: 'no-permission',
  EPERM: 'no-permission',
}

function refusal(error: unknown): Refusal {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const refused = reasonOfCode[code] ?? 'failed'
  const details: Record<RefusalReason, string> = {
    missing: 'does not exist',
    link: 'is a link; links are not followed',
    folder: 'is a folder',
    'not-a-file': 'is not a plain file',
    'too-large': 'is too large',
    'no-permission': 'may not be read by you',
    failed: `could not be read (${code || 'unknown'})`,
  }
  return { refused, detail: details[refused] }
}
