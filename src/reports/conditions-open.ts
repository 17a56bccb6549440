import { compareText } from '../ledger/compare-text.js'
import { isoOf } from '../measure/calendar.js'
import { whoMends } from '../rules/conditions/who-mends.js'
import type { Day, Table } from '../types.js'
import type { ConditionSpell } from './conditions-collect.js'
import { overdueDaysOn } from './conditions-collect.js'
import { needWordsOf, ownerWordsOf } from './conditions-words.js'

/** What is open on the as-of day, whenever it was found: the longest overdue first, then the oldest. */
export function openTable(open: readonly ConditionSpell[], asOf: Day): Table {
  return {
    id: 'open',
    title: 'Open now, the longest overdue first',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'area', title: 'area' },
      { id: 'what', title: 'what' },
      { id: 'gives', title: 'gives' },
      { id: 'owner', title: 'owner' },
      { id: 'open-days', title: 'open', unit: 'days', decimals: 0 },
      { id: 'due-shown', title: 'due', for: 'people' },
      { id: 'due', title: 'due', for: 'work' },
      { id: 'overdue-days', title: 'overdue', unit: 'days', decimals: 0, for: 'work' },
      { id: 'since', title: 'since', for: 'work' },
      { id: 'last-seen', title: 'last seen open', for: 'work' },
      { id: 'times-back', title: 'came back', unit: 'times', decimals: 0, for: 'work' },
      { id: 'kind', title: 'kind of fault', for: 'work' },
      { id: 'put-to', title: 'whom it is put to', for: 'work' },
      { id: 'condition', title: 'condition', for: 'work' },
    ],
    shownToPeople: 30,
    rows: inOrder(open, asOf).map((spell) => ({
      cells: {
        site: spell.site,
        area: spell.area ?? 'not stated',
        what: spell.what,
        gives: needWordsOf(spell.gives),
        owner: ownerWordsOf(spell.owner),
        'open-days': asOf - spell.found,
        'due-shown': dueWords(spell, asOf),
        due: spell.due === undefined ? 'no day stated' : isoOf(spell.due),
        'overdue-days': overdueDaysOn(spell, asOf) ?? 0,
        since: isoOf(spell.found),
        'last-seen': isoOf(spell.lastSeen),
        'times-back': spell.timesBack,
        kind: spell.kind ?? 'not stated',
        'put-to': whoMends(spell.owner),
        condition: spell.condition,
      },
      records: spell.files,
    })),
    empty: 'No condition is open.',
  }
}

/** `46 days overdue`, `by 2026-07-10`. */
function dueWords(spell: ConditionSpell, asOf: Day): string {
  const overdue = overdueDaysOn(spell, asOf)
  if (overdue !== undefined) return `${overdue} ${overdue === 1 ? 'day' : 'days'} overdue`
  return spell.due === undefined ? 'no day stated' : `by ${isoOf(spell.due)}`
}

function inOrder(open: readonly ConditionSpell[], asOf: Day): ConditionSpell[] {
  return [...open].sort(
    (a, b) =>
      (overdueDaysOn(b, asOf) ?? 0) - (overdueDaysOn(a, asOf) ?? 0) ||
      a.found - b.found ||
      compareText(a.site, b.site) ||
      compareText(a.condition, b.condition),
  )
}
