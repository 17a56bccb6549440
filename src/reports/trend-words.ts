import type { NoChangeReason } from '../measure/before-after.js'
import type { ChangeReason } from '../measure/change-verdict.js'
import type { VerdictReason } from '../measure/verdict.js'
import type { Column } from '../types.js'

type Reason = VerdictReason | ChangeReason<NoChangeReason> | 'too-few-animals'

/** Why a verdict is what it is, for whoever asks to see the work. */
export const reasonWords: Readonly<Record<Reason, string>> = {
  'too-few-animals': 'too few animals caught in all',
  'interval-above-no-change': 'the whole interval is above no change',
  'interval-below-no-change': 'the whole interval is below no change',
  'interval-tight-around-no-change': 'the interval is tight around no change',
  'interval-too-wide': 'the interval is too wide to tell',
  'interval-includes-no-change': 'the interval includes no change',
  'not-significant-among-all-series': 'not sure enough among so many series',
  'not-significant-among-all': 'not sure enough among so many series',
  'too-few-readings': 'too few days read',
  'not-a-count': 'a count is not a number',
  'none-caught': 'nothing was caught',
  'one-day': 'read on one day only',
  'caught-at-one-end': 'everything was caught on the first or the last day read',
  'out-of-range': 'the numbers are beyond what can be computed',
  'no-readings-before': 'not read in the season a year before',
  'no-readings-after': 'not read in the season now',
  'no-effort-before': 'no effort in the season a year before',
  'no-effort-after': 'no effort in the season now',
}

/** Where a series is: shown to people in one narrow column, told to machines in two. */
export const whereColumns: readonly Column[] = [
  { id: 'where', title: 'site and area', for: 'people' },
  { id: 'site', title: 'site', for: 'work' },
  { id: 'area', title: 'area', for: 'work' },
]

export function whereCells({ site, area }: { readonly site: string; readonly area: string }) {
  return { where: `${site} ${area}`, site, area }
}

/** Columns with a unit only where the work is shown, for tables whose title tells the unit. */
export function unitInTitle(columns: readonly Column[]): Column[] {
  return columns.map(({ unit, ...column }) =>
    column.for === 'people' || unit === undefined ? column : { ...column, unit },
  )
}

/** By site, area and pest. */
export function compareSeries(a: SeriesKey, b: SeriesKey): number {
  const key = ({ site, area, pest }: SeriesKey) => `${site} ${area} ${pest}`
  return key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0
}

interface SeriesKey {
  readonly site: string
  readonly area: string
  readonly pest: string
}
