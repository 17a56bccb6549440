import { describe, expect, it } from 'vitest'
import { efficiency } from '../../../src/writing/demo/efficiency.js'
import { pestIndex, pestModel } from '../../../src/writing/demo/pests.js'
import type { Series } from '../../../src/writing/demo/rates.js'
import { begin, levelOf, rateOf, turnToFall, turnToGrowth } from '../../../src/writing/demo/rates.js'
import { expectedRate } from '../../../src/writing/demo/truth.js'
import { drawLedger } from './drawn-ledger.js'

const mouse = pestIndex.get('house-mouse') ?? -1

function series(): Series {
  return {
    area: 'kitchen',
    areaIndex: 0,
    pest: 'house-mouse',
    pestIndex: mouse,
    kind: 'kitchen',
    logBase: Math.log(0.001),
    infestations: [],
    shifts: [],
  }
}

describe('the latent rate', () => {
  it('is base × season while nothing has settled: the season peaks where it says and its log sums to nothing', () => {
    const { season } = pestModel(mouse)
    const rates = Array.from({ length: 365 }, (_, n) => rateOf(series(), 20_454 + n))
    // 20454 is 1 January 2026.
    expect(rates.indexOf(Math.max(...rates)) + 1).toBe(season.peak)
    expect(Math.max(...rates) / 0.001).toBeCloseTo(Math.exp(season.swing), 6)
    const logs = rates.map((rate) => Math.log(rate / 0.001))
    expect(logs.reduce((sum, log) => sum + log, 0) / 365).toBeCloseTo(0, 2)
  })

  it('grows logistically from three times the base to its capacity', () => {
    const one = series()
    const model = pestModel(mouse)
    const infestation = begin(one, 100, model)
    expect(levelOf(infestation, 99)).toBe(0)
    expect(levelOf(infestation, 100)).toBeCloseTo(3, 9)
    // The inflection of a logistic lies at half its capacity, ln(capacity/level − 1)/growth days on.
    const half = 100 + Math.log(model.capacity / 3 - 1) / model.growth
    expect(levelOf(infestation, half)).toBeCloseTo(model.capacity / 2, 6)
    expect(levelOf(infestation, 1000)).toBeCloseTo(model.capacity, 3)
  })

  it('falls by a fixed share a day after a treatment that works, and joins on without a jump', () => {
    const infestation = begin(series(), 0, pestModel(mouse))
    const before = levelOf(infestation, 60)
    turnToFall(infestation, 60, 0.1)
    expect(levelOf(infestation, 60)).toBeCloseTo(before, 9)
    expect(levelOf(infestation, 70)).toBeCloseTo(before * Math.exp(-1), 9)
    turnToGrowth(infestation, 70)
    expect(levelOf(infestation, 70)).toBeCloseTo(before * Math.exp(-1), 9)
    expect(levelOf(infestation, 80)).toBeGreaterThan(before * Math.exp(-1))
  })

  it('is raised by a fault of the building and lowered by its repair, from the day it says', () => {
    const one = series()
    one.shifts.push({ from: 50, log: 0.6, why: 'door-gap' }, { from: 80, log: -0.6, why: 'door-gap mended' })
    expect(rateOf(one, 60) / rateOf(series(), 60)).toBeCloseTo(Math.exp(0.6), 9)
    expect(rateOf(one, 49)).toBeCloseTo(rateOf(series(), 49), 12)
    expect(rateOf(one, 90)).toBeCloseTo(rateOf(series(), 90), 12)
  })
})

describe('the records', () => {
  const ledger = drawLedger({ sites: 8, years: 2, seed: 21 })

  /** Catch of all devices of one kind and pest, and what the truth makes of the same nights: mean and variance. */
  function pooled(kind: keyof typeof efficiency, pest: string) {
    const { k } = pestModel(pestIndex.get(pest) ?? -1)
    let caught = 0
    let expected = 0
    let variance = 0
    for (const view of ledger.views) {
      for (const device of view.devices.filter((candidate) => candidate.kind === kind)) {
        let last = device.set.day
        for (const check of device.checks) {
          if (check.trapNights > 0 && last < check.moment.day) {
            let mean = 0
            for (let day = last + 1; day <= check.moment.day; day++) {
              mean += expectedRate(ledger.truth, view.id, check.area, pest, day) ?? 0
            }
            mean *= (efficiency[kind][pest] ?? 0) * device.traps
            caught += check.caught.get(pest) ?? 0
            expected += mean
            variance += mean + (mean * mean) / k
          }
          last = check.moment.day
        }
      }
    }
    return { caught, expected, deviations: (caught - expected) / Math.sqrt(variance) }
  }

  // Lost boards leave out the intervals with most on them, so that catches lie a little below what is expected;
  // with so few years that is within the spread of the sum itself.
  it.each([
    ['sticky-trap', 'spider'],
    ['sticky-trap', 'pillbug'],
    ['sticky-trap', 'ground-beetle'],
    ['light-trap', 'house-fly'],
    ['pheromone-trap', 'indianmeal-moth'],
    ['sticky-card', 'fungus-gnat'],
  ] as const)('hold what a %s catches of %s at the expected rate', (kind, pest) => {
    const { expected, deviations } = pooled(kind, pest)
    expect(expected).toBeGreaterThan(100)
    expect(Math.abs(deviations)).toBeLessThan(4)
  })

  it('hold catches that clump: their variance is far above their mean', () => {
    const catches = ledger.views.flatMap((view) =>
      view.devices
        .filter((device) => device.kind === 'sticky-trap')
        .flatMap((device) => device.checks.filter((check) => check.trapNights > 20))
        .map((check) => check.caught.get('pillbug') ?? 0),
    )
    const mean = catches.reduce((sum, count) => sum + count, 0) / catches.length
    const variance = catches.reduce((sum, count) => sum + (count - mean) ** 2, 0) / (catches.length - 1)
    expect(catches.length).toBeGreaterThan(500)
    expect(variance / mean).toBeGreaterThan(2)
  })

  it('have infestations, treatments that work and some that do not, and repairs with their effects', () => {
    const { sites } = ledger.truth
    const infestations = sites.flatMap((site) => site.series.flatMap((one) => one.infestations))
    expect(infestations.length).toBeGreaterThan(10)
    expect(infestations.some((infestation) => infestation.until !== undefined)).toBe(true)
    const outcomes = new Set(sites.flatMap((site) => site.treatments.map((treatment) => treatment.outcome)))
    expect([...outcomes].sort()).toEqual(['does not work', 'works', 'works for a while'])
    const effects = new Set(sites.flatMap((site) => site.repairs.map((repair) => Math.sign(repair.log))))
    expect([...effects].sort()).toEqual([-1, 0])
  })

  it('lose boards more often when there is much on them', () => {
    const heavy = drawLedger({ sites: 10, years: 3, seed: 5 })
    const lost = { light: 0, heavy: 0 }
    const all = { light: 0, heavy: 0 }
    for (const device of heavy.views.flatMap((view) => view.devices)) {
      if (device.kind !== 'sticky-trap') continue
      let before = 0
      for (const check of device.checks) {
        const group = before > 5 ? 'heavy' : 'light'
        all[group]++
        if (check.unusable) lost[group]++
        before = check.renewed ? 0 : [...check.counts.values()].reduce((sum, count) => sum + count, 0)
      }
    }
    expect(all.heavy).toBeGreaterThan(300)
    expect(lost.heavy / all.heavy).toBeGreaterThan(lost.light / all.light)
  })
})
