import { addedUpByDay, trendOf } from '../../../dist/measure/count-trend.js'
import { fitLogLinear } from '../../../dist/measure/log-linear.js'
import { judge } from '../../../dist/reports/trend-judge.js'
import { judgeSeasons, seasonPairsOf, twoSeasonsOf } from '../../../dist/reports/trend-season.js'
import { isLevel, isLogLinear } from './ledger.js'
import { percent } from './tally.js'

/** Do the limits of the slope hold the true one, and what does the report say of level series and of others? */
export function tallyTrends(ledger, tally) {
  for (const one of ledger.series) {
    if (!isLogLinear(one) || one.expected < 20) continue
    const truth = one.planted.perMonth ?? 0
    const trend = trendOf(one.observations)
    const holds = !trend.estimable || (Math.log(trend.lower) <= truth && truth <= Math.log(trend.upper))
    tally.count('trend of reports', holds)
    if (truth !== 0) tally.count('trend of reports, planted', holds)
    const fit = fitLogLinear(addedUpByDay(one.observations))
    if (!fit.estimable || fit.quasi === null) continue
    tally.count('quasi-Poisson fit', fit.quasi.lower <= truth && truth <= fit.quasi.upper)
    tally.count('Poisson fit', fit.poisson.lower <= truth && truth <= fit.poisson.upper)
  }
  tallyVerdicts(ledger, tally)
  tallySeasons(ledger, tally)
}

function tallyVerdicts({ all, period, series, isPlanted }, tally) {
  const said = new Map(judge(all, period).map((one) => [keyOf(one.series), one.verdict]))
  let claims = 0
  let wrong = 0
  for (const one of series) {
    const verdict = said.get(keyOf(one))
    const claimed = verdict === 'rising' || verdict === 'falling'
    if (isLevel(one) && !isPlanted) {
      tally.count('level series called', claimed)
      if (claimed) wrong += 1
    }
    if (claimed) claims += 1
    if (isLogLinear(one) && !isLevel(one) && one.expected >= 20) {
      const right = one.planted.perMonth > 0 ? 'rising' : 'falling'
      tally.count('planted trends found', verdict === right)
      tally.count('planted trends called the other way', claimed && verdict !== right)
    }
    if (isPlanted && isLevel(one) && claimed) wrong += 1
  }
  if (isPlanted) tally.count('false among the claims', claims === 0 ? 0 : wrong / claims)
  else tally.count('ledgers with a false claim', wrong > 0)
}

const keyOf = ({ area, pest }) => `${area} ${pest}`

/** The last 90 days against the same days a year before. */
function tallySeasons({ view, period, series }, tally) {
  const seasons = twoSeasonsOf(period)
  const known = new Map(series.map((one) => [keyOf(one), one]))
  for (const { change, word, ...pair } of judgeSeasons(seasonPairsOf(view, seasons))) {
    const truth = known.get(keyOf(pair))
    if (truth === undefined || !change.estimable) continue
    const rate = ({ from, to }) => {
      const days = truth.observations.filter(({ day }) => from <= day && day <= to)
      const sum = (of) => days.reduce((total, one) => total + one[of], 0)
      return sum('expected') / sum('exposure')
    }
    const ratio = rate(seasons.now) / rate(seasons.before)
    tally.count('seasons', change.lower <= ratio && (change.upper === null || ratio <= change.upper))
    if (isLevel(truth)) tally.count('seasons, level called', word === 'fell' || word === 'rose')
  }
}

export const seasonsTable = {
  title: 'Last 90 days against the same a year before',
  head: ['hardship', 'the 95 % interval holds the true ratio', 'level series said to have fallen or risen'],
  row: (sums) => ['seasons', 'seasons, level called'].map((name) => percent(sums[name])),
}

export const fitsTable = {
  title:
    'Trends: the 95 % limits of the slope hold the true one, series of which the truth expects 20 or more',
  head: [
    'hardship',
    'quasi-Poisson fit',
    'Poisson fit',
    'limits of the report',
    'the same, planted trends only',
  ],
  row: (sums) =>
    ['quasi-Poisson fit', 'Poisson fit', 'trend of reports', 'trend of reports, planted'].map((name) =>
      percent(sums[name]),
    ),
}

export const verdictsTable = {
  title: 'Trends: what the report of trends says',
  head: [
    'hardship',
    'level series called',
    'level ledgers with any series called',
    'false share of the claims (stated: at most 5 %)',
    'planted trends found',
    'called the other way',
  ],
  row: (sums) =>
    [
      'level series called',
      'ledgers with a false claim',
      'false among the claims',
      'planted trends found',
      'planted trends called the other way',
    ].map((name) => percent(sums[name])),
}
