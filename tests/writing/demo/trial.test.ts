import { describe, expect, it } from 'vitest'
import { rateOf, type Series } from '../../../src/writing/demo/rates.js'
import { courseOf, nearSource, type Trial } from '../../../src/writing/demo/trial.js'
import { type Hardship, trialOf } from '../../../src/writing/demo/trials.js'
import { drawLedger } from './drawn-ledger.js'

const plain = trialOf('none', false)

function seriesOf(trial: Trial, pest: string, pestIndex: number): Series {
  return {
    area: 'kitchen',
    areaIndex: 0,
    pest,
    pestIndex,
    kind: 'kitchen',
    logBase: Math.log(0.02),
    infestations: [],
    shifts: [],
    course: courseOf(trial, pest, 100),
  }
}

describe('what is planted', () => {
  it('is a level rate where nothing else is said, whatever the season', () => {
    const series = seriesOf(plain, 'german-cockroach', 0)
    expect(rateOf(series, 100)).toBeCloseTo(0.02, 12)
    expect(rateOf(series, 280)).toBeCloseTo(0.02, 12)
  })

  it('is a steady change a month of 30 days, from the first day on', () => {
    const trial = { ...plain, pests: { 'german-cockroach': { rate: 0.02, perMonth: Math.log(1.1) } } }
    // 60 days are two months: 0.02 × 1.1² = 0.0242.
    expect(rateOf(seriesOf(trial, 'german-cockroach', 0), 160)).toBeCloseTo(0.0242, 12)
  })

  it('is a step that stays', () => {
    const trial = { ...plain, pests: { 'german-cockroach': { rate: 0.02, step: { after: 10, times: 2 } } } }
    const series = seriesOf(trial, 'german-cockroach', 0)
    expect([109, 110, 500].map((day) => rateOf(series, day).toFixed(9))).toEqual([
      '0.020000000',
      '0.040000000',
      '0.040000000',
    ])
  })

  it('is a source that reaches a circle', () => {
    const source = { at: [10, 10], within: 5, times: 10 } as const
    // 3 and 4 feet off is 5 feet off.
    expect(nearSource(source, [13, 14])).toBe(10)
    expect(nearSource(source, [13, 14.1])).toBe(1)
    expect(nearSource(undefined, [10, 10])).toBe(1)
  })
})

const drawn = (hardship: Hardship, planted = false) =>
  drawLedger({ sites: 1, years: 2, seed: 4, trial: trialOf(hardship, planted) })

const checksOf = ({ views }: ReturnType<typeof drawn>) =>
  views.flatMap(({ devices }) => devices.flatMap(({ checks }) => checks))

describe('a ledger of a trial', () => {
  const without = drawn('none')

  it('is read whole, has no infestation and no complaint, and every pest is treated once in a room at most', () => {
    expect(without.read.faults).toEqual([])
    expect(without.truth.sites.flatMap(({ series }) => series.flatMap((one) => one.infestations))).toEqual([])
    expect([...without.files.keys()].filter((path) => path.includes('/complaints/'))).toEqual([])
    const treated = without.views.flatMap(({ applications }) =>
      applications.flatMap(({ data }) => Object.keys(data.areas ?? {}).map((area) => `${data.pest} ${area}`)),
    )
    expect(treated.length).toBeGreaterThan(3)
    expect(new Set(treated).size).toBe(treated.length)
  })

  it('brings an ant down to a fifth from the day after it is treated, where that is planted', () => {
    const { truth } = drawn('none', true)
    const treated = truth.sites
      .flatMap(({ series }) => series)
      .flatMap((series) => series.shifts.map((shift) => ({ series, shift })))
      .filter(({ series, shift }) => series.pest === 'odorous-house-ant' && shift.why === 'treated')
    expect(treated.length).toBeGreaterThan(0)
    for (const { series, shift } of treated)
      expect(rateOf(series, shift.from) / rateOf(series, shift.from - 1)).toBeCloseTo(0.2, 9)
  })

  it('moves no board but where that is the hardship, and then also to other rooms', () => {
    const stands = (ledger: ReturnType<typeof drawn>) =>
      ledger.views.flatMap(({ devices }) => devices.filter((device) => device.stands.length > 1))
    expect(stands(without)).toEqual([])
    const moved = stands(drawn('devices moved'))
    expect(moved.length).toBeGreaterThan(5)
    expect(moved.some((device) => new Set(device.stands.map(({ area }) => area)).size > 1)).toBe(true)
  })

  it('renews only what is lost or full where that is the hardship', () => {
    const whole = (ledger: ReturnType<typeof drawn>) =>
      checksOf(ledger).filter(({ renewed, unusable }) => renewed && unusable === undefined)
    expect(whole(without).length).toBeGreaterThan(50)
    expect(whole(drawn('boards never renewed'))).toEqual([])
  })

  it('loses more boards where they are lost by what is on them', () => {
    const lost = (ledger: ReturnType<typeof drawn>) => {
      const checks = checksOf(ledger)
      return checks.filter(({ unusable }) => unusable !== undefined).length / checks.length
    }
    // 2 of 100 at random; with some six animals on it 2 more for each.
    expect(lost(without)).toBeLessThan(0.04)
    expect(lost(drawn('lost by catch'))).toBeGreaterThan(0.06)
  })
})
