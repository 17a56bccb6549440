// Measures how often the intervals of a change hold the true factor when catches clump. Prints the tables in
// src/measure/README.md: `npm run build && node tests/bench/change-intervals.js`. About three minutes on one core.
import { beforeAfter } from '../../dist/measure/before-after.js'
import { changeVerdict } from '../../dist/measure/change-verdict.js'
import { clumpingAbout, divisorOf, oddsLimits, totalOf } from '../../dist/measure/effective-counts.js'
import { pooledEffect } from '../../dist/measure/pooled-effect.js'
import { randomEffects } from '../../dist/measure/random-effects.js'
import { rateRatio } from '../../dist/measure/rate-ratio.js'
import { ratioOfRatios } from '../../dist/measure/ratio-of-ratios.js'
import { negativeBinomial, normal, pick, poisson, seededRandom } from '../../dist/measure/seeded-random.js'

const times = Number(process.env.TIMES ?? 2000)
const seed = 20260312
const means = [0.3, 1, 3, 8, 20]
const clumpings = [0.5, 1, 3, Infinity]
const ratios = [0.2, 0.5, 1, 2, 5]

const percent = (share) => `${(100 * share).toFixed(1)} %`
const row = (cells) => console.log(`| ${cells.join(' | ')} |`)
const holds = ({ lower, upper }, truth) => lower <= truth && (upper === null || truth <= upper)

function readings(random, number, mean, k, efforts = [1]) {
  return Array.from({ length: number }, () => {
    const effort = pick(random, efforts)
    const expected = mean * effort
    return {
      count: k === Infinity ? poisson(random, expected) : negativeBinomial(random, expected, k),
      effort,
    }
  })
}

/** Coverage in every setting of a row, as the least and the mean. */
function coverage(settings, variants, invent) {
  const shares = variants.map(() => [])
  for (const setting of settings) {
    const random = seededRandom(seed).fork(JSON.stringify(setting))
    const held = variants.map(() => 0)
    for (let time = 0; time < times; time++) {
      const { data, truth } = invent(random, setting)
      variants.forEach((variant, at) => {
        const interval = variant(data)
        if (interval === null || holds(interval, truth)) held[at]++
      })
    }
    held.forEach((number, at) => {
      shares[at].push(number / times)
    })
  }
  return shares.map((all) => ({
    least: Math.min(...all),
    mean: all.reduce((sum, one) => sum + one, 0) / all.length,
  }))
}

const product = (...lists) =>
  lists.reduce((all, list) => all.flatMap((start) => list.map((one) => [...start, one])), [[]])

/** The exact interval as if catches did not clump. */
function plain([before, after]) {
  const [b, a] = [totalOf(before), totalOf(after)]
  return rateRatio(a.count, a.effort, b.count, b.effort)
}

/** One dispersion pooled over both sides instead of the largest. */
function pooled([before, after]) {
  const clumping = clumpingAbout([before, after])
  const [b, a] = [totalOf(before), totalOf(after)]
  if (clumping === null || a.count + b.count === 0) return null
  const chi = [before, after].reduce((sum, side) => {
    const { count, effort } = totalOf(side)
    const mean = (one) => (count * one.effort) / effort
    return (
      sum + (count === 0 ? 0 : side.reduce((all, one) => all + (one.count - mean(one)) ** 2 / mean(one), 0))
    )
  }, 0)
  const dispersion = Math.max(1, chi / clumping.degreesOfFreedom)
  const divisor = divisorOf(dispersion, clumping.degreesOfFreedom, 0.95)
  const { lower, upper } = oddsLimits(a.count / divisor, b.count / divisor, 0.95)
  const perOdds = b.effort / a.effort
  return { lower: lower * perOdds, upper: upper === null ? null : upper * perOdds }
}

const estimated = (result) => (result.estimable ? result : null)

