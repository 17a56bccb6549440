import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { FollowedTime } from '../measure/kaplan-meier.js'
import type { Cell, Column, Day, Row, Table } from '../types.js'
import type { ComplaintFacts, NotTold } from './complaints-collect.js'
import { isOpenOn } from './complaints-collect.js'
import type { ReportOptions } from './options.js'
import type { Period } from './period.js'
import { pestName } from './pest-name.js'
import { shareCells, shareColumns, shareMethod, timeMethod, timeToCells, timeToColumns } from './time-to.js'

const allSites = 'all sites'
const allPests = 'all pests'

export const pestWordsOf = ({ pest, other }: ComplaintFacts) =>
  pest === undefined ? (other ?? 'not named') : pestName(pest)

/** Complaints of the period, in days in which the site answered for them. */
export function cameInWithin(complaints: readonly ComplaintFacts[], { from, to }: Period): ComplaintFacts[] {
  return complaints.filter(({ day, followedTo }) => day >= from && day <= to && day <= followedTo)
}

/** Withdrawn ones have no day on which they ended, and an answer before the complaint tells no time. */
export function timesFollowed(complaints: readonly ComplaintFacts[]): FollowedTime[] {
  return complaints
    .filter((complaint) => complaint.withdrawn === undefined && !isAnsweredBefore(complaint))
    .map(({ day, answered, followedTo }) => {
      const isIn = answered !== undefined && answered <= followedTo
      return { time: (isIn ? answered : followedTo) - day, mended: isIn }
    })
}

export function isAnsweredBefore({ answered, day }: ComplaintFacts): boolean {
  return answered !== undefined && answered < day
}

/**
 * How they were answered, four times: in all, by site, by pest, and by both. A filter shows the rows of that site or
 * pest as they always are; what is told of all sites or pests together is then left out where hiding rows cannot
 * make it the number that is asked for.
 */
export function answerTables(
  complaints: readonly ComplaintFacts[],
  period: Period,
  { asOf, site, pest }: ReportOptions,
): Table[] {
  const rowsBy = (siteOf: (one: ComplaintFacts) => string, pestOf: (one: ComplaintFacts) => string | null) =>
    groupRows(complaints, siteOf, pestOf, period, asOf)
  const ofSite = ({ site: id }: ComplaintFacts) => id
  const ofPest = (one: ComplaintFacts) => one.pest ?? `other ${one.other ?? ''}`
  const isFiltered = site !== undefined || pest !== undefined
  const wanted = (row: GroupRow) =>
    (site === undefined || row.site === site) && (pest === undefined || row.pest === pest)
  const tableOf = (id: string, title: string, rows: readonly GroupRow[], shows: Shows): Table => {
    const left = rows.filter(wanted)
    return {
      id,
      title,
      columns: columnsFor(shows),
      rows: left.map(({ row }) => row),
      shownToPeople: 30,
      ...(shows.when ? {} : { for: 'work' as const }),
      empty:
        rows.length > 0 && left.length === 0
          ? 'Nothing in this table is of what was asked for alone.'
          : 'No complaint came in within this period, and none is open.',
    }
  }
  return [
    tableOf(
      'answered',
      'How they were answered',
      rowsBy(
        () => allSites,
        () => null,
      ),
      {
        site: false,
        pest: false,
        when: !isFiltered,
      },
    ),
    tableOf(
      'answered-by-site',
      'Site by site',
      rowsBy(ofSite, () => null),
      {
        site: true,
        pest: false,
        when: pest === undefined,
      },
    ),
    tableOf(
      'answered-by-pest',
      'Pest by pest',
      rowsBy(() => allSites, ofPest),
      {
        site: false,
        pest: true,
        when: site === undefined,
      },
    ),
    tableOf('answered-by-site-and-pest', 'By site and pest', rowsBy(ofSite, ofPest), {
      site: true,
      pest: true,
      when: isFiltered,
    }),
  ]
}

interface Shows {
  readonly site: boolean
  readonly pest: boolean
  /** Whether people are shown the table. */
  readonly when: boolean
}

interface GroupRow {
  readonly site: string
  /** Id of the pest; null where all pests are told together. */
  readonly pest: string | null
  readonly row: Row
}

