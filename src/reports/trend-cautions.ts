import { verdictSettings } from '../measure/verdict.js'
import type { Period } from './period.js'
import { pestName } from './pest-name.js'
import type { Judged } from './trend-judge.js'
import { fewestAnimals } from './trend-judge.js'
import { coversTwoYears, goesTheOtherWay } from './trend-ranks.js'
import type { TwoSeasons } from './trend-season.js'
import type { TrapCatch } from './trend-traps.js'

interface Basis {
  readonly period: Period
  readonly seasons: TwoSeasons
  readonly seriesOfLedger: number
  readonly shown: readonly Judged[]
  readonly catches: readonly TrapCatch[]
}

/** What must be known to read the numbers rightly. */
export function trendCautions({ period, seasons, seriesOfLedger, shown, catches }: Basis): string[] {
  return [
    `A verdict needs ${verdictSettings.fewestReadings} days read and ${fewestAnimals} animals caught in all. Rising and falling allow for clumped catches and hold the false discovery rate at ${verdictSettings.significance * 100} % over all ${seriesOfLedger} series of the ledger in this period, whatever is filtered; steady means the change is surely within ${Math.round((verdictSettings.steadyWithin - 1) * 100)} % a month; all else is unclear.`,
    seasonCaution(period, seasons),
    ...otherWayCautions(shown),
    `Effort is in trap-nights, from setting, checks, renewals and losses; lost, wet, full, flushed or unread devices are left out with their effort. A zero is a reading; a missing reading is not.${catches.length > 0 ? ' A set of traps of which only some had gone off keeps its full effort here; the corrected catch per 100 takes off half the interval for each of them.' : ''}`,
    'Where nothing was caught, nights missing is the further effort, in trap-nights, that would make 95 % sure of less than one in ten trap-weeks.',
    'Pests for which one animal is enough are in `doorsweep report thresholds`; no statistics delay them.',
  ]
}

function seasonCaution(period: Period, { before }: TwoSeasons): string {
  const cut = isWholeYears(period.to - period.from + 1)
    ? ''
    : ', and this period is no whole year, so that a season can look like a trend'
  const years = coversTwoYears(period)
    ? ' `--show-work` also holds each month against the same month of other years.'
    : ''
  const history =
    before.from < period.from ? '; for that, records from before the period are used as history' : ''
  return `The verdict does not take the season out${cut}. The table against the same season a year before does: two seasons only, which may differ in weather or use${history}.${years}`
}

/** Whether a period covers every season alike. */
function isWholeYears(days: number): boolean {
  const rest = days % 365.25
  return days > 350 && (rest < 5 || rest > 360)
}

/** A verdict that rests on a few large catches is told to everyone, not only to whoever asks for the work. */
function otherWayCautions(shown: readonly Judged[]): string[] {
  const others = shown.filter(({ verdict, ranks }) => goesTheOtherWay(verdict, ranks))
  if (others.length === 0) return []
  const named = others
    .slice(0, 3)
    .map(({ series, verdict }) => `${pestName(series.pest)} in ${series.site} ${series.area} (${verdict})`)
  const more = others.length > named.length ? ` and ${others.length - named.length} more` : ''
  return [
    `The order of the readings goes the other way than the verdict for ${named.join(', ')}${more}: a few large catches decide there.`,
  ]
}
