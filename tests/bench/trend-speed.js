// Measures what judging every series of a large district costs, beyond reading its records: verdicts, the order of the
// readings, the seasons. `npm run build && node tests/bench/trend-speed.js` prints the table for README.md. SITES, PESTS,
// YEARS and ROUNDS change the size. Nothing is asserted. The baseline is the fit of the same series alone. Seconds are
// the processor's, so that other work on the machine counts for less.
import { addMonths, dayOf } from '../../dist/measure/calendar.js'
import { trendOf } from '../../dist/measure/count-trend.js'
import { negativeBinomial, seededRandom } from '../../dist/measure/seeded-random.js'
import { judge } from '../../dist/reports/trend-judge.js'
import { rankChecks } from '../../dist/reports/trend-ranks.js'
import { judgeSeasons, twoSeasonsOf } from '../../dist/reports/trend-season.js'

const number = (name, otherwise) => Number(process.env[name] ?? otherwise)
const sites = number('SITES', 100)
const pests = number('PESTS', 20)
const years = number('YEARS', 10)
const rounds = number('ROUNDS', 5)
const seed = 20260312

const from = dayOf('2016-01-01')
const period = { from, to: addMonths(from, 12 * years) - 1 }

/** One reading a month of three traps; means log-normal about 0.7 animals a reading, clumped with k 0.5, in season. */
function series(random, site, pest) {
  const mean = 0.7 * Math.exp(2.4 * (random.next() + random.next() - 1))
  const observations = Array.from({ length: 12 * years }, (_, month) => {
    const day = addMonths(from, month) + 4 + Math.floor(7 * random.next())
    const season = Math.exp(0.8 * Math.cos((2 * Math.PI * (month - 7)) / 12))
    return { day, count: negativeBinomial(random, mean * season, 0.5), trapNights: 90, files: [] }
  })
  return { site: `site-${site}`, area: 'kitchen', pest: `pest-${pest}`, observations }
}

const random = seededRandom(seed)
const all = Array.from({ length: sites * pests }, (_, at) =>
  series(random, Math.floor(at / pests), at % pests),
)
const seasons = twoSeasonsOf(period)
const within = ({ observations }, days) =>
  observations.filter(({ day }) => days.from <= day && day <= days.to)

const fits = () =>
  all.map(({ observations }) =>
    trendOf(observations.map(({ day, count, trapNights }) => ({ day, count, exposure: trapNights }))),
  )
const orders = () =>
  rankChecks(
    all.map(({ observations }) => observations),
    () => true,
    period,
  )
const bothSeasons = () =>
  judgeSeasons(
    all.map((one) => ({ ...one, now: within(one, seasons.now), before: within(one, seasons.before) })),
  )
const ways = {
  'the fit of each series alone (baseline)': fits,
  'order of the readings, median slope, order of the years': orders,
  'same season a year before': bothSeasons,
  'all of the judging': () => [judge(all, period), bothSeasons()],
}

const perWay = () => Object.fromEntries(Object.keys(ways).map((name) => [name, []]))
const seconds = perWay()
const clock = perWay()
for (let round = 0; round < rounds; round++) {
  for (const [name, run] of Object.entries(ways)) {
    const start = process.cpuUsage()
    const began = performance.now()
    run()
    const took = (performance.now() - began) / 1e3
    const { user, system } = process.cpuUsage(start)
    if (round === 0) continue
    seconds[name].push((user + system) / 1e6)
    clock[name].push(took)
  }
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]
const span = (list) =>
  `${median(list).toFixed(2)} (${Math.min(...list).toFixed(2)} to ${Math.max(...list).toFixed(2)})`
const row = (cells) => console.log(`| ${cells.join(' | ')} |`)
const [baseline] = Object.values(seconds)
console.log(
  `${sites} sites × ${pests} pests × ${12 * years} monthly readings, node ${process.version}; ${rounds} rounds in turn, the first thrown away; medians (least to most)\n`,
)
row(['what', 'seconds by the clock', 'processor seconds', 'ratio to the baseline'])
row(['---', '---', '---', '---'])
for (const [name, list] of Object.entries(seconds))
  row([name, span(clock[name]), span(list), span(list.map((one, at) => one / baseline[at]))])
