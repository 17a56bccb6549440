import { compareText } from '../ledger/compare-text.js'
import { isoOf } from '../measure/calendar.js'
import { runLengthWithVariedEffort } from '../measure/cusum-varied-effort.js'
import type { PlotMark, Row, Table } from '../types.js'
import { markOf } from './catch-plot.js'
import { measuredCells, measuredColumns } from './measured.js'
import type { Crossed, DoneThing } from './onset-collect.js'
import type { JudgedReading, Watched } from './onset-judge.js'
import { beginningOf, onsetSettings } from './onset-judge.js'
import { few, filesOf, limitCells, limitColumns, usualColumn } from './onset-tables.js'
import { pestName } from './pest-name.js'

/** A series whose sum reached the limit, with what was done about it. */
export interface Risen {
  readonly of: Watched
  /** Places of the first reading of the run-up and of the one with which the limit was reached. */
  readonly began: number
  readonly signal: number
  readonly on: number
  readonly acted: DoneThing | undefined
  readonly crossed: Crossed | undefined
}

export function risenOf(one: Watched): Risen | undefined {
  const { signal, facts, readings } = one
  const reading = signal === undefined ? undefined : readings[signal]?.reading
  if (signal === undefined || !reading) return undefined
  const began = beginningOf(one, signal)
  const beganOn = readings[began]?.reading.day ?? reading.day
  return {
    of: one,
    began,
    signal,
    on: reading.day,
    acted: facts.done.find(({ day }) => day >= beganOn),
    crossed: facts.threshold.crossings.find(({ seenOn }) => seenOn >= beganOn),
  }
}

export function risenTable(risen: readonly Risen[]): Table {
  return {
    id: 'risen',
    title: 'Rises beyond chance, and what came after',
    columns: [
      { id: 'site', title: 'site' },
      { id: 'pest', title: 'pest' },
      { id: 'noticeable', title: 'noticeable on' },
      { id: 'caught-shown', title: 'caught by then', for: 'people' },
      { id: 'where', title: 'mostly in' },
      { id: 'threshold', title: 'threshold crossed' },
      { id: 'done-shown', title: 'first thing done', for: 'people' },
      { id: 'latest-shown', title: 'last whole reading', for: 'people' },
      { id: 'began', title: 'began about', for: 'work' },
      { id: 'caught', title: 'caught from then to the signal', unit: 'animals', decimals: 0, for: 'work' },
      { id: 'trap-nights', title: 'effort of that', unit: 'trap-nights', decimals: 0, for: 'work' },
      ...measuredColumns(usualColumn).filter(({ for: reader }) => reader === 'work'),
      { id: 'sum', title: 'sum at the signal', unit: 'animals', decimals: 1, for: 'work' },
      { id: 'acted', title: 'first thing done on', for: 'work' },
      { id: 'acted-after', title: 'done after the signal', unit: 'days', decimals: 0, for: 'work' },
      { id: 'did', title: 'what was done', for: 'work' },
      { id: 'last-read', title: 'last whole reading on', for: 'work' },
      { id: 'last-caught', title: 'caught then', unit: 'animals', decimals: 0, for: 'work' },
      { id: 'last-usual', title: 'usual then', unit: 'animals', decimals: 1, for: 'work' },
      { id: 'last-sum', title: 'sum then', unit: 'animals', decimals: 1, for: 'work' },
      {
        id: 'run-length-varied',
        title: 'readings to a false signal at the efforts as they were, at least',
        unit: 'readings',
        decimals: 0,
        for: 'work',
      },
      ...limitColumns,
    ],
    shownToPeople: 40,
    rows: risen.map(risenRow),
    empty: 'No sum of catches reached its limit in this period.',
  }
}

