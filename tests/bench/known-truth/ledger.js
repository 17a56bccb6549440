import { memorySource } from '../../../dist/files/memory.js'
import { catchSeriesOf } from '../../../dist/ledger/catch-series.js'
import { readLedger } from '../../../dist/ledger/read-ledger.js'
import { dayOf } from '../../../dist/measure/calendar.js'
import { expectedCatches } from '../../../dist/writing/demo/expected-catch.js'
import { demoRun } from '../../../dist/writing/demo/ledger.js'
import { trialOf } from '../../../dist/writing/demo/trials.js'

const until = dayOf('2026-06-30')

/** Ledgers with an even seed have something planted, the others nothing. */
export const isPlanted = (seed) => seed % 2 === 0

/**
 * One generated ledger of one school over two years, read as any other: its site, and its catch series of planted pests,
 * each with what the truth expects in the same intervals.
 */
export function drawnLedger(hardship, seed) {
  const trial = trialOf(hardship, isPlanted(seed))
  const run = demoRun({ sites: 1, years: 2, seed, until, clean: true, trial })
  const files = new Map()
  for (const commit of run.commits) for (const file of commit.files) files.set(file.path, file.text)
  const { truth } = run
  const views = []
  const read = readLedger(memorySource(files), { asOf: until, asOfIsToday: false }, (one) => views.push(one))
  const [view] = views
  if (view === undefined || read.notChecked.length > 0) throw new Error(`seed ${seed} could not be read`)
  const expected = expectedCatches(truth, trial, view)
  const period = { from: truth.from, to: until }
  const all = catchSeriesOf(view, truth.from, until)
  const series = all.flatMap((one) => {
    const days = expected.get(`${one.area} ${one.pest}`)
    return days === undefined ? [] : [withTruth(one, days, trial.pests[one.pest])]
  })
  return { seed, isPlanted: isPlanted(seed), trial, truth, period, view, all, series }
}

function withTruth(series, days, planted) {
  const observations = series.observations.map((one) => ({
    day: one.day,
    count: one.count,
    exposure: one.trapNights,
    expected: days.get(one.day) ?? 0,
  }))
  const sum = (of) => observations.reduce((total, one) => total + one[of], 0)
  return {
    area: series.area,
    pest: series.pest,
    planted,
    observations,
    count: sum('count'),
    effort: sum('exposure'),
    expected: sum('expected'),
  }
}

/** Whether the log of the rate truly goes along a line, and whether that line is level. */
export const isLogLinear = ({ planted }) =>
  !planted.step && !planted.fault && !planted.treated && !planted.source
export const isLevel = (series) => isLogLinear(series) && !series.planted.perMonth
