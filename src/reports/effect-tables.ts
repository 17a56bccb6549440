import { compareText } from '../ledger/compare-text.js'
import type { ThingDone } from '../ledger/things-done.js'
import { isoOf } from '../measure/calendar.js'
import type { ChangeWord } from '../measure/change-verdict.js'
import type { Cell, Column, Row, Table } from '../types.js'
import type { Basis, JudgedOccasion } from './effect-judge.js'
import { methodOf, reasonInShort, reasonInWords, thingInWords, timesInWords } from './effect-words.js'
import type { Measured } from './measured.js'
import { measuredCells, measuredColumns } from './measured.js'
import { pestName } from './pest-name.js'

/** One thing done and the catch of one pest after it, in one area. */
export interface EffectRow {
  readonly thing: ThingDone
  readonly judged: JudgedOccasion
}

const change = { id: 'change', title: 'catch after, times before', unit: 'times', decimals: 2 }
const plain = { id: 'plain', title: 'before and after alone', unit: 'times', decimals: 2 }

const counted = (id: string, title: string, unit?: string): Column => ({
  id,
  title,
  ...(unit === undefined ? {} : { unit }),
  decimals: 0,
  for: 'work',
})

const text = (id: string, title: string): Column => ({ id, title, for: 'work' })

const columns: readonly Column[] = [
  { id: 'answer', title: 'catch' },
  { id: 'day', title: 'after' },
  { id: 'tactic-shown', title: 'what was done', for: 'people' },
  text('tactic', 'tactic'),
  { id: 'site', title: 'site' },
  { id: 'area', title: 'area' },
  { id: 'pest', title: 'pest' },
  { id: 'change-or-why', title: 'times as many (95 %)', for: 'people' },
  { id: 'untreated-areas', title: 'untreated', unit: 'areas', decimals: 0 },
  ...measuredColumns(change).filter((column) => column.for === 'work'),
  text('basis', 'held against'),
  ...measuredColumns(plain).filter((column) => column.for === 'work'),
  text('kind', 'told by'),
  text('id', 'record'),
  text('says', 'in its words'),
  text('also-done', 'also done there in these days'),
  text('days-before', 'window before'),
  text('days-after', 'window after'),
  counted('caught-before', 'caught before', 'animals'),
  counted('nights-before', 'effort before', 'trap-nights'),
  counted('readings-before', 'days read before'),
  counted('caught-after', 'caught after', 'animals'),
  counted('nights-after', 'effort after', 'trap-nights'),
  counted('readings-after', 'days read after'),
  text('left-out', 'reading left out, which may have led to it'),
  counted('untreated-caught-before', 'caught before, untreated', 'animals'),
  counted('untreated-nights-before', 'effort before, untreated', 'trap-nights'),
  counted('untreated-caught-after', 'caught after, untreated', 'animals'),
  counted('untreated-nights-after', 'effort after, untreated', 'trap-nights'),
  { id: 'dispersion', title: 'dispersion', decimals: 2, for: 'work' },
  { id: 'p-adjusted', title: 'adjusted p', decimals: 4, for: 'work' },
  text('method', 'method'),
  text('why', 'because'),
]

/** One row for each thing done, area and pest; what surely changed first, then what most was caught of. */
export function effectTable(rows: readonly EffectRow[]): Table {
  return {
    id: 'effect',
    title:
      'The catch before and after each thing done (+: how many other things were done there in these days)',
    columns,
    shownToPeople: 30,
    rows: [...rows].sort(byAnswer).map(effectRow),
    empty: 'Nothing was done in this period in an area that is trapped for the pest.',
  }
}

const order: Readonly<Record<ChangeWord, number>> = {
  rose: 0,
  fell: 1,
  'about the same': 2,
  'cannot tell': 3,
}

