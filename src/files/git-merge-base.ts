import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { git } from './git.js'

/** Where the line of commits that leads to HEAD left another, or why that cannot be told. */
export type MergeBase =
  | { readonly is: 'found'; readonly commit: string }
  /** No git, no checkout, or one that git refuses to read, as when it belongs to someone else. */
  | { readonly is: 'no-checkout' }
  | { readonly is: 'no-commit-yet' }
  | { readonly is: 'unknown-revision' | 'no-common-commit'; readonly isShallow: boolean }
  /** It names a file or a folder as git stores them. */
  | { readonly is: 'not-a-commit' }

/**
 * The merge base of a revision and HEAD: the commit with which what was done since is to be compared, whatever the
 * other side has done meanwhile. Where several are equally good, the one that git names first.
 */
export function mergeBaseOf(root: string, rev: string): MergeBase {
  if (git(root, ['rev-parse', '--git-dir']) === null) return { is: 'no-checkout' }
  const isShallow = textOf(git(root, ['rev-parse', '--is-shallow-repository'])) === 'true'
  const commit = commitNamed(root, rev)
  if (commit === undefined) {
    const isThere = !rev.startsWith('-') && git(root, ['cat-file', '-t', rev]) !== null
    return isThere ? { is: 'not-a-commit' } : { is: 'unknown-revision', isShallow }
  }
  const head = commitNamed(root, 'HEAD')
  if (head === undefined) return { is: 'no-commit-yet' }
  const base = commitIn(git(root, ['merge-base', commit, head]))
  return base === undefined ? { is: 'no-common-commit', isShallow } : { is: 'found', commit: base }
}

/**
 * The commits that the next commit will follow: HEAD, and while a merge is being ended also what is merged. Empty before
 * the first commit; null outside a checkout.
 */
export function commitsToFollow(root: string): readonly string[] | null {
  const mergeHead = git(root, ['rev-parse', '--git-path', 'MERGE_HEAD'])
  if (mergeHead === null) return null
  const head = commitNamed(root, 'HEAD')
  if (head === undefined) return []
  return [head, ...merged(resolve(root, mergeHead.toString('utf8').replace(/\r?\n$/, '')))]
}

function merged(file: string): string[] {
  try {
    return readFileSync(file, 'latin1').split(/\s+/).filter(isCommitId)
  } catch {
    // No merge is going on.
    return []
  }
}

/** The commit that a revision names; undefined where it names none. */
export function commitNamed(root: string, rev: string): string | undefined {
  // What begins like an option would be taken for one.
  if (rev.startsWith('-')) return undefined
  return commitIn(git(root, ['rev-parse', '--verify', '--quiet', `${rev}^{commit}`]))
}

function commitIn(output: Buffer | null): string | undefined {
  const text = textOf(output)
  return isCommitId(text) ? text : undefined
}

function textOf(output: Buffer | null): string {
  return output?.toString('latin1').trim() ?? ''
}

/** SHA-1 or SHA-256, in hex. */
function isCommitId(text: string): boolean {
  return /^(?:[0-9a-f]{40}|[0-9a-f]{64})$/.test(text)
}
