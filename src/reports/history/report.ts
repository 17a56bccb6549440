import type { Source } from '../../files/source.js'
import type { DistrictView } from '../../ledger/district-view.js'
import type { Loaded } from '../../ledger/loaded.js'
import { onlySite } from '../../ledger/one-site.js'
import type { ReadLedger } from '../../ledger/read-ledger.js'
import { readLedger } from '../../ledger/read-ledger.js'
import { isoOf } from '../../measure/calendar.js'
import type { RecordKind } from '../../records/kinds.js'
import type { Report } from '../../types.js'
import { notExaminedOf } from '../not-examined.js'
import type { ReportOptions } from '../options.js'
import type { Asked, District } from './asked.js'
import { askedOf } from './asked.js'
import { authorsTable, unknownAuthors } from './authors-table.js'
import { changedTable } from './changed-table.js'
import { datesTable, oddDates } from './dates-table.js'
import type { CommitFacts, HistoryFacts } from './facts.js'
import { goneTable, isDiscarded, isSettled } from './gone-table.js'
import { historyCautions, historyFacts, historyHeadline } from './history-words.js'
import type { LateEntry } from './late.js'
import { lateAtSite, lateInDistrict } from './late.js'
import { lateTable, typedTable } from './late-tables.js'
import { mergesTable } from './merges-table.js'
import type { StatedCorrection } from './stated-table.js'
import { statedCorrections, statedTable } from './stated-table.js'
import { unseen } from './unseen.js'
import { unsignedCommits, unsignedTable } from './unsigned-table.js'

export interface HistoryOptions extends ReportOptions {
  /** What ties the page to the records, in words. */
  readonly revision: string
}

/**
 * What git says of the records: what came late, what was changed, taken away or lost, by whom, and whether the dates
 * agree. `source` is the ledger as it stands in the last of the commits.
 */
export function historyReport(source: Source, facts: HistoryFacts, options: HistoryOptions): Report {
  const asked = askedOf(options)
  const read = readForHistory(source, facts, options, asked)
  const district = read.ledger.district?.district.data
  const commits = facts.commits.filter((commit) => asked.isOfSites(commit) && asked.isInPeriod(commit))
  const people = peopleOf(read.ledger)
  const gone = goneIn(facts, asked, district)
  const found = {
    late: read.late.filter(({ isOnlyTyped }) => !isOnlyTyped),
    typed: read.late.filter(({ isOnlyTyped }) => isOnlyTyped),
    changed: facts.changes.filter(({ path, commit }) => asked.isWanted(path, commit)),
    gone: gone.shown,
    dates: oddDates(facts, asked, options.asOfIsToday ? options.asOf : undefined),
    authors: people === undefined ? [] : unknownAuthors(commits, people),
    unsigned: unsignedCommits(commits, district),
    lost: facts.lost.filter(({ path, commit }) => asked.isWanted(path, commit)),
    stated: read.stated,
  }
  const notSeen = unseen(facts, asked)
  const incomplete = notSeen.isIncomplete || read.ledger.notChecked.length > 0
  return {
    report: 'history',
    title: 'What git says about the records',
    headline: historyHeadline(
      commits.length,
      {
        late: found.late.length,
        changed: new Set(found.changed.filter(({ settled }) => !settled).map(({ path }) => path)).size,
        gone: found.gone.filter((one) => !isSettled(one)).length,
        dates: found.dates.length,
        authors: found.authors.length,
        unsigned: found.unsigned.length,
        lost: found.lost.length,
      },
      incomplete,
    ),
    asOf: isoOf(options.asOf),
    ...periodOf(options, commits),
    facts: historyFacts({
      revision: options.revision,
      commits,
      asksSignatures: (district?.['signed-commits'] ?? []).length > 0,
      discarded: gone.discarded,
      late: found.late,
    }),
    tables: [
      lateTable(found.late),
      changedTable(found.changed),
      goneTable(found.gone),
      mergesTable(found.lost),
      datesTable(found.dates),
      authorsTable(found.authors),
      unsignedTable(found.unsigned),
      statedTable(found.stated),
      typedTable(found.typed),
    ].map((table) => (incomplete ? { ...table, empty: notAll } : table)),
    cautions: historyCautions,
    notExamined: [
      ...notSeen.lines,
      ...notExaminedOf(read.ledger),
      ...(people === undefined
        ? ['Authors: not all people can be read, so who is unknown was not told.']
        : []),
    ],
    incomplete,
  }
}

/** What stands in place of rows where not everything could be looked at: nothing there says that all is well. */
const notAll = 'None in what could be looked at.'

/** Undefined where a person cannot be read: an author who seems unknown could be that one. */
function peopleOf({ district }: ReadLedger): DistrictView['people'] | undefined {
  const isBroken = [...(district?.broken ?? [])].some((one) => one.startsWith('person '))
  return isBroken ? undefined : district?.people
}

/** Without a first day, the period begins with the first commit that is told. */
function periodOf(
  { from, to, asOf }: HistoryOptions,
  commits: readonly CommitFacts[],
): Pick<Report, 'period'> {
  if (from === undefined && to === undefined) return {}
  const end = to ?? asOf
  const first = commits.reduce((day, { committerDay }) => Math.min(day, committerDay ?? day), end)
  return { period: { from: isoOf(from ?? first), to: isoOf(end) } }
}

/** A merge that lost a record is told as such, and what district.yaml says was discarded is only counted. */
function goneIn(facts: HistoryFacts, asked: Asked, district: District | undefined) {
  const all = facts.gone
    .filter(
      ({ path, to, commit }) =>
        asked.isInPeriod(commit) && (asked.isOfSite(path) || asked.isOfSite(to ?? path)),
    )
    .filter(({ to, commit }) => to !== undefined || commit.cameFrom.length < 2)
  const shown = all.filter((one) => one.to !== undefined || !isDiscarded(one, district))
  return { shown, discarded: all.length - shown.length }
}

interface ReadForHistory {
  readonly ledger: ReadLedger
  readonly late: readonly LateEntry[]
  readonly stated: readonly StatedCorrection[]
}

/** One walk over the ledger, a site at a time. */
function readForHistory(
  source: Source,
  facts: HistoryFacts,
  options: HistoryOptions,
  asked: Asked,
): ReadForHistory {
  const late: LateEntry[] = []
  const stated: StatedCorrection[] = []
  const look = (entries: readonly LateEntry[], records: readonly Loaded<RecordKind>[]) => {
    late.push(
      ...entries.filter(
        ({ path, commit, committed }) => asked.isWanted(path, commit) && committed <= options.asOf,
      ),
    )
    stated.push(...statedCorrections(records, facts, asked, options.asOf))
  }
  const wanted = options.site === undefined ? source : onlySite(source, options.site)
  const ledger = readLedger(wanted, options, (view) => {
    look(lateAtSite(view, facts.lives), view.records)
  })
  if (ledger.district) look(lateInDistrict(ledger.district, facts.lives), ledger.district.records)
  return { ledger, late, stated: stated.sort((a, b) => a.commit.at - b.commit.at) }
}
