import { existsSync, lstatSync } from 'node:fs'
import { join } from 'node:path'
import type { NotChecked } from '../types.js'
import { git, partsOf } from './git.js'
import { topOfCheckout } from './git-environment.js'
import type { Refusal, Source } from './source.js'
import { isHidden } from './source.js'

/** What git left out of a checkout, though it belongs to the ledger: nothing can be said of it. */
export interface LeftOut {
  /** Files from the ledger root, sorted, that git's index marks as not to be on disk, and that are not there. */
  readonly files: readonly string[]
  /** Folders of submodules that were not fetched, so that what they hold is not there. */
  readonly submodules: readonly string[]
  /** Why it is not known whether anything is left out, where git could not be asked about a checkout. */
  readonly unsure?: string
}

/**
 * Asks git, in one call, which files of a ledger it was told to leave out of this checkout (a sparse checkout, or
 * `git update-index --skip-worktree`). A file that someone took away is not among them, nor one that lies on disk all the
 * same: what is on disk is what is checked.
 */
export function leftOutOfCheckout(root: string): LeftOut {
  const files: string[] = []
  const submodules: string[] = []
  if (topOfCheckout(root) === undefined) return { files, submodules }
  const listing = git(root, ['ls-files', '-s', '-t', '-z', '--', '.'])
  if (listing === null)
    return { files, submodules, unsure: 'git could not be asked, `git ls-files -t` tells why' }
  // A letter for how git takes it (S: not on disk), its mode, its content, its stage, its path.
  for (const line of partsOf(listing)) {
    const isSubmodule = line.startsWith('160000', 2)
    if (!isSubmodule && !line.startsWith('S')) continue
    const path = line.slice(line.indexOf('\t') + 1)
    if (isHidden(path)) continue
    if (isSubmodule) {
      if (!existsSync(join(root, path, '.git'))) submodules.push(path)
    } else if (!isThere(join(root, path))) files.push(path)
  }
  return { files: files.sort(byPath), submodules: submodules.sort(byPath) }
}

const byPath = (a: string, b: string) => (a < b ? -1 : 1)

function isThere(path: string): boolean {
  try {
    return lstatSync(path, { throwIfNoEntry: false }) !== undefined
  } catch {
    return false
  }
}

/** A source that says which parts of the ledger it cannot hold. */
export interface SourceWithGaps extends Source {
  /** What is told by no record that cannot be read: files beside the records, and submodules. */
  readonly notChecked: readonly NotChecked[]
}

/**
 * A source in which what git left out is listed and cannot be read, so that it is told as unreadable, never as missing.
 * Of a site whose own record is left out that record stands for all, since nothing of the site can be judged anyway.
 */
export function withLeftOut(whole: Source, leftOut: LeftOut): SourceWithGaps {
  if (leftOut.files.length + leftOut.submodules.length === 0 && leftOut.unsure === undefined)
    return { ...whole, notChecked: [] }
  // What is not on disk has no stamp, and no other thread knows what was left out.
  const { stamps: _, opening: __, ...source } = whole
  const out = new Set(leftOut.files)
  const isUnjudged = (path: string) => out.has(`${siteFolder.exec(path)?.[0]}site.yaml`)
  const listed = leftOut.files.filter((path) => path.endsWith('/site.yaml') || !isUnjudged(path))
  const refusalOf = (path: string): Refusal => {
    const folder = path.endsWith('/site.yaml') ? siteFolder.exec(path)?.[0] : undefined
    const others =
      folder === undefined ? 0 : leftOut.files.filter((one) => one !== path && one.startsWith(folder)).length
    return {
      refused: 'failed',
      detail: `${wasLeftOut}${others === 0 ? '' : `, with ${others} more of its site`}`,
    }
  }
  return {
    ...source,
    list: (goesInto) =>
      [
        ...source.list(goesInto).filter(({ path }) => !out.has(path)),
        ...listed.map((path) => ({ path, kind: 'file' as const, size: 0 })),
      ].sort((a, b) => byPath(a.path, b.path)),
    isFile: (path) => out.has(path) || source.isFile(path),
    read: (path, atMost) => (out.has(path) ? refusalOf(path) : source.read(path, atMost)),
    sha256: (path) => (out.has(path) ? refusalOf(path) : source.sha256(path)),
    prefetch: (paths) => source.prefetch(paths.filter((path) => !out.has(path))),
    notChecked: [
      ...(leftOut.unsure === undefined
        ? []
        : [{ what: 'what git may have left out of this checkout', why: leftOut.unsure }]),
      ...listed
        .filter((path) => !/\.ya?ml$/i.test(path))
        .map((path) => ({ what: path, why: `it ${wasLeftOut}` })),
      ...leftOut.submodules.map((path) => ({
        what: path,
        why: 'it is a submodule that was not fetched; `git submodule update --init` fetches it',
      })),
    ],
  }
}

const siteFolder = /^sites\/[^/]+\//
const wasLeftOut =
  'was left out of this checkout by git; `git sparse-checkout disable` or `git update-index --no-skip-worktree` brings it back'
