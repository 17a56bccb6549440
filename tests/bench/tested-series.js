// Measures what testing only series with enough animals does to true and false claims, on generated ledgers of flat
// and rising series. Prints the table in src/measure/README.md: `npm run build && node tests/bench/tested-series.js`.
import { trendOf } from '../../dist/measure/count-trend.js'
import { benjaminiHochberg } from '../../dist/measure/false-discovery.js'
import { verdictOf } from '../../dist/measure/verdict.js'

const ledgers = 120
const seriesEach = 300
const risingEach = 6
const clumping = 0.5

let state = 12345
/** mulberry32 */
function uniform() {
  state = (state + 0x6d2b79f5) | 0
  let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
  mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
}
const above0 = () => uniform() || 1e-12
const normal = () => Math.sqrt(-2 * Math.log(above0())) * Math.cos(2 * Math.PI * uniform())

/** Marsaglia & Tsang (2000). */
function gamma(shape) {
  if (shape < 1) return gamma(shape + 1) * above0() ** (1 / shape)
  const d = shape - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = normal()
    const v = (1 + c * x) ** 3
    if (v > 0 && Math.log(above0()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v
  }
}

function poisson(mean) {
  if (mean > 500) return Math.max(0, Math.round(mean + Math.sqrt(mean) * normal()))
  const limit = Math.exp(-mean)
  let count = 0
  for (let product = uniform(); product > limit; product *= uniform()) count++
  return count
}

function series(mean, perMonth, readings) {
  return Array.from({ length: readings }, (_, at) => {
    const expected = mean * perMonth ** (at - (readings - 1) / 2)
    return { day: 30 * at, count: poisson((expected * gamma(clumping)) / clumping), exposure: 90 }
  })
}

for (const readings of [24, 12]) {
  for (const fewest of [0, 10]) {
    const seen = { found: 0, false: 0, ledgersWithFalse: 0 }
    for (let ledger = 0; ledger < ledgers; ledger++) {
      const all = Array.from({ length: seriesEach }, (_, at) =>
        at < risingEach ? series(2, 1.25, readings) : series(Math.exp(-1.5 + 1.5 * normal()), 1, readings),
      )
      const trends = all.map(trendOf)
      const total = (one) => one.reduce((sum, { count }) => sum + count, 0)
      const adjusted = benjaminiHochberg(
        trends.map((trend, at) => (trend.estimable && total(all[at]) >= fewest ? trend.p : null)),
      )
      const verdicts = trends.map((trend, at) => verdictOf(trend, adjusted[at], readings).verdict)
      const wrong = verdicts.filter(
        (verdict, at) =>
          ['rising', 'falling'].includes(verdict) && (at >= risingEach || verdict === 'falling'),
      ).length
      seen.found += verdicts.slice(0, risingEach).filter((verdict) => verdict === 'rising').length
      seen.false += wrong
      if (wrong > 0) seen.ledgersWithFalse++
    }
    const percent = (part, whole) => `${((100 * part) / whole).toFixed(1)} %`
    console.log(
      `${readings} readings, ${fewest} animals or more: found ${percent(seen.found, ledgers * risingEach)}, ` +
        `false ${seen.false} of ${seen.found + seen.false} claims, ledgers with any ${percent(seen.ledgersWithFalse, ledgers)}`,
    )
  }
}
