import { createHash } from 'node:crypto'
import type { Dirent } from 'node:fs'
import {
  accessSync,
  closeSync,
  constants,
  fstatSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
} from 'node:fs'
import { dirname, join, sep } from 'node:path'
import type { Bytes, Entry, Refusal, RefusalReason, Source } from './source.js'
import { largestRecord, tooLarge } from './source.js'

/** The files as they lie on disk. Links are listed but never followed: a link could lead out of the ledger. */
export function workTree(root: string): Source {
  const leadsOut = outsideOf(root)
  return {
    name: 'work tree',
    list: (goesInto = () => true) => listFolder(root, goesInto),
    read: (path, atMost = largestRecord) => (leadsOut(path) ? linked : readFile(root, path, atMost)),
    sha256: (path) => (leadsOut(path) ? linked : hashFile(root, path)),
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

function listFolder(root: string, goesInto: (folder: string) => boolean): Entry[] {
  const entries: Entry[] = []
  const walk = (folder: string) => {
    for (const found of entriesOf(join(root, folder))) {
      if (found.name.startsWith('.') || found.name === 'node_modules') continue
      const path = folder === '' ? found.name : `${folder}/${found.name}`
      if (found.isDirectory()) {
        // A folder that may not be read is listed as what it is not, so that it is told, never passed over.
        entries.push({ path, kind: mayBeRead(join(root, path)) ? 'folder' : 'other', size: 0 })
        if (goesInto(path)) walk(path)
      } else if (found.isSymbolicLink()) entries.push({ path, kind: 'link', size: 0 })
      else if (found.isFile()) entries.push({ path, kind: 'file', size: 0 })
      else entries.push({ path, kind: 'other', size: 0 })
    }
  }
  walk('')
  return entries.sort((a, b) => (a.path < b.path ? -1 : 1))
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
  } catch {
    return []
  }
}

function mayBeRead(folder: string): boolean {
  try {
    accessSync(folder, constants.R_OK | constants.X_OK)
    return true
  } catch {
    return false
  }
}

function readFile(root: string, path: string, atMost: number): Bytes | Refusal {
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
    return { bytes: bytes.subarray(0, filled) }
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