function beforeAfterTable() {
  console.log(
    '\nBefore and after: least and mean coverage; what is said of a true fall to a fifth from mean 3, k 1\n',
  )
  row(['readings', 'not clumped: least', 'pooled: least', 'largest: least', 'largest: mean', 'fell', 'rose'])
  const even = [1]
  const uneven = [1, 4]
  const rows = [
    ['2 before, 2 after', 2, 2, even],
    ['4 before, 4 after', 4, 4, even],
    ['8 before, 8 after', 8, 8, even],
    ['8 before, 2 after', 8, 2, even],
    ['2 before, 8 after', 2, 8, even],
    ['4 before, 4 after, effort 1 or 4', 4, 4, uneven],
    ['8 before, 2 after, effort 1 or 4', 8, 2, uneven],
  ]
  for (const [name, before, after, efforts] of rows) {
    const shares = coverage(
      product([before], [after], means, clumpings, ratios),
      [plain, pooled, (data) => estimated(beforeAfter(...data))],
      (random, [b, a, mean, k, ratio]) => ({
        data: [readings(random, b, mean, k, efforts), readings(random, a, mean * ratio, k, efforts)],
        truth: ratio,
      }),
    )
    const random = seededRandom(seed).fork(`words ${name}`)
    const words = { fell: 0, rose: 0 }
    for (let time = 0; time < times; time++) {
      const sides = [readings(random, before, 3, 1, efforts), readings(random, after, 0.6, 1, efforts)]
      const { word } = changeVerdict(beforeAfter(...sides))
      if (word in words) words[word]++
    }
    row([
      name,
      ...shares.map(({ least }) => percent(least)),
      percent(shares[2].mean),
      percent(words.fell / times),
      percent(words.rose / times),
    ])
  }
}

function ratioOfRatiosTable() {
  console.log('\nTreated against untreated: coverage of a true ratio of ratios of 0.2, 0.5 and 1\n')
  row(['readings in each set', 'least', 'mean', 'fell, truth 0.2, mean 3, k 1', 'rose'])
  for (const sizes of [
    [2, 2, 2, 2],
    [4, 4, 4, 4],
    [8, 8, 8, 8],
    [8, 2, 8, 2],
    [4, 4, 2, 2],
  ]) {
    const [shares] = coverage(
      product([sizes], means, clumpings, [0.2, 0.5, 1], [0.4, 1, 2.5]),
      [(data) => estimated(ratioOfRatios(data))],
      (random, [[tb, ta, ub, ua], mean, k, ratio, drift]) => ({
        data: {
          'treated before': readings(random, tb, mean, k),
          'treated after': readings(random, ta, mean * ratio * drift, k),
          'untreated before': readings(random, ub, mean, k),
          'untreated after': readings(random, ua, mean * drift, k),
        },
        truth: ratio,
      }),
    )
    const random = seededRandom(seed).fork(`ratio words ${sizes}`)
    const words = { fell: 0, rose: 0 }
    for (let time = 0; time < times; time++) {
      const { word } = changeVerdict(
        ratioOfRatios({
          'treated before': readings(random, sizes[0], 3, 1),
          'treated after': readings(random, sizes[1], 0.6, 1),
          'untreated before': readings(random, sizes[2], 3, 1),
          'untreated after': readings(random, sizes[3], 3, 1),
        }),
      )
      if (word in words) words[word]++
    }
    row([
      sizes.join(', '),
      percent(shares.least),
      percent(shares.mean),
      percent(words.fell / times),
      percent(words.rose / times),
    ])
  }
}

/** Log ratios with half an animal added to every count, pooled by DerSimonian–Laird and Hartung–Knapp. */
function halfAdded(events, add) {
  const estimates = events.flatMap(({ before, after }) => {
    const [b, a] = [totalOf(before), totalOf(after)]
    if (a.count + b.count === 0) return []
    const half = add(a.count, b.count)
    const [x, y] = [a.count + half, b.count + half]
    return [{ value: Math.log(x / a.effort) - Math.log(y / b.effort), variance: 1 / x + 1 / y }]
  })
  if (estimates.length < 3) return null
  const result = randomEffects(estimates, { neverNarrower: true })
  return result && { lower: Math.exp(result.lower), upper: Math.exp(result.upper) }
}

