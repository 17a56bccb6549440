import type { Verdict } from '../measure/verdict.js'
import { pestName } from './pest-name.js'
import type { Judged } from './trend-judge.js'
import type { SeasonChange } from './trend-season.js'

/** The one sentence of the report. */
export function trendHeadline(judged: readonly Judged[], changes: readonly SeasonChange[]): string {
  const of = (verdict: Verdict) => judged.filter((row) => row.verdict === verdict && row.count > 0)
  const rising = of('rising')
  if (judged.length === 0) return 'No trap was read in this period, so nothing can be said.'
  const first = rising[0]
  const risingWords = first
    ? `${rising.length === 1 ? 'One catch is' : `${rising.length} catches are`} surely rising, first of all ${pestName(first.series.pest)} in ${first.series.site} ${first.series.area}`
    : 'No catch is surely rising'
  const noneCaught = judged.filter((row) => row.count === 0).length
  return `${risingWords}; ${of('falling').length} falling, ${of('steady').length} steady, ${of('unclear').length} unclear, and ${noneCaught} without a catch${seasonWords(changes)}.`
}

/** Only what is sure: nothing where no series surely changed. */
function seasonWords(changes: readonly SeasonChange[]): string {
  const parts = (['rose', 'fell'] as const).flatMap((word) => {
    const sure = changes.filter((change) => change.word === word)
    const [first] = sure
    if (!first) return []
    return `${sure.length} surely ${word} (${sure.length > 1 ? 'one of them ' : ''}${pestName(first.pest)} in ${first.site} ${first.area})`
  })
  return parts.length === 0 ? '' : `; against the same season a year before, ${parts.join(' and ')}`
}
