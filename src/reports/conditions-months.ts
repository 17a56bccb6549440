import { compareText } from '../ledger/compare-text.js'
import { getOrMake } from '../ledger/get-or-make.js'
import { addMonths, firstOfMonth, isoOf, lastOfMonth, monthOf } from '../measure/calendar.js'
import type { Day, Plot, Row, Table } from '../types.js'
import type { ConditionSpell } from './conditions-collect.js'
import { isOpenOn, isOverdueOn } from './conditions-collect.js'
import { allSites } from './conditions-times.js'
import type { Period } from './period.js'

interface Month {
  readonly first: Day
  readonly last: Day
}

/** The months of a period; the first and the last are cut where the period begins and ends. */
function monthsOf({ from, to }: Period): Month[] {
  const months: Month[] = []
  for (let first = from; first <= to; first = addMonths(firstOfMonth(first), 1))
    months.push({ first, last: Math.min(lastOfMonth(first), to) })
  return months
}

const monthsId = 'months'

/** How many were found, put right, and open and overdue when each month ended. */
export function monthsTable(
  spells: readonly ConditionSpell[],
  period: Period,
  site: string | undefined,
): Table {
  const sites = new Map<string, ConditionSpell[]>()
  for (const spell of spells) getOrMake(sites, spell.site, () => []).push(spell)
  const told: (readonly [string, readonly ConditionSpell[]])[] = [
    ...(site === undefined ? [[allSites, spells] as const] : []),
    ...[...sites].filter(([id]) => site === undefined || id === site).sort(([a], [b]) => compareText(a, b)),
  ]
  return {
    id: monthsId,
    title: 'Month by month',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'month', title: 'month' },
      { id: 'to', title: 'counted on' },
      { id: 'found', title: 'found', decimals: 0 },
      { id: 'put-right', title: 'put right', decimals: 0 },
      { id: 'open', title: 'open at the end', decimals: 0 },
      { id: 'overdue', title: 'overdue at the end', decimals: 0 },
    ],
    rows: told.flatMap(([id, of]) => monthsOf(period).map((month) => monthRow(id, of, month))),
    for: 'work',
    empty: 'No condition is on record.',
  }
}

function monthRow(site: string, spells: readonly ConditionSpell[], { first, last }: Month): Row {
  const within = (day: Day | undefined) => day !== undefined && day >= first && day <= last
  const found = spells.filter((spell) => within(spell.found))
  const putRight = spells.filter(({ closed }) => within(closed))
  const open = spells.filter((spell) => isOpenOn(spell, last))
  return {
    cells: {
      site,
      month: monthOf(first),
      to: isoOf(last),
      found: found.length,
      'put-right': putRight.length,
      open: open.length,
      overdue: open.filter((spell) => isOverdueOn(spell, last)).length,
    },
    records: [...new Set([...found, ...putRight, ...open].flatMap(({ files }) => files))].sort(compareText),
  }
}

/** The same as a picture, where there is a course to see: three months at least, and something open in one. */
export function monthsPlot(
  spells: readonly ConditionSpell[],
  period: Period,
  where: string,
): Plot | undefined {
  const points = monthsOf(period).map(({ last }) => ({
    day: isoOf(last),
    value: spells.filter((spell) => isOpenOn(spell, last)).length,
  }))
  if (points.length < 3 || points.every(({ value }) => value === 0)) return undefined
  return {
    id: 'open-by-month',
    title: `Open when each month ended, ${where}`,
    unit: 'conditions',
    from: isoOf(period.from),
    to: isoOf(period.to),
    points,
    marks: [],
    table: { id: monthsId, rows: { site: where } },
  }
}
