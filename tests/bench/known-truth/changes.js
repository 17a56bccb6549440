import { totalOf } from '../../../dist/measure/effective-counts.js'
import { areaCatchesOf, doneAt } from '../../../dist/reports/effect-collect.js'
import { occasionsOf } from '../../../dist/reports/effect-compare.js'
import { judgeOccasions } from '../../../dist/reports/effect-judge.js'
import { poolByTactic } from '../../../dist/reports/effect-pooled.js'
import { expectedOfDevice } from '../../../dist/writing/demo/expected-catch.js'
import { percent } from './tally.js'

const window = 90

/**
 * After treatments and repairs (actions, which go with nearly every catch here and do nothing, are left out): does the interval of the change hold the true one, over the very same intervals of the very same
 * devices, and what is said of changes that are and that are not?
 */
export function tallyChanges({ view, period, trial, truth, isPlanted }, tally, compare = occasionsOf) {
  const catches = areaCatchesOf(view, period).filter(({ pest }) => trial.pests[pest])
  const { site, things } = doneAt(view, period)
  const done = [{ site, things: things.filter(({ kind }) => kind !== 'action') }]
  const occasions = compare(catches, done, period, window)
  const truths = compare(withExpected(catches, view, trial, truth), done, period, window)
  for (const [place, judged] of judgeOccasions(occasions).entries()) {
    if (!judged.isTested) continue
    tallyOccasion(judged, truths[place], isPlanted, tally)
  }
  tallyPools(occasions, isPlanted, tally)
}

/** The same catches, with what the truth expects in each interval in place of what was caught. */
function withExpected(catches, view, trial, truth) {
  const expected = expectedOfDevice(truth, trial, view)
  return catches.map((one) => ({
    ...one,
    intervals: one.intervals.map((interval) => ({
      ...interval,
      count: expected(interval.device, one.pest, interval.day),
    })),
  }))
}

function tallyOccasion({ plain, against, word, occasion }, truly, isPlanted, tally) {
  const alone = changeOf(truly.before, truly.after)
  const held = new Set(occasion.untreated.map(({ catches }) => catches.area))
  const untreated = truly.untreated.filter(({ catches }) => held.has(catches.area))
  const besides = changeOf(
    untreated.flatMap(({ before }) => before),
    untreated.flatMap(({ after }) => after),
  )
  const holds = ({ lower, upper }, ratio) => lower <= ratio && (upper === null || ratio <= upper)
  tally.count('changes, alone', holds(plain, alone))
  if (against) tally.count('changes, against untreated', holds(against, alone / besides))
  const ratio = against ? alone / besides : alone
  const wrong = (word === 'fell' && ratio > 0.95) || (word === 'rose' && ratio < 1.05)
  tally.count('changes said the wrong way', wrong)
  if (!isPlanted) tally.count('nothing done to any effect, said', word === 'fell' || word === 'rose')
  if (ratio <= 0.5) tally.count('falls to half or less, said', word === 'fell')
}

function changeOf(before, after) {
  const [earlier, later] = [totalOf(before), totalOf(after)]
  return later.count / later.effort / (earlier.count / earlier.effort)
}

function tallyPools(occasions, isPlanted, tally) {
  for (const { effect, word, pest, tactic } of poolByTactic(occasions)) {
    if (!effect.estimable) continue
    if (!isPlanted) {
      tally.count('pooled, nothing done to any effect: fell', word === 'fell')
      tally.count('pooled, nothing done to any effect: rose', word === 'rose')
      tally.count('pooled, holds 1', effect.lower <= 1 && (effect.upper === null || effect.upper >= 1))
    } else if (pest === 'odorous-house-ant' && tactic === 'bait')
      tally.count('pooled, bait found', word === 'fell')
  }
}

export const changesTable = {
  title: 'After a treatment or a repair, 90 days before and after',
  head: [
    'hardship',
    'interval holds the true change, before and after',
    'against untreated areas',
    'nothing done to any effect: said fell or rose',
    'any: said the wrong way',
    'true falls to half or less: said fell',
  ],
  row: (sums) =>
    [
      'changes, alone',
      'changes, against untreated',
      'nothing done to any effect, said',
      'changes said the wrong way',
      'falls to half or less, said',
    ].map((name) => percent(sums[name])),
}

export const pooledTable = {
  title: 'The same pooled by tactic and pest',
  head: [
    'hardship',
    'nothing done to any effect: interval holds 1',
    'said fell',
    'said rose',
    'bait that brings ants down to a fifth: said fell',
  ],
  row: (sums) =>
    [
      'pooled, holds 1',
      'pooled, nothing done to any effect: fell',
      'pooled, nothing done to any effect: rose',
      'pooled, bait found',
    ].map((name) => percent(sums[name])),
}
