import { holdsOn } from '../../ledger/spans.js'
import type { Table } from '../../types.js'
import type { District } from './asked.js'
import { commitCells, commitColumns } from './asked.js'
import type { CommitFacts } from './facts.js'

/**
 * Commits that bear no signature, of days on which the district asks for one. That a signature is there is all that is
 * looked at.
 */
export function unsignedCommits(
  commits: readonly CommitFacts[],
  district: District | undefined,
): CommitFacts[] {
  const spans = district?.['signed-commits'] ?? []
  return commits.filter(
    ({ signature, authorDay, committerDay }) =>
      signature === undefined &&
      [authorDay, committerDay].some((day) => day !== undefined && spans.some((span) => holdsOn(span, day))),
  )
}

export function unsignedTable(commits: readonly CommitFacts[]): Table {
  return {
    id: 'unsigned',
    title: 'Commits without a signature where the district asks for one',
    columns: [...commitColumns, { id: 'changed', title: 'records changed', decimals: 0 }],
    rows: commits.map((commit) => ({
      cells: { ...commitCells(commit), changed: commit.records },
      records: [],
    })),
    shownToPeople: 20,
    empty: 'None.',
  }
}
