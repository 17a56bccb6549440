import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import type { FollowedTime } from '../measure/kaplan-meier.js'
import type { Cell, Column, Day, Row, Table } from '../types.js'
import type { ConditionSpell, NotJudged } from './conditions-collect.js'
import { isOpenOn, isOverdueOn } from './conditions-collect.js'
import { needWordsOf, ownerWordsOf } from './conditions-words.js'
import type { Period } from './period.js'
import { shareCells, shareColumns, shareMethod, timeMethod, timeToCells, timeToColumns } from './time-to.js'

export const allSites = 'all sites'

/** What spells are told together by. */
const groupings = {
  all: () => 'all',
  owner: ({ owner }: ConditionSpell) => ownerWordsOf(owner),
  gives: ({ gives }: ConditionSpell) => needWordsOf(gives),
  kind: ({ kind }: ConditionSpell) => kind ?? 'not stated',
} as const
type Grouping = keyof typeof groupings

/** Spells found within the period: followed from their first day, so that none is in it only because it lasted. */
export function foundWithin(spells: readonly ConditionSpell[], { from, to }: Period): ConditionSpell[] {
  return spells.filter(({ found, followedTo }) => found >= from && found <= to && found <= followedTo)
}

export function timesFollowed(found: readonly ConditionSpell[]): FollowedTime[] {
  return found.map((spell) => {
    const mended = spell.closed !== undefined && spell.closed <= spell.followedTo
    return { time: (mended ? (spell.closed ?? 0) : spell.followedTo) - spell.found, mended }
  })
}

/**
 * How long they take and how many are put right in time, three times: all sites together, site by site, and within
 * each site. One site that is asked for has the rows of that site in the last two, as they always are; what is told
 * of all sites together is then left out, since hiding rows cannot make it the number of one site.
 */
export function timesTables(
  spells: readonly ConditionSpell[],
  period: Period,
  asOf: Day,
  site: string | undefined,
): Table[] {
  const rowsOf = (of: readonly ConditionSpell[], where: string, by: Grouping) =>
    groupRows(of, where, by, period, asOf)
  const sites = new Map<string, ConditionSpell[]>()
  for (const spell of spells) getOrMake(sites, spell.site, () => []).push(spell)
  const wanted = [...sites]
    .filter(([id]) => site === undefined || id === site)
    .sort(([a], [b]) => compareText(a, b))
  const groups = ['owner', 'gives', 'kind'] as const
  const together = (['all', ...groups] as const).flatMap((by) => rowsOf(spells, allSites, by))
  return [
    {
      id: 'time-to-repair',
      title: 'How long until they are put right',
      columns: columnsFor('groups'),
      rows: site === undefined ? together : [],
      ...(site === undefined ? {} : { for: 'work' as const }),
      empty:
        site === undefined
          ? 'No condition was found in this period, and none is open.'
          : 'Told of all sites together only; leave out --site to see it.',
    },
    {
      id: 'time-to-repair-by-site',
      title: 'Site by site',
      columns: columnsFor('sites'),
      rows: worstFirst(wanted.flatMap(([id, of]) => rowsOf(of, id, 'all'))),
      shownToPeople: 30,
      empty: 'No condition was found in this period, and none is open.',
    },
    {
      id: 'time-to-repair-within-sites',
      title: 'Within the site',
      columns: columnsFor('groups of sites'),
      rows: wanted.flatMap(([id, of]) => groups.flatMap((by) => rowsOf(of, id, by))),
      ...(site === undefined ? { for: 'work' as const } : {}),
      empty: 'No condition was found in this period, and none is open.',
    },
  ]
}

/** The site with the most overdue first; sites are in order of their names before. */
function worstFirst(rows: readonly Row[]): Row[] {
  const number = (row: Row, id: string) => Number(row.cells[id] ?? 0)
  return [...rows].sort(
    (a, b) => number(b, 'overdue') - number(a, 'overdue') || number(b, 'open') - number(a, 'open'),
  )
}