function risenRow(one: Risen): Row {
  const { of, began, signal, on, acted, crossed } = one
  const { facts, readings } = of
  const runUp = readings.slice(began, signal + 1)
  const total = (number: (reading: (typeof runUp)[number]) => number) =>
    runUp.reduce((sum, reading) => sum + number(reading), 0)
  const caught = total(({ count }) => count)
  const usual = total((reading) => reading.usual)
  const last = lastWhole(of)
  const varied = variedRunLength(of)
  const beganOn = runUp[0]?.reading.day ?? on
  return {
    cells: {
      site: facts.site,
      pest: pestName(facts.pest),
      noticeable: isoOf(on),
      'caught-shown': `${caught}, usual ${few(usual)}`,
      where: whereOf(one),
      threshold: thresholdWords(one),
      'done-shown': acted ? `${isoOf(acted.day)}, ${daysAfter(acted.day - on)}` : 'nothing recorded',
      'latest-shown': last ? `${last.count}, usual ${few(last.usual)}` : null,
      began: isoOf(beganOn),
      caught,
      'trap-nights': total(({ trapNights }) => trapNights),
      ...measuredCells(usualColumn, {
        value: usual,
        low: usual * of.limits.low,
        high: usual * of.limits.high,
      }),
      sum: readings[signal]?.sum ?? null,
      acted: acted ? isoOf(acted.day) : null,
      'acted-after': acted ? acted.day - on : null,
      did: acted?.says ?? null,
      'last-read': last ? isoOf(last.reading.day) : null,
      'last-caught': last?.count ?? null,
      'last-usual': last?.usual ?? null,
      'last-sum': last?.sum ?? null,
      'run-length-varied': varied,
      ...limitCells(of),
      why: `${varied === null ? 'the run length at the efforts as they were cannot be told for numbers of this size; ' : ''}the sum of catches above what is allowed for reached ${few(readings[signal]?.sum ?? 0)}, with a limit of ${few(of.chosen.h)}`,
    },
    records: filesOf([
      of.baselineFiles,
      ...readings.map(({ reading }) => reading.files),
      acted?.files ?? [],
      crossed?.files ?? [],
    ]),
  }
}

function thresholdWords({ of, crossed }: Risen): string {
  const { wasJudged, cannotTell } = of.facts.threshold
  if (crossed) return isoOf(crossed.day)
  if (cannotTell) return 'cannot tell'
  return wasJudged ? 'not crossed' : 'no threshold'
}

/** The last reading of at least half the usual size: one of a few traps read again tells little. */
function lastWhole({ readings, shares }: Watched): JudgedReading | undefined {
  return readings.findLast((_, at) => (shares[at] ?? 0) >= 0.5)
}

function daysAfter(days: number): string {
  if (days === 0) return 'the same day'
  const words = Math.abs(days) === 1 ? 'one day' : `${Math.abs(days)} days`
  return days > 0 ? `${words} later` : `${words} before`
}

/** The areas that had most above their usual catch in the run-up; two at most. */
function whereOf({ of, began, signal }: Risen): string {
  const excess = new Map<string, number>()
  for (const { reading } of of.readings.slice(began, signal + 1))
    for (const part of reading.parts) {
      const area = of.facts.areaOf.get(part.part) ?? part.part
      excess.set(area, (excess.get(area) ?? 0) + part.count - of.baseline.of([part]))
    }
  const ranked = [...excess]
    .filter(([, more]) => more > 0)
    .sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))
  const all = ranked.reduce((sum, [, more]) => sum + more, 0)
  const named = ranked.slice(0, 2).filter(([, more], at) => at === 0 || more >= all / 4)
  return named.map(([area]) => area).join(', ')
}

/** Different shares are rounded, so that a reading of 29 nights and one of 30 count as alike. */
function variedRunLength({ chosen, shares }: Watched): number | null {
  const exposures = shares.map((share) => Number(share.toPrecision(2))).filter((share) => share > 0)
  const { direction, mean, k, h, clumping } = chosen
  const bounds = runLengthWithVariedEffort({ direction, rate: mean, k, h, exposures, clumping })
  return bounds ? bounds.atLeast / onsetSettings.learntFactor : null
}

/** What happened after a rise began, for a plot. */
export function marksOf({ crossed, acted }: Risen): PlotMark[] {
  const marks: PlotMark[] = []
  if (crossed) marks.push({ day: isoOf(crossed.day), says: `threshold crossed in ${crossed.area}` })
  if (acted) marks.push(markOf(acted))
  return marks.sort((a, b) => compareText(a.day, b.day))
}
