import type { ConditionHistory } from '../ledger/condition-history.js'
import type { LoadedEvent } from '../ledger/loaded.js'
import type { SiteView } from '../ledger/site-view.js'
import { isoOf } from '../measure/calendar.js'
import type { Table } from '../types.js'
import { areaName } from './area-name.js'

type OpenCondition = Pick<ConditionHistory, 'id' | 'area' | 'says' | 'gives' | 'owner' | 'due'> & {
  readonly files: readonly string[]
}

export function fixTable(view: SiteView, open: readonly OpenCondition[]): Table {
  return {
    id: 'to-fix',
    title: 'Yours to fix',
    columns: [
      { id: 'where', title: 'where' },
      { id: 'what', title: 'what' },
      { id: 'gives', title: 'it gives a pest' },
      { id: 'owner', title: 'who' },
      { id: 'by', title: 'by' },
    ],
    rows: [...open]
      .sort(
        (a, b) =>
          (a.due ?? Number.POSITIVE_INFINITY) - (b.due ?? Number.POSITIVE_INFINITY) || (a.id < b.id ? -1 : 1),
      )
      .map((condition) => ({
        cells: {
          where: condition.area === undefined ? '' : areaName(view, condition.area),
          what: condition.says,
          gives: condition.gives ?? '',
          owner: condition.owner ?? 'nobody named',
          by: condition.due === undefined ? 'no date set' : isoOf(condition.due),
        },
        records: condition.files,
      })),
    empty: 'Nothing is waiting.',
  }
}

/** A condition as the visit left it: what was known by then, if it was open. Later owners and days are not told. */
export function openAfter(condition: ConditionHistory, visit: LoadedEvent<'visit'>): OpenCondition[] {
  const events = condition.events.filter((event) => event.day <= visit.day)
  const last = events.findLast((event) => event.kind !== 'holds')
  if (last?.kind !== 'new' && last?.kind !== 'still') return []
  return [
    {
      id: condition.id,
      area: condition.area,
      says: condition.says,
      gives: condition.gives,
      owner: events.findLast((event) => event.owner !== undefined)?.owner,
      due: events.findLast((event) => event.due !== undefined)?.due,
      files: [...new Set(events.map((event) => event.at.file))],
    },
  ]
}
