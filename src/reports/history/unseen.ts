import { isoOf } from '../../measure/calendar.js'
import { recordPathOf } from '../../records/paths.js'
import type { Asked } from './asked.js'
import type { CommitFacts, HistoryFacts } from './facts.js'
import { shortId } from './facts.js'

/** Versions that could not be compared and are told one by one. */
const mostLines = 10

/** What of the history could not be looked at; and whether that leaves anything open that was asked for. */
export function unseen(
  facts: HistoryFacts,
  asked: Asked,
): { readonly lines: string[]; readonly isIncomplete: boolean } {
  const cut = facts.commits.filter(({ isCutOff }) => isCutOff)
  const moved = facts.movedIn.filter(({ commit }) => !commit.isCutOff)
  const notCompared = facts.notCompared.filter(({ commit }) => asked.isInPeriod(commit))
  const lines = [
    ...cut.map(
      (commit) =>
        `This clone is shallow and was cut off at commit ${shortId(commit)}${ofDay(commit)}. When its ${recordsAt(facts, commit)} first came into git, what was changed in them before, and by whom, is not here; \`git fetch --unshallow\` brings it.`,
    ),
    ...moved.map(
      ({ commit, records }) =>
        `${countOf(records)} came to this folder with commit ${shortId(commit)}${ofDay(commit)} from elsewhere in the repository; what git says of them before that was not looked at.`,
    ),
    ...(facts.later === 0
      ? []
      : [
          facts.later === 1
            ? 'One commit dated after the as-of day was not looked at.'
            : `${facts.later} commits dated after the as-of day were not looked at.`,
        ]),
    ...notCompared.slice(0, mostLines).map(({ says }) => `${says}.`),
    ...(notCompared.length > mostLines
      ? [
          `${notCompared.length - mostLines} more versions of records could not be compared. Where a clone was made without all contents, \`git fetch --refetch\` or a whole clone brings them.`,
        ]
      : []),
  ]
  const isOpen = [...cut, ...moved.map(({ commit }) => commit)].some(asked.mayConcern)
  return { lines, isIncomplete: isOpen || notCompared.length > 0 }
}

function ofDay({ committerDay }: CommitFacts): string {
  return committerDay === undefined ? '' : ` of ${isoOf(committerDay)}`
}

function recordsAt(facts: HistoryFacts, commit: CommitFacts): string {
  let records = 0
  for (const [path, { first, isFirstKnown }] of facts.lives)
    if (!isFirstKnown && first === commit && recordPathOf(path) !== null) records++
  return records === 1 ? 'one record' : `${records} records`
}

function countOf(records: number): string {
  return records === 1 ? 'One record' : `${records} records`
}
