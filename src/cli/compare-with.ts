import { commitsToFollow, mergeBaseOf } from '../files/git-merge-base.js'
import { index, revision } from '../files/git-source.js'
import type { Source } from '../files/source.js'
import type { OpenLedger } from './find-ledger.js'
import { timeZoneOf } from './find-ledger.js'
import type { Surroundings } from './terminal.js'
import { today } from './today.js'
import { UsageError } from './usage-error.js'

/** The ledger to check, and the ledgers with which it is compared. */
export interface Comparison {
  readonly ledger: OpenLedger
  readonly before: readonly Source[]
  /** What it is compared with, in words that go behind "compared with". */
  readonly with: string
  readonly commits: readonly string[]
}

/** The ledger as opened, against the commit where HEAD and a revision part. */
export function sinceRevision(ledger: OpenLedger, rev: string): Comparison {
  const base = mergeBaseOf(ledger.root, rev)
  if (base.is !== 'found') throw new UsageError(whyNoBase(base, rev, ledger.root))
  return compared(ledger, [base.commit], rev === 'HEAD' ? rev : `the merge base of ${rev} and HEAD`)
}

/** The ledger as staged, against the commits that the next commit will follow. */
export function staged(opened: OpenLedger, here: Surroundings): Comparison {
  const source = index(opened.root)
  const commits = commitsToFollow(opened.root)
  if (source === null || commits === null) throw new UsageError(noCheckout(opened.root))
  // The time zone of what is staged, not of what lies on the disk.
  const asOf = opened.asOfIsToday ? today(timeZoneOf(source), here) : opened.asOf
  const ledger = { ...opened, source, asOf }
  if (commits.length === 0)
    return { ledger, before: [], commits, with: 'nothing, since there is no commit yet' }
  return compared(ledger, commits, commits.length === 1 ? 'HEAD' : 'HEAD and what is being merged')
}

function compared(ledger: OpenLedger, commits: readonly string[], words: string): Comparison {
  const before = commits.map((commit) => {
    const source = revision(ledger.root, commit)
    if (source) return source
    throw new UsageError(
      `The files of commit ${commit} cannot be listed. Part of the repository is missing: \`git fsck\` tells what, \`git fetch\` may bring it.`,
    )
  })
  const withLedger = before.filter(holdsLedger)
  return {
    ledger,
    before: withLedger,
    commits,
    with: withLedger.length === 0 ? `${words}, where this ledger was not yet` : words,
  }
}

/** A district.yaml that is there but cannot be read is another matter: the check tells it. */
function holdsLedger(source: Source): boolean {
  const read = source.read('district.yaml')
  return !('refused' in read && read.refused === 'missing')
}

type NoBase = Exclude<ReturnType<typeof mergeBaseOf>, { is: 'found' }>

function whyNoBase(base: NoBase, rev: string, root: string): string {
  const named = rev === '' ? 'with an empty name' : rev
  switch (base.is) {
    case 'no-checkout':
      return noCheckout(root)
    case 'no-commit-yet':
      return 'There is no commit yet, so there is nothing to compare with; `doorsweep check --staged` tells what the first one would bring.'
    case 'not-a-commit':
      return `${named} is a file or a folder in git, not a commit: name a branch, a tag or a commit.`
    case 'unknown-revision':
      return `git knows no commit ${named} here. ${
        base.isShallow
          ? fetchMore
          : 'A branch of a remote has to be fetched and named with it: `git fetch origin`, then `--since origin/BRANCH`.'
      }`
    case 'no-common-commit':
      return `${named} and HEAD have no commit in common${base.isShallow ? ` as far as this copy goes. ${fetchMore}` : ', so there is no merge base: name a branch that HEAD came from.'}`
  }
}

const fetchMore =
  'This copy of the repository is shallow: fetch all of it with `git fetch --unshallow`, or in a CI job set the fetch depth to 0.'

function noCheckout(root: string): string {
  return `git can read no checkout at ${root}, so there is nothing to compare with; \`git -C ${root} status\` says why. Without git: \`doorsweep check\`.`
}
