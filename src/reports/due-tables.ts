import { isoOf } from '../measure/calendar.js'
import type { Column, Day, Row, Table } from '../types.js'
import type { DueThing } from './due.js'

/** Rows for machines, one a thing; and the same told short for people, what is alike in one area together. */
export function dueTables(things: readonly DueThing[], asOf: Day): Table[] {
  return [
    {
      id: 'walk',
      title: 'In walking order',
      for: 'people',
      columns: columns.filter((column) => column.for !== 'work'),
      rows: together(things, asOf),
      empty: 'Nothing is due.',
    },
    {
      id: 'due',
      title: 'Each thing that is due',
      for: 'work',
      columns,
      rows: things.map((thing) => rowOf(thing, thing.what, asOf)),
      empty: 'Nothing is due.',
    },
  ]
}

const columns: readonly Column[] = [
  { id: 'site', title: 'site' },
  { id: 'area', title: 'area' },
  { id: 'what', title: 'what' },
  { id: 'by', title: 'by' },
  { id: 'overdue', title: 'overdue', unit: 'days', decimals: 0 },
  { id: 'who', title: 'who' },
  { id: 'keys', title: 'key' },
  { id: 'let-in-by', title: 'let in by' },
  { id: 'rule', title: 'rule', for: 'work' },
]

function rowOf(thing: DueThing, what: string, asOf: Day): Row {
  const { site, area, by, when, actor, keys, letInBy, rule, files } = thing
  return {
    cells: {
      site: site ?? 'the district',
      area: area ?? null,
      what,
      by: by === undefined ? (when ?? null) : isoOf(by),
      overdue: by !== undefined && by < asOf ? asOf - by : null,
      who: actor,
      keys: keys ?? null,
      'let-in-by': letInBy ?? null,
      rule: rule ?? null,
    },
    records: files,
  }
}

/** `read K1, K2 (sticky trap)` is one line: devices of which the same is asked stand side by side. */
function together(things: readonly DueThing[], asOf: Day): Row[] {
  const groups = new Map<string, DueThing[]>()
  for (const thing of things) {
    const what = thing.device ? thing.device.askedOf('') : thing.what
    const key = [thing.site, thing.area, thing.rule, thing.by, what].join('\n')
    const group = groups.get(key)
    if (group) group.push(thing)
    else groups.set(key, [thing])
  }
  return [...groups.values()].flatMap((group) => {
    const [first] = group
    if (!first) return []
    const devices = group.flatMap(({ device }) => device?.id ?? [])
    const what = first.device ? first.device.askedOf(devices.join(', ')) : first.what
    return [{ ...rowOf(first, what, asOf), records: [...new Set(group.flatMap(({ files }) => files))] }]
  })
}
