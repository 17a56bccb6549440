import { onsetFactsOf } from '../../../dist/reports/onset-collect.js'
import { judgeOnsets } from '../../../dist/reports/onset-judge.js'
import { mean as meanText, percent } from './tally.js'

/**
 * The second year is watched for a doubling, as the report of onsets does, with what the first year says is usual. Does a
 * series signal falsely no more often than its chart states, and how soon is a planted doubling seen?
 */
export function tallyOnsets({ view, period, trial, isPlanted }, tally) {
  const days = { baselineFrom: period.from, from: period.from + 365, to: period.to }
  for (const { facts, statedRunLength, readings, signal } of judgeOnsets(onsetFactsOf(view, days), days)
    .watched) {
    const planted = trial.pests[facts.pest]
    if (!planted || (isPlanted && !planted.step)) continue
    const changes = planted.step ? period.from + planted.step.after : Infinity
    const before = readings.filter(({ reading }) => reading.day < changes).length
    const isFalse = signal !== undefined && signal < before
    const watched = isFalse ? signal + 1 : before
    for (let at = 0; at < watched; at += 1) {
      tally.count('false signals', isFalse && at === signal)
      tally.count('false signals stated', 1 / statedRunLength)
    }
    if (!isPlanted) tally.count('series with a false signal', isFalse)
    if (!planted.step || isFalse) continue
    const seen = signal !== undefined
    tally.count('doubling signalled', seen)
    if (seen) {
      tally.count('readings until signalled', signal - before + 1)
      tally.count('days until signalled', readings[signal].reading.day - changes)
    }
  }
}

export const onsetsTable = {
  title: 'Onset: the second year watched for a doubling, with the first as usual',
  head: [
    'hardship',
    'false signals a reading',
    'the chart allows',
    'series with a false signal in the year',
    'planted doubling signalled within 8 months',
    'days until then',
    'readings until then',
  ],
  row: (sums) => [
    percent(sums['false signals'], 2),
    percent(sums['false signals stated'], 2),
    percent(sums['series with a false signal']),
    percent(sums['doubling signalled']),
    meanText(sums['days until signalled'], 0),
    meanText(sums['readings until signalled'], 1),
  ],
}