function pooledTable() {
  console.log(
    '\nPooled over events: coverage where events share one true ratio (0.3, 1 or 2) and where they differ\n',
  )
  row([
    'events',
    'half to all: least',
    'half to zeros: least',
    'counts: least',
    'counts: mean',
    'fell, truth 0.3',
    'rose',
  ])
  for (const number of [3, 5, 10, 20]) {
    const settings = product(
      [number],
      [0.5, 2, 10],
      [0.5, 2, Infinity],
      [0.3, 1, 2],
      [0, 0.5],
      [
        [3, 3],
        [6, 2],
        [2, 6],
      ],
    )
    const invent = (random, [n, mean, k, ratio, spread, [b, a]]) => ({
      data: Array.from({ length: n }, () => {
        const level = mean * Math.exp(normal(random) - 0.5)
        const own = ratio * Math.exp(spread * normal(random))
        return { before: readings(random, b, level, k), after: readings(random, a, level * own, k) }
      }),
      truth: ratio,
    })
    const shares = coverage(
      settings,
      [
        (events) => halfAdded(events, () => 0.5),
        (events) => halfAdded(events, (x, y) => (x === 0 || y === 0 ? 0.5 : 0)),
        (events) => estimated(pooledEffect(events)),
      ],
      invent,
    )
    const random = seededRandom(seed).fork(`pooled words ${number}`)
    const words = { fell: 0, rose: 0 }
    for (let time = 0; time < times; time++) {
      const { word } = changeVerdict(pooledEffect(invent(random, [number, 2, 2, 0.3, 0.5, [3, 3]]).data))
      if (word in words) words[word]++
    }
    row([
      String(number),
      ...shares.map(({ least }) => percent(least)),
      percent(shares[2].mean),
      percent(words.fell / times),
      percent(words.rose / times),
    ])
  }
}

/** Events that did nothing, but came because the last reading before was high: they look as if they had worked. */
function becauseItWasHighTable() {
  console.log('\nNo effect at all, 4 readings before and 4 after, mean 3: said to have fallen\n')
  row([
    'event came',
    'k',
    'before and after',
    'against untreated areas',
    '5 events pooled',
    '20 events pooled',
    '20, last reading left out',
  ])
  for (const [name, least] of [
    ['at any time', 0],
    ['when the last reading was 6 or more', 6],
  ]) {
    for (const k of [Infinity, 1]) {
      const random = seededRandom(seed).fork(`high ${least} ${k}`)
      const before = () => {
        const last = () => {
          for (;;) {
            const [one] = readings(random, 1, 3, k)
            if (one.count >= least) return one
          }
        }
        return [...readings(random, 3, 3, k), last()]
      }
      const event = () => ({ before: before(), after: readings(random, 4, 3, k) })
      const fell = { alone: 0, against: 0, five: 0, twenty: 0, without: 0 }
      const note = (key, change) => {
        if (changeVerdict(change).word === 'fell') fell[key]++
      }
      for (let time = 0; time < times; time++) {
        const one = event()
        note('alone', beforeAfter(one.before, one.after))
        note(
          'against',
          ratioOfRatios({
            'treated before': one.before,
            'treated after': one.after,
            'untreated before': readings(random, 4, 3, k),
            'untreated after': readings(random, 4, 3, k),
          }),
        )
        note('five', pooledEffect(Array.from({ length: 5 }, event)))
        const twenty = Array.from({ length: 20 }, event)
        note('twenty', pooledEffect(twenty))
        note('without', pooledEffect(twenty.map((each) => ({ ...each, before: each.before.slice(0, -1) }))))
      }
      row([
        name,
        k === Infinity ? '∞' : String(k),
        ...Object.values(fell).map((number) => percent(number / times)),
      ])
    }
  }
}

const tables = {
  'before-after': beforeAfterTable,
  'ratio-of-ratios': ratioOfRatiosTable,
  pooled: pooledTable,
  high: becauseItWasHighTable,
}
const wanted = process.argv[2]
for (const [name, table] of Object.entries(tables)) if (wanted === undefined || wanted === name) table()