function byAnswer(a: EffectRow, b: EffectRow): number {
  const animals = ({ judged: { before, after } }: EffectRow) => before.count + after.count
  const rank = ({ judged }: EffectRow) => (judged.isTested ? 0 : judged.plain ? 1 : 2)
  const key = ({ judged: { occasion }, thing }: EffectRow) =>
    [occasion.catches.site, occasion.catches.area, occasion.catches.pest, thing.id].join(' ')
  return (
    order[a.judged.word] - order[b.judged.word] ||
    rank(a) - rank(b) ||
    animals(b) - animals(a) ||
    a.thing.day - b.thing.day ||
    compareText(key(a), key(b))
  )
}

function effectRow({ thing, judged }: EffectRow): Row {
  const { occasion, basis } = judged
  const { catches, windows, untreated } = occasion
  const also = [...occasion.things.filter((one) => one !== thing), ...occasion.others]
  const answer = asMeasured(judged.against ?? judged.plain)
  const days = ({ from, to }: { from: number; to: number }) => `${isoOf(from)} to ${isoOf(to)}`
  const isAgainst = basis === 'untreated'
  const against = isAgainst ? untreated : []
  return {
    cells: {
      answer: judged.word,
      day: isoOf(thing.day),
      'tactic-shown': also.length === 0 ? thing.tactic : `${thing.tactic} +${also.length}`,
      tactic: thing.tactic,
      site: catches.site,
      area: catches.area,
      pest: pestName(catches.pest),
      'change-or-why':
        judged.isTested && answer ? changeOrDoubt(judged, answer) : reasonInShort[judged.reason],
      'untreated-areas': isAgainst ? untreated.length : null,
      ...measuredCells(change, answer),
      basis: basis === null ? null : basisInWords[basis],
      ...measuredCells(plain, asMeasured(judged.plain)),
      kind: thing.kind,
      id: thing.id,
      says: thing.says,
      'also-done': also.length === 0 ? null : also.map(thingInWords).join('; '),
      'days-before': days(windows.before),
      'days-after': days(windows.after),
      ...totalCells(judged),
      'left-out': leftOutOf(judged),
      dispersion: (judged.against ?? judged.plain)?.dispersion ?? null,
      'p-adjusted': judged.adjustedP,
      method: basis === null ? null : methodOf[basis],
      why: reasonInWords[judged.reason],
    },
    records: [
      ...new Set([...thing.files, ...occasion.files, ...against.flatMap(({ files }) => files)]),
    ].sort(),
  }
}

/** An interval without "no change" in it that is no claim all the same says why. */
function changeOrDoubt({ reason }: JudgedOccasion, answer: Measured): string {
  const words = timesInWords(answer)
  return reason === 'not-significant-among-all' ? `${words}, ${reasonInShort[reason]}` : words
}

const basisInWords: Readonly<Record<Basis, string>> = {
  before: 'the catch before',
  untreated: 'untreated areas in the same days',
}

function totalCells({ before, after, basis, untreatedBefore, untreatedAfter }: JudgedOccasion) {
  const against = (number: number): Cell => (basis === 'untreated' ? number : null)
  return {
    'caught-before': before.readings === 0 ? null : before.count,
    'nights-before': before.effort,
    'readings-before': before.readings,
    'caught-after': after.readings === 0 ? null : after.count,
    'nights-after': after.effort,
    'readings-after': after.readings,
    'untreated-caught-before': against(untreatedBefore.count),
    'untreated-nights-before': against(untreatedBefore.effort),
    'untreated-caught-after': against(untreatedAfter.count),
    'untreated-nights-after': against(untreatedAfter.effort),
  }
}

function leftOutOf({ occasion: { leftOut, before } }: JudgedOccasion): string | null {
  if (leftOut.length > 0)
    return leftOut
      .map(({ day, count, effort }) => `${isoOf(day)}: ${count} in ${effort} trap-nights`)
      .join('; ')
  return before.length > 0 ? 'none: the only reading before, which may have led to it, had to be kept' : null
}

/** An upper limit above it bounds nothing, and is told as none. */
const highestLimit = 1e6

export function asMeasured(
  estimate: { readonly ratio: number | null; readonly lower: number; readonly upper: number | null } | null,
): Measured | null {
  if (!estimate) return null
  const { ratio, lower, upper } = estimate
  return { value: ratio, low: lower, high: upper !== null && upper <= highestLimit ? upper : null }
}
