import { isoOf } from '../../measure/calendar.js'
import type { Report } from '../../types.js'
import type { CommitFacts } from './facts.js'
import { shortId } from './facts.js'
import type { LateEntry } from './late.js'

export interface HistoryCounts {
  readonly late: number
  readonly changed: number
  readonly gone: number
  readonly dates: number
  readonly authors: number
  readonly unsigned: number
  readonly lost: number
}

/** One sentence: how much there is to look at. It says what git holds, and accuses no one. */
export function historyHeadline(commits: number, counts: HistoryCounts, isIncomplete: boolean): string {
  const found = [
    told(counts.late, 'record committed late', 'records committed late'),
    told(
      counts.changed,
      'record changed without a stated correction',
      'records changed without a stated correction',
    ),
    told(counts.gone, 'record deleted or renamed', 'records deleted or renamed'),
    told(counts.lost, 'thing lost in a merge', 'things lost in merges'),
    told(counts.dates, 'date that disagrees', 'dates that disagree'),
    told(counts.authors, 'author whom the ledger does not know', 'authors whom the ledger does not know'),
    told(counts.unsigned, 'commit without a signature', 'commits without a signature'),
  ].filter((words) => words !== undefined)
  const of = commits === 1 ? 'one commit' : `${commits} commits`
  const shows =
    found.length > 0
      ? found.join(', ')
      : 'no late, changed, deleted or lost record, no date that disagrees and no unknown author'
  return `In ${of} git shows ${shows}.${isIncomplete ? ' Not everything could be looked at; what could not is told below.' : ''}`
}

function told(count: number, one: string, several: string): string | undefined {
  if (count === 0) return undefined
  return count === 1 ? `one ${one}` : `${count} ${several}`
}

interface Told {
  readonly revision: string
  readonly commits: readonly CommitFacts[]
  readonly asksSignatures: boolean
  readonly discarded: number
  readonly late: readonly LateEntry[]
}

export function historyFacts({ revision, commits, asksSignatures, discarded, late }: Told): Report['facts'] {
  const days = commits.flatMap(({ committerDay }) => committerDay ?? [])
  const first = days.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
  const last = days.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  const signed = commits.filter(({ signature }) => signature !== undefined).length
  return [
    { label: 'Read', value: revision },
    {
      label: 'Commits',
      value:
        days.length === 0
          ? `${commits.length}`
          : `${commits.length}, dated ${isoOf(first)} to ${isoOf(last)}`,
    },
    {
      label: 'Signatures',
      value: `${signed} of ${commits.length} commits bear one; whether any is good was not looked at${asksSignatures ? '' : '. The district asks for none (`signed-commits` in district.yaml)'}`,
    },
    ...together(late),
    ...(discarded === 0
      ? []
      : [
          {
            label: 'Discarded as district.yaml states',
            value: discarded === 1 ? 'one record' : `${discarded} records`,
          },
        ]),
  ]
}

/** Many late records of one commit have one cause. */
function together(late: readonly LateEntry[]): Report['facts'] {
  const byCommit = new Map<CommitFacts, number>()
  for (const { commit } of late) byCommit.set(commit, (byCommit.get(commit) ?? 0) + 1)
  return [...byCommit]
    .filter(([, records]) => records >= 5)
    .map(([commit, records]) => ({
      label: 'Committed late at one time',
      value: `${records} records in ${shortId(commit)}${commit.committerDay === undefined ? '' : ` of ${isoOf(commit.committerDay)}`}`,
    }))
}

export const historyCautions = [
  "Dates, authors and order are what whoever made a commit had git write; git proves that content was not changed since, not when it was made or by whom. Where author's date and committer's date differ, a record counts as late, or as dated ahead, only if it is so by both.",
  'A history that was rewritten as a whole shows nothing of what it was before; only another copy does. A signature is only looked for, never tested.',
  'Nothing here says why. A change that should have been stated can still be: `doorsweep amend` does it before the commit; afterwards add the entry under `corrections`. A dated span is put back, and a new one added.',
]
