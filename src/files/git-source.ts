import { createHash } from 'node:crypto'
import { git, partsOf } from './git.js'
import type { Opening } from './opening.js'
import type { Bytes, Entry, Refusal, Source } from './source.js'
import { isHidden, largestRecord, tooLarge } from './source.js'
import { stampsOfContents } from './stamps.js'

interface Blob {
  readonly id: string
  readonly size: number
  readonly kind: 'file' | 'link' | 'submodule'
  /** A merge left it in conflict: there is no one content. */
  readonly conflict?: boolean
}

/** A ledger as it stands in a commit. Null when there is no such revision, or no git. */
export function revision(root: string, rev: string): Source | null {
  if (rev.startsWith('-')) return null
  const listing = git(root, ['ls-tree', '-r', '-z', '-l', `${rev}^{tree}`, '--', '.'])
  if (listing === null) return null
  const blobs = new Map<string, Blob>()
  for (const line of partsOf(listing)) {
    // Git writes a word for the size of what the repository does not hold; such a file is listed all the same.
    const match = /^(\d+) (?:blob|commit) ([0-9a-f]+) +(\S+)\t(.*)$/s.exec(line)
    if (match)
      blobs.set(match[4] ?? '', {
        id: match[2] ?? '',
        size: Number(match[3]) || 0,
        kind: kindOfMode(match[1]),
      })
  }
  return blobSource(rev, { kind: 'revision', root, rev }, blobs)
}

/** A ledger as it is staged. Null when the folder is not in a git checkout. */
export function index(root: string): Source | null {
  const listing = git(root, ['ls-files', '-s', '-z', '--', '.'])
  if (listing === null) return null
  const blobs = new Map<string, Blob>()
  for (const line of partsOf(listing)) {
    const match = /^(\d+) ([0-9a-f]+) ([0-3])\t(.*)$/s.exec(line)
    if (!match) continue
    blobs.set(match[4] ?? '', {
      id: match[2] ?? '',
      size: 0,
      kind: kindOfMode(match[1]),
      conflict: match[3] !== '0',
    })
  }
  return blobSource('index', { kind: 'index', root }, blobs)
}

function kindOfMode(mode: string | undefined): Blob['kind'] {
  if (mode === '120000') return 'link'
  return mode === '160000' ? 'submodule' : 'file'
}

const missing: Refusal = { refused: 'missing', detail: 'does not exist' }
const link: Refusal = { refused: 'link', detail: 'is a link; links are not followed' }
const submodule: Refusal = { refused: 'not-a-file', detail: 'is a submodule, whose records are not read' }
const inConflict: Refusal = {
  refused: 'failed',
  detail: 'is in conflict: end the merge with `git add` or `git rm`',
}

/** The sizes in the index are not known beforehand. */
const bounded = (bytes: Uint8Array, atMost: number): Bytes | Refusal =>
  bytes.length > atMost ? tooLarge(bytes.length, atMost) : { bytes }

function blobSource(name: string, opening: Opening, blobs: ReadonlyMap<string, Blob>): Source {
  const { root } = opening
  const fetched = new Map<string, Bytes | Refusal>()
  return {
    name,
    list() {
      const entries: Entry[] = []
      for (const [path, blob] of blobs) {
        // A submodule is listed as what it is not, so that records in it are told, never passed over.
        const kind = blob.kind === 'submodule' ? 'other' : blob.kind
        if (!isHidden(path)) entries.push({ path, kind, size: blob.size })
      }
      return entries.sort((a, b) => (a.path < b.path ? -1 : 1))
    },
    opening,
    isFile: (path) => blobs.get(path)?.kind === 'file' && !isHidden(path),
    stamps: (entries, groupOf) =>
      stampsOfContents(entries, groupOf, (path) => {
        const blob = blobs.get(path)
        return blob?.conflict ? undefined : blob?.id
      }),
    prefetch(paths) {
      fetched.clear()
      const wanted = paths.filter((path) => blobs.get(path)?.kind === 'file')
      const ids = wanted.map((path) => blobs.get(path)?.id ?? '')
      const contents = readBlobs(root, ids)
      wanted.forEach((path, at) => {
        const bytes = contents[at]
        if (bytes) fetched.set(path, bounded(bytes, largestRecord))
      })
    },
    sha256(path) {
      const blob = blobs.get(path)
      if (!blob) return missing
      if (blob.kind !== 'file') return blob.kind === 'link' ? link : submodule
      if (blob.conflict) return inConflict
      const bytes = readBlobs(root, [blob.id])[0]
      if (!bytes) return { refused: 'failed', detail: 'could not be read from git' }
      return { sha256: createHash('sha256').update(bytes).digest('hex') }
    },
    read(path, atMost = largestRecord) {
      const blob = blobs.get(path)
      if (!blob) return missing
      if (blob.kind !== 'file') return blob.kind === 'link' ? link : submodule
      if (blob.conflict) return inConflict
      if (blob.size > atMost) return tooLarge(blob.size, atMost)
      const already = fetched.get(path)
      if (already && atMost === largestRecord) return already
      const bytes = readBlobs(root, [blob.id])[0]
      if (!bytes) return { refused: 'failed', detail: 'could not be read from git' }
      return bounded(bytes, atMost)
    },
  }
}

function readBlobs(root: string, ids: readonly string[]): (Uint8Array | undefined)[] {
  if (ids.length === 0) return []
  const output = git(root, ['cat-file', '--batch'], `${ids.join('\n')}\n`)
  if (output === null) return ids.map(() => undefined)
  const contents: (Uint8Array | undefined)[] = []
  let at = 0
  for (let n = 0; n < ids.length; n++) {
    const end = output.indexOf(10, at)
    const size = /^[0-9a-f]+ blob (\d+)$/.exec(output.toString('latin1', at, end))?.[1]
    if (size === undefined) {
      contents.push(undefined)
      at = end + 1
      continue
    }
    contents.push(output.subarray(end + 1, end + 1 + Number(size)))
    at = end + 1 + Number(size) + 1
  }
  return contents
}