function columnsFor({ site, pest }: Shows): Column[] {
  const work = { for: 'work', decimals: 0 } as const
  return [
    { id: 'site', title: 'site', ...(site ? {} : { for: 'work' as const }) },
    { id: 'pest', title: 'pest', ...(pest ? {} : { for: 'work' as const }) },
    { id: 'answered-shown', title: 'answered', for: 'people' },
    { id: 'received', title: 'received', ...work },
    { id: 'answered', title: 'answered', ...work },
    { id: 'withdrawn', title: 'withdrawn', decimals: 0 },
    ...timeToColumns('days', 'half within'),
    ...shareColumns('in-time', 'in time', 'people too'),
    { id: 'repeats', title: 'came again', decimals: 0 },
    { id: 'confirmed-shown', title: 'caught or seen', for: 'people' },
    ...shareColumns('confirmed', 'caught or seen there', 'work only'),
    { id: 'open', title: 'open now', decimals: 0 },
    { id: 'overdue', title: 'overdue', decimals: 0 },
    { id: 'answered-before', title: 'answer dated before the complaint', ...work },
    { id: 'not-judged', title: 'answered or open, in time not judged yet or by no term', ...work },
    { id: 'no-area', title: 'no area named', ...work },
    { id: 'no-pest', title: 'no pest named', ...work },
    { id: 'not-looked', title: 'nobody looked within the days', ...work },
    { id: 'too-soon', title: 'too soon to tell', ...work },
    { id: 'method', title: 'method', for: 'work' },
  ]
}

function groupRows(
  complaints: readonly ComplaintFacts[],
  siteOf: (one: ComplaintFacts) => string,
  pestOf: (one: ComplaintFacts) => string | null,
  period: Period,
  asOf: Day,
): GroupRow[] {
  const groups = new Map<string, ComplaintFacts[]>()
  for (const one of complaints) getOrMake(groups, `${siteOf(one)} ${pestOf(one) ?? ''}`, () => []).push(one)
  return [...groups.values()]
    .flatMap((of) => {
      const cameIn = cameInWithin(of, period)
      const open = of.filter((one) => isOpenOn(one, asOf))
      const [first] = of
      if (!first || (cameIn.length === 0 && open.length === 0)) return []
      const site = siteOf(first)
      const pest = pestOf(first)
      const name = pest === null ? allPests : pestWordsOf(first)
      const records = [...new Set([...cameIn, ...open].flatMap(({ files }) => files))].sort(compareText)
      const row = { cells: { site, pest: name, ...cellsOf(cameIn, open) }, records }
      return [{ site, pest, name, received: cameIn.length, row }]
    })
    .sort((a, b) => b.received - a.received || compareText(a.site, b.site) || compareText(a.name, b.name))
}

function cellsOf(cameIn: readonly ComplaintFacts[], open: readonly ComplaintFacts[]): Record<string, Cell> {
  const kept = cameIn.filter(({ withdrawn }) => withdrawn === undefined)
  const answered = kept.filter((one) => one.answered !== undefined).length
  const inTime = kept.filter((one) => one.inTime === true).length
  const late = kept.filter((one) => one.inTime === false).length
  const confirmed = kept.filter((one) => one.confirmed === true).length
  const told = confirmed + kept.filter((one) => one.confirmed === false).length
  const notTold = (why: NotTold) => kept.filter((one) => one.confirmed === why).length
  return {
    received: cameIn.length,
    answered,
    'answered-shown': `${answered} of ${kept.length}`,
    withdrawn: cameIn.length - kept.length,
    ...timeToCells('days', timesFollowed(cameIn)),
    ...shareCells('in-time', inTime, inTime + late),
    // Without a term nothing is a repeat or not.
    repeats: kept.some(({ hasRepeatTerm }) => hasRepeatTerm)
      ? kept.filter(({ repeatOf }) => repeatOf !== undefined).length
      : null,
    ...shareCells('confirmed', confirmed, told),
    'confirmed-shown': told === 0 ? null : `${confirmed} of ${told}`,
    open: open.length,
    overdue: open.filter(({ overdueNow }) => overdueNow).length,
    'answered-before': kept.filter(isAnsweredBefore).length,
    'not-judged': kept.length - inTime - late,
    'no-area': notTold('no-area'),
    'no-pest': notTold('no-pest'),
    'not-looked': notTold('not-looked'),
    'too-soon': notTold('too-soon'),
    method: `half within: ${timeMethod}; shares: ${shareMethod}`,
  }
}
