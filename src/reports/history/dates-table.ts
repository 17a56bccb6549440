import { clockText, isoOf } from '../../measure/calendar.js'
import type { Day, Row, Table } from '../../types.js'
import type { Asked } from './asked.js'
import { commitCells, commitColumns } from './asked.js'
import type { CommitFacts, HistoryFacts } from './facts.js'
import { shortId } from './facts.js'

/** Clocks of two machines differ; a commit that is earlier than the one before it by no more is not told. */
const secondsOfClocks = 3600

export interface OddDate {
  readonly what: string
  readonly path: string | null
  readonly dated: string
  readonly against: string
  readonly commit: CommitFacts
}

/** Dates that disagree: of records and their commits, and of commits along a line of history. */
export function oddDates(facts: HistoryFacts, asked: Asked, today: Day | undefined): OddDate[] {
  const ahead = facts.datedAhead
    .filter(({ path, commit }) => asked.isWanted(path, commit))
    .map(({ path, day, commit }) => ({
      what: 'the record is dated after its commit',
      path,
      dated: isoOf(day),
      against: commit.committerDay === undefined ? '' : isoOf(commit.committerDay),
      commit,
    }))
  const ofCommits = facts.commits
    .filter((commit) => asked.isOfSites(commit))
    .flatMap((commit) => oddCommit(commit, facts.commits, asked, today))
  return [...ahead, ...ofCommits].sort((a, b) => a.commit.at - b.commit.at)
}

/** Told when the commit, or the one that it follows, is of the period: a wrong date could else lead out of it. */
function oddCommit(
  commit: CommitFacts,
  commits: readonly CommitFacts[],
  asked: Asked,
  today: Day | undefined,
): OddDate[] {
  const { committer, author, committerDay } = commit
  const isIn = asked.isInPeriod(commit)
  if (committer.seconds === undefined || author.seconds === undefined)
    return isIn
      ? [{ what: 'the date of the commit cannot be read', path: null, dated: '', against: '', commit }]
      : []
  const seconds = committer.seconds
  const found: OddDate[] = []
  if (today !== undefined && committerDay !== undefined && committerDay > today)
    found.push({
      what: 'the commit is dated after today',
      path: null,
      dated: momentText(seconds),
      against: isoOf(today),
      commit,
    })
  for (const place of commit.cameFrom) {
    const parent = commits[place]
    const before = parent?.committer.seconds
    if (!parent || before === undefined || seconds >= before - secondsOfClocks) continue
    if (isIn || asked.isInPeriod(parent))
      found.push({
        what: `the commit is dated before ${shortId(parent)}, which it follows`,
        path: null,
        dated: momentText(seconds),
        against: momentText(before),
        commit,
      })
  }
  return found
}

function momentText(seconds: number): string {
  const minutes = Math.floor(seconds / 60)
  const day = Math.floor(minutes / 1440)
  return `${isoOf(day)} ${clockText(minutes - day * 1440)} UTC`
}

export function datesTable(dates: readonly OddDate[]): Table {
  return {
    id: 'dates',
    title: 'Dates that disagree',
    columns: [
      { id: 'what', title: 'what' },
      { id: 'record', title: 'record' },
      { id: 'dated', title: 'dated' },
      { id: 'against', title: 'against' },
      ...commitColumns,
    ],
    rows: dates.map(
      ({ what, path, dated, against, commit }): Row => ({
        cells: {
          what,
          record: path,
          dated: dated === '' ? null : dated,
          against: against === '' ? null : against,
          ...commitCells(commit),
        },
        records: path === null ? [] : [path],
      }),
    ),
    shownToPeople: 20,
    empty: 'Records and commits follow each other as they are dated.',
  }
}
