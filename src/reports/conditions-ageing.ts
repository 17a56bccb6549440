import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { isoOf } from '../measure/calendar.js'
import type { Day, Plot, Row, Table } from '../types.js'
import type { ConditionSpell } from './conditions-collect.js'
import { isOpenOn } from './conditions-collect.js'
import { allSites } from './conditions-times.js'
import { ownerWordsOf } from './conditions-words.js'

/** How long conditions have been open, in bands of days; the last has no end. They are ours, not of a standard. */
const bands = [
  { id: 'to-30', title: 'up to 30 days', from: 0 },
  { id: 'to-90', title: '31 to 90 days', from: 31 },
  { id: 'to-180', title: '91 to 180 days', from: 91 },
  { id: 'to-365', title: '181 to 365 days', from: 181 },
  { id: 'longer', title: 'over 365 days', from: 366 },
] as const

const groupings = {
  owner: ({ owner }: ConditionSpell) => ownerWordsOf(owner),
  kind: ({ kind }: ConditionSpell) => kind ?? 'not stated',
} as const
type Grouping = keyof typeof groupings
const groupingNames = Object.keys(groupings) as Grouping[]

const titles: Readonly<Record<Grouping, string>> = {
  owner: 'How long open conditions have waited, by whose work it is',
  kind: 'How long open conditions have waited, by kind of fault',
}

const tableId = 'ageing'

interface Group {
  readonly which: string
  readonly spells: readonly ConditionSpell[]
  /** How many are in each band. */
  readonly counts: readonly number[]
}

/** What is open, counted by how long it has been open; the group with most first. */
function groupsOf(open: readonly ConditionSpell[], asOf: Day, by: Grouping): Group[] {
  const groups = new Map<string, ConditionSpell[]>()
  for (const spell of open) getOrMake(groups, groupings[by](spell), () => []).push(spell)
  return [...groups]
    .map(([which, spells]) => ({
      which,
      spells,
      counts: bands.map((band) => spells.filter(({ found }) => bandOf(asOf - found) === band).length),
    }))
    .sort((a, b) => b.spells.length - a.spells.length || compareText(a.which, b.which))
}

function bandOf(days: number): (typeof bands)[number] | undefined {
  return bands.findLast(({ from }) => days >= from)
}

/**
 * The numbers of the pictures: how many are open, by owner and by kind of fault, and since how long; of all sites together
 * and site by site. One site that is asked for has the rows of that site, as they always are.
 */
export function ageingTable(spells: readonly ConditionSpell[], asOf: Day, site: string | undefined): Table {
  const open = spells.filter((spell) => isOpenOn(spell, asOf))
  const sites = new Map<string, ConditionSpell[]>()
  for (const spell of open) getOrMake(sites, spell.site, () => []).push(spell)
  const told: (readonly [string, readonly ConditionSpell[]])[] = [
    ...(site === undefined ? [[allSites, open] as const] : []),
    ...[...sites].filter(([id]) => site === undefined || id === site).sort(([a], [b]) => compareText(a, b)),
  ]
  return {
    id: tableId,
    title: 'How long open conditions have waited',
    for: 'work',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'by', title: 'by' },
      { id: 'which', title: 'which' },
      { id: 'open', title: 'open', decimals: 0 },
      ...bands.map(({ id, title }) => ({ id, title, decimals: 0 })),
      { id: 'oldest', title: 'oldest since' },
    ],
    rows: told.flatMap(([where, of]) =>
      groupingNames.flatMap((by) => groupsOf(of, asOf, by).map((group) => rowOf(group, where, by))),
    ),
    empty: 'No condition is open.',
  }
}

function rowOf({ which, spells, counts }: Group, site: string, by: Grouping): Row {
  return {
    cells: {
      site,
      by,
      which,
      open: spells.length,
      ...Object.fromEntries(bands.map(({ id }, at) => [id, counts[at] ?? 0])),
      oldest: isoOf(Math.min(...spells.map(({ found }) => found))),
    },
    records: [...new Set(spells.flatMap(({ files }) => files))].sort(compareText),
  }
}

/** Of so few, the list itself is easier to read. */
const fewestDrawn = 3

/** A bar for each owner, and one for each kind of fault, of what is open by how long it has been. */
export function ageingPlots(open: readonly ConditionSpell[], asOf: Day, where: string): Plot[] {
  if (open.length < fewestDrawn) return []
  const first = isoOf(Math.min(...open.map(({ found }) => found)))
  return groupingNames.map((by) => ({
    kind: 'bars',
    id: `open-by-${by}`,
    title: `${titles[by]}, ${where}`,
    unit: 'conditions',
    from: first,
    to: isoOf(asOf),
    points: [],
    marks: [],
    bars: {
      by,
      parts: bands.map(({ title }) => title),
      rows: groupsOf(open, asOf, by).map(({ which, counts }) => ({ name: which, values: counts })),
    },
    table: { id: tableId, rows: { site: where, by } },
  }))
}
