import type { Row, Table } from '../types.js'
import type { PooledTactic } from './effect-pooled.js'
import { asMeasured } from './effect-tables.js'
import { pooledMethod, reasonInShort, reasonInWords, timesInWords } from './effect-words.js'
import { measuredCells, measuredColumns } from './measured.js'
import { pestName } from './pest-name.js'

const change = { id: 'change', title: 'times as many', unit: 'times', decimals: 2 }

const work = { for: 'work', decimals: 0 } as const

/** Repairs, exclusion and sprays side by side for each pest. */
export function pooledTable(pools: readonly PooledTactic[]): Table {
  return {
    id: 'tactics',
    title: 'What works here: the catch after each tactic, all sites of the ledger together',
    columns: [
      { id: 'pest', title: 'pest' },
      { id: 'tactic', title: 'what was done' },
      { id: 'taken', title: 'beside it' },
      { id: 'answer', title: 'catch' },
      { id: 'change-or-why', title: 'times as many (95 %)', for: 'people' },
      ...measuredColumns(change).filter((column) => column.for === 'work'),
      { id: 'lower-shown', title: 'lower after (95 %)', for: 'people' },
      { id: 'cases', title: 'cases', ...work },
      { id: 'lower-cases', title: 'cases with a lower catch after', ...work },
      { id: 'lower-share', title: 'share lower after', unit: '%', for: 'work', decimals: 1 },
      { id: 'lower-share-low', title: 'share, lower limit', unit: '%', for: 'work', decimals: 1 },
      { id: 'lower-share-high', title: 'share, upper limit', unit: '%', for: 'work', decimals: 1 },
      { id: 'none-caught', title: 'further cases, none caught', ...work },
      { id: 'only-one-before', title: 'further cases, one reading before', ...work },
      { id: 'caught-before', title: 'caught before', unit: 'animals', ...work },
      { id: 'nights-before', title: 'effort before', unit: 'trap-nights', ...work },
      { id: 'caught-after', title: 'caught after', unit: 'animals', ...work },
      { id: 'nights-after', title: 'effort after', unit: 'trap-nights', ...work },
      { id: 'dispersion', title: 'dispersion', for: 'work', decimals: 2 },
      { id: 'p-adjusted', title: 'adjusted p', for: 'work', decimals: 4 },
      { id: 'method', title: 'method', for: 'work' },
      { id: 'why', title: 'because', for: 'work' },
    ],
    shownToPeople: 24,
    rows: inPestsThatCanBeTold(pools).map(pooledRow),
    empty: 'Nothing was done in this period in an area that is trapped for the pest.',
  }
}

/** Pests of which anything can be told come first; all tactics of a pest stay together. */
function inPestsThatCanBeTold(pools: readonly PooledTactic[]): PooledTactic[] {
  const told = new Set(pools.filter(({ effect }) => effect.estimable).map(({ pest }) => pest))
  return [...pools.filter(({ pest }) => told.has(pest)), ...pools.filter(({ pest }) => !told.has(pest))]
}

function pooledRow(pool: PooledTactic): Row {
  const { effect, occasions } = pool
  const { fell } = effect
  const measured = effect.estimable ? asMeasured(effect) : null
  const percent = (share: number | null | undefined) =>
    share === null || share === undefined ? null : share * 100
  const sum = (side: 'before' | 'after', what: 'count' | 'effort') =>
    occasions.reduce((total, one) => total + one[side].reduce((all, reading) => all + reading[what], 0), 0)
  return {
    cells: {
      pest: pestName(pool.pest),
      tactic: pool.tactic,
      taken: pool.taken === 'alone' ? 'nothing' : 'anything',
      answer: pool.word,
      'change-or-why': measured ? timesInWords(measured) : reasonInShort[pool.reason],
      ...measuredCells(change, measured),
      'lower-shown':
        fell && `${fell.events} of ${effect.events} (${whole(fell.lower)} to ${whole(fell.upper)} %)`,
      cases: effect.events,
      'lower-cases': fell?.events ?? null,
      'lower-share': percent(fell?.proportion),
      'lower-share-low': percent(fell?.lower),
      'lower-share-high': percent(fell?.upper),
      'none-caught': effect.noneCaught,
      'only-one-before': pool.onlyOneBefore,
      'caught-before': sum('before', 'count'),
      'nights-before': sum('before', 'effort'),
      'caught-after': sum('after', 'count'),
      'nights-after': sum('after', 'effort'),
      dispersion: effect.estimable ? effect.dispersion : null,
      'p-adjusted': pool.adjustedP,
      method: effect.estimable ? pooledMethod : null,
      why: reasonInWords[pool.reason],
    },
    records: [
      ...new Set(
        occasions.flatMap(({ files, things }) => [
          ...files,
          ...things.filter(({ tactic }) => tactic === pool.tactic).flatMap((thing) => thing.files),
        ]),
      ),
    ].sort(),
  }
}

const whole = (share: number) => (share * 100).toFixed(0)