function columnsFor(whom: 'groups' | 'sites' | 'groups of sites'): Column[] {
  const work = { for: 'work', decimals: 0 } as const
  return [
    // People see the groups of one site only, the one they asked for.
    whom === 'sites' ? { id: 'site', title: 'site' } : { id: 'site', title: 'site', for: 'work' },
    whom === 'sites' ? { id: 'by', title: 'by', for: 'work' } : { id: 'by', title: 'by' },
    whom === 'sites' ? { id: 'which', title: 'which', for: 'work' } : { id: 'which', title: 'which' },
    { id: 'put-right-shown', title: 'put right', for: 'people' },
    { id: 'found', title: 'found', ...work },
    { id: 'put-right', title: 'put right', ...work },
    ...timeToColumns('days', 'half within'),
    ...shareColumns('in-time', 'in time', 'people too'),
    { id: 'came-back-shown', title: 'came back', for: 'people' },
    ...shareColumns('came-back', 'came back', 'work only'),
    ...shareColumns('held-good', 'looked at again and still good', 'work only'),
    { id: 'open', title: 'open now', decimals: 0 },
    { id: 'overdue', title: 'overdue', decimals: 0 },
    { id: 'still-open', title: 'found in the period and still open', ...work },
    { id: 'no-day-stated', title: 'no day stated', ...work },
    { id: 'day-before-found', title: 'its day lies before it was found', ...work },
    { id: 'day-not-past', title: 'its day is not past', ...work },
    { id: 'site-closed', title: 'the site closed first', ...work },
    { id: 'method', title: 'method', for: 'work' },
  ]
}

function groupRows(
  spells: readonly ConditionSpell[],
  site: string,
  by: Grouping,
  period: Period,
  asOf: Day,
): Row[] {
  const groups = new Map<string, ConditionSpell[]>()
  for (const spell of spells) getOrMake(groups, groupings[by](spell), () => []).push(spell)
  return [...groups]
    .flatMap(([which, of]) => {
      const found = foundWithin(of, period)
      const open = of.filter((spell) => isOpenOn(spell, asOf))
      if (found.length === 0 && open.length === 0) return []
      const cells: Record<string, Cell> = { site, by, which, ...cellsOf(found, open, asOf) }
      return [{ which, found, open, row: { cells, records: filesOf([...found, ...open]) } }]
    })
    .sort(
      (a, b) =>
        b.found.length - a.found.length || b.open.length - a.open.length || compareText(a.which, b.which),
    )
    .map(({ row }) => row)
}

function cellsOf(
  found: readonly ConditionSpell[],
  open: readonly ConditionSpell[],
  asOf: Day,
): Record<string, Cell> {
  const followed = timesFollowed(found)
  const putRight = found.filter((_, at) => followed[at]?.mended)
  const back = putRight.filter(({ cameBack }) => cameBack).length
  const inTime = found.filter((spell) => spell.inTime === true).length
  const late = found.filter((spell) => spell.inTime === false).length
  const notJudged = (why: NotJudged) => found.filter((spell) => spell.inTime === why).length
  return {
    found: found.length,
    'put-right': putRight.length,
    'put-right-shown': `${putRight.length} of ${found.length}`,
    ...timeToCells('days', followed),
    ...shareCells('in-time', inTime, inTime + late),
    ...shareCells('came-back', back, putRight.length),
    'came-back-shown': putRight.length === 0 ? null : `${back} of ${putRight.length}`,
    ...shareCells('held-good', putRight.filter(({ heldGood }) => heldGood).length, putRight.length),
    open: open.length,
    overdue: open.filter((spell) => isOverdueOn(spell, asOf)).length,
    'still-open': found.filter((spell) => isOpenOn(spell, asOf)).length,
    'no-day-stated': notJudged('no-day-stated'),
    'day-before-found': notJudged('day-before-found'),
    'day-not-past': notJudged('day-not-past'),
    'site-closed': notJudged('site-closed'),
    method: `half within: ${timeMethod}; shares: ${shareMethod}`,
  }
}

function filesOf(spells: readonly ConditionSpell[]): string[] {
  return [...new Set(spells.flatMap(({ files }) => files))].sort(compareText)
}
