import { rateWithClumping } from '../../../dist/measure/clumped-rate.js'
import { exactRate, upperBoundWhenNoneCaught } from '../../../dist/measure/poisson-rate.js'
import { clumpingByPest, clumpingFor } from '../../../dist/reports/clumping.js'
import { percent } from './tally.js'

const groupsOf = ({ pest, observations }) => ({
  pest,
  groups: [observations.map(({ count, exposure }) => ({ count, effort: exposure }))],
})

/** Does the exact interval hold the true mean rate, does the one that allows for clumping, and is "none caught" ever said too surely? */
export function tallyRates({ series }, tally) {
  const byPest = clumpingByPest(series.map(groupsOf))
  for (const one of series) {
    const { count, effort, expected } = one
    if (effort === 0) continue
    const truth = expected / effort
    const interval = exactRate(count, effort)
    const holds = interval.lower <= truth && truth <= interval.upper
    tally.count('rates', holds)
    const grouped = groupsOf(one)
    const wide = rateWithClumping(
      grouped.groups[0],
      clumpingFor(grouped.groups, byPest.get(one.pest) ?? null).clumping,
    )
    tally.count('rates, clumping allowed for', wide.lower <= truth && truth <= wide.upper)
    tally.count(expected < 5 ? 'rates below 5' : expected < 20 ? 'rates 5 to 20' : 'rates 20 and more', holds)
    const none = count === 0
    const bound = none && upperBoundWhenNoneCaught(effort) < truth
    if (expected < 5) tally.count('none caught, bound too low, below 5', bound)
    if (none) tally.count('none caught, bound holds', !bound)
  }
}

export const ratesTable = {
  title:
    'Rates: the exact 95 % interval (Garwood) holds the true mean rate, by how many animals the truth expects',
  head: [
    'hardship',
    'all series',
    'fewer than 5',
    '5 to 20',
    '20 and more',
    'as reported: clumping allowed for, all series',
  ],
  row: (sums) =>
    ['rates', 'rates below 5', 'rates 5 to 20', 'rates 20 and more', 'rates, clumping allowed for'].map(
      (name) => percent(sums[name]),
    ),
}

export const noneTable = {
  title: 'None caught: the 95 % bound of series of which the truth expects fewer than 5 animals',
  head: [
    'hardship',
    'none caught and the bound below the truth (stated: at most 5 %)',
    'bound holds, of all series without a catch',
  ],
  row: (sums) => [
    percent(sums['none caught, bound too low, below 5']),
    percent(sums['none caught, bound holds']),
  ],
}
