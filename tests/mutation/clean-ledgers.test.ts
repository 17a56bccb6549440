import { expect, it } from 'vitest'
import { runCheck } from '../../src/check/run-check.js'
import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import { allRules } from '../../src/rules/all.js'
import { cleanLedger } from './base-ledgers.js'

/**
 * Fifty ledgers with nothing wrong: one to three sites, one or two years, ending on days spread over the school
 * year, so that closures, the turn of the year, the last day of school and the recess are all among them.
 */
const ledgers = Array.from({ length: 50 }, (_, n) => ({
  sites: 1 + (n % 8 === 0 ? 2 : n % 3 === 0 ? 1 : 0),
  years: n % 10 === 5 ? 2 : 1,
  seed: 1000 + 37 * n,
  // Steps of a week and a day from 15 August 2025 on: every day of the week, every month.
  until: isoOf(20_315 + 8 * n),
}))

it.each(ledgers)('no problem in $sites sites, $years years to $until, seed $seed', (options) => {
  const { files, lastDay } = cleanLedger(options)
  const result = runCheck(memorySource(files), { asOf: lastDay, asOfIsToday: true })
  // None that stands on the last day, and none that stood before it either.
  const begun = result.problems.filter(({ from }) => from <= lastDay)
  expect(begun.map(({ rule, at, from }) => `${rule} ${at.file} from ${isoOf(from)}`)).toEqual([])
  expect(result.excepted).toEqual([])
  expect(result.notChecked).toEqual([])
  expect(result.faults).toEqual([])
  // Nothing was left out of what was looked at.
  expect(result.sites).toBe(options.sites)
  const records = [...files.keys()].filter((path) => path.endsWith('.yaml')).length
  expect(result.records + result.later).toBe(records)
})

it.each(ledgers.slice(0, 20))('nor was there any on days before, seed $seed', (options) => {
  const { files, lastDay } = cleanLedger(options)
  const source = memorySource(files)
  for (const ago of [3, 31, 90, 155, 280]) {
    const asOf = lastDay - ago
    const { problems, notChecked } = runCheck(source, { asOf, asOfIsToday: false })
    const begun = problems.filter(({ from }) => from <= asOf)
    expect(begun.map(({ rule, at }) => `${rule} ${at.file} as of ${isoOf(asOf)}`)).toEqual([])
    expect(notChecked).toEqual([])
  }
})

it('there are rules to be silent', () => {
  expect(allRules.length).toBeGreaterThan(60)
})
