import { createHash } from 'node:crypto'
import { git, partsOf } from './git.js'
import { commitNamed } from './git-merge-base.js'
import type { Source } from './source.js'
import { isHidden } from './source.js'

/**
 * What ties a page to the records, in words: the commit of a revision; or the last commit, and how many files of the
 * ledger are not as they stand in it. The comparison is our own, since git would run filters of the checkout for it.
 */
export function revisionInWords(root: string, source: Source, rev: string | undefined): string {
  const commit = commitNamed(root, rev ?? 'HEAD')
  if (commit === undefined)
    return rev === undefined ? 'files as they lie on disk, without a git commit' : `git revision ${rev}`
  if (rev !== undefined) return `git commit ${commit} (${rev})`
  const changed = changedSince(root, source, commit)
  if (changed === undefined) return `git commit ${commit}; what has changed since could not be told`
  const since = changed === 1 ? 'one file is' : `${changed} files are`
  return changed === 0 ? `git commit ${commit}` : `git commit ${commit}; ${since} not as committed`
}

/** How many files are not there, are new, or hold something else than in a commit. */
function changedSince(root: string, source: Source, commit: string): number | undefined {
  const listing = git(root, ['ls-tree', '-r', '-z', `${commit}^{tree}`, '--', '.'])
  if (listing === null) return undefined
  const committed = new Map<string, string>()
  for (const line of partsOf(listing)) {
    const match = /^100\d+ blob ([0-9a-f]+)\t(.*)$/s.exec(line)
    if (match && !isHidden(match[2] ?? '')) committed.set(match[2] ?? '', match[1] ?? '')
  }
  let changed = 0
  for (const { path, kind } of source.list()) {
    // git knows no folders, only the files in them; links are never followed, so nothing is read from them.
    if (kind === 'folder' || kind === 'link') continue
    const id = committed.get(path)
    committed.delete(path)
    if (kind !== 'file' || id === undefined || blobId(source, path, id.length) !== id) changed++
  }
  return changed + committed.size
}

/** The name git gives to the content of a file: SHA-1, or SHA-256 where the repository uses that. */
function blobId(source: Source, path: string, digits: number): string | undefined {
  const read = source.read(path)
  if ('refused' in read) return undefined
  return createHash(digits === 40 ? 'sha1' : 'sha256')
    .update(`blob ${read.bytes.length}\0`)
    .update(read.bytes)
    .digest('hex')
}
