// Holds the signals of `report onset` against what the generated ledgers' model truly did, half-year by half-year. Prints the
// table in src/measure/README.md: `npm run build && node tests/bench/early-warning.js` (some two minutes).
import { memorySource } from '../../dist/files/memory.js'
import { readLedger } from '../../dist/ledger/read-ledger.js'
import { addMonths, dayOf } from '../../dist/measure/calendar.js'
import { onsetFactsOf } from '../../dist/reports/onset-collect.js'
import { beginningOf, judgeOnsets } from '../../dist/reports/onset-judge.js'
import { efficiency } from '../../dist/writing/demo/efficiency.js'
import { demoRun } from '../../dist/writing/demo/ledger.js'
import { rateOf } from '../../dist/writing/demo/rates.js'

const seeds = [1, 2, 3, 4]
const ends = ['2025-06-30', '2025-12-31', '2026-06-30']
const until = dayOf('2026-06-30')

function ledgerOf(seed) {
  const run = demoRun({ sites: 20, years: 3, seed, until, clean: true })
  const files = new Map()
  for (const commit of run.commits) for (const { path, text } of commit.files) files.set(path, text)
  return { source: memorySource(files), truth: run.truth }
}

/** Animals truly expected, by `site pest`, then by day and part. */
function expectedCatches(view, truth, into) {
  const { series } = truth.sites.find(({ site }) => site === view.id)
  for (const device of view.devices)
    for (const check of device.checks) {
      if (check.noAccess || check.unusable !== undefined) continue
      for (const pest of device.for) {
        if (!check.caught.has(pest)) continue
        const of = series.find((one) => one.area === check.area && one.pest === pest)
        const { day } = check.moment
        let mean = 0
        if (of)
          for (let night = day - check.trapNights / device.traps; night < day; night++)
            mean += rateOf(of, night) * device.traps * (efficiency[device.kind]?.[pest] ?? 0)
        const key = `${view.id} ${pest} ${day} ${check.area} ${device.kind}`
        into.set(key, (into.get(key) ?? 0) + mean)
      }
    }
}

const seen = {
  series: 0,
  readings: 0,
  expected: 0,
  signals: 0,
  none: 0,
  some: 0,
  more: 0,
  rises: 0,
  found: 0,
}

for (const seed of seeds) {
  const { source, truth } = ledgerOf(seed)
  for (const end of ends) {
    const to = dayOf(end)
    const from = addMonths(to + 1, -6)
    const days = { baselineFrom: addMonths(from, -12), from, to }
    const facts = []
    const truly = new Map()
    readLedger(source, { asOf: to, asOfIsToday: false }, (view) => {
      facts.push(...onsetFactsOf(view, days))
      expectedCatches(view, truth, truly)
    })
    const judged = judgeOnsets(facts, days)
    seen.expected += judged.falseExpected
    for (const one of judged.watched) score(one, days, truly)
  }
}

/** How many times the rate of the year before was truly there. */
function score(one, { from }, truly) {
  const { site, pest, readings } = one.facts
  const mean = (day, part) => truly.get(`${site} ${pest} ${day} ${part}`) ?? 0
  const before = new Map()
  for (const { day, parts } of readings)
    if (day < from)
      for (const { part, effort } of parts) {
        const sums = before.get(part) ?? { mean: 0, effort: 0 }
        sums.mean += mean(day, part)
        sums.effort += effort
        before.set(part, sums)
      }
  const each = one.readings.map(({ reading }) => ({
    now: reading.parts.reduce((sum, { part }) => sum + mean(reading.day, part), 0),
    usual: reading.parts.reduce((sum, { part, effort }) => {
      const { mean: was = 0, effort: over = 1 } = before.get(part) ?? {}
      return sum + (was / over) * effort
    }, 0),
  }))
  seen.series += 1
  seen.readings += each.length
  const rose = each.some(({ now, usual }) => now > 3 * usual && now - usual >= 3)
  if (rose) seen.rises += 1
  if (one.signal === undefined) return
  seen.signals += 1
  if (rose) seen.found += 1
  const run = each.slice(beginningOf(one, one.signal), one.signal + 1)
  const ratio = run.reduce((sum, { now }) => sum + now, 0) / run.reduce((sum, { usual }) => sum + usual, 0)
  seen[ratio < 1.25 ? 'none' : ratio < 2 ? 'some' : 'more'] += 1
}

console.log(
  `| ${seen.series} | ${seen.readings} | ${seen.expected.toFixed(1)} | ${seen.signals} | ${seen.none} | ${seen.some} | ${seen.more} | ${seen.found} of ${seen.rises} |`,
)
