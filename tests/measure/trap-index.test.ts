import { describe, expect, test } from 'vitest'
import { trapIndex } from '../../src/measure/trap-index.js'
import { expectAgrees, expectPublished, referenceKind } from './stats-reference.js'

const reference = referenceKind<
  { traps: number; interval_nights: number; n_intervals: number; sprung_total: number; captures: number },
  {
    trap_nights: number
    correction: number
    corrected_trap_nights: number
    captures_per_100: number | null
    uncorrected_per_100: number | null
  }
>('trap_index')

describe('trapIndex agrees with Nelson & Clark (1973) worked by hand', () => {
  test.each(reference.cases)('$id', (one) => {
    const { traps, interval_nights, n_intervals, sprung_total, captures } = one.input
    const spell = {
      trapNights: traps * interval_nights * n_intervals,
      nightsPerInterval: interval_nights,
      captures,
      otherCaptures: 0,
      sprungEmpty: sprung_total - captures,
    }
    const corrected = trapIndex([spell], 'all-sprung')
    expectAgrees(corrected?.trapNights, one.expected.trap_nights, reference, 'trap-nights')
    expectAgrees(corrected?.lostTrapNights, one.expected.correction, reference, 'lost')
    expectAgrees(corrected?.effectiveTrapNights, one.expected.corrected_trap_nights, reference, 'effective')
    expectAgrees(corrected?.per100, one.expected.captures_per_100, reference, 'index')
    expectAgrees(trapIndex([spell], 'none')?.per100, one.expected.uncorrected_per_100, reference, 'raw')
    expectPublished(one, {
      captures_per_100: corrected?.per100 ?? null,
      corrected_trap_nights: corrected?.effectiveTrapNights ?? null,
    })
  })
})

describe('the three rules on one example (worked by hand)', () => {
  // 50 traps for 3 nights looked at each morning; 9 rats, 11 sprung empty.
  const spell = { trapNights: 150, nightsPerInterval: 1, captures: 9, otherCaptures: 0, sprungEmpty: 11 }

  test('raw: 900/150', () => expect(trapIndex([spell], 'none')?.per100).toBeCloseTo(6, 12))
  test('all sprung: 900/(150 − 10)', () =>
    expect(trapIndex([spell], 'all-sprung')?.per100).toBeCloseTo(900 / 140, 12))
  // Published field protocol for rats, Bio-protocol exchange detail 1401385: captures do not count as lost.
  test('all but captures: 900/(150 − 5.5)', () =>
    expect(trapIndex([spell], 'all-but-captures')?.per100).toBeCloseTo(900 / 144.5, 12))
  test('all but captures, 4 trap-nights stolen: 900/140.5', () =>
    expect(trapIndex([{ ...spell, trapNights: 146 }], 'all-but-captures')?.per100).toBeCloseTo(
      900 / 140.5,
      12,
    ))
  test('other animals cost effort under either rule', () => {
    const mixed = { ...spell, otherCaptures: 4 }
    expect(trapIndex([mixed], 'all-sprung')?.lostTrapNights).toBe(12)
    expect(trapIndex([mixed], 'all-but-captures')?.lostTrapNights).toBe(7.5)
  })
})

test('spells of different interval lengths add up before dividing', () => {
  const daily = { trapNights: 60, nightsPerInterval: 1, captures: 3, otherCaptures: 1, sprungEmpty: 2 }
  const weekly = { trapNights: 140, nightsPerInterval: 7, captures: 2, otherCaptures: 0, sprungEmpty: 2 }
  // Lost: 6 · 1/2 + 4 · 7/2 = 17 of 200 trap-nights.
  expect(trapIndex([daily, weekly], 'all-sprung')).toEqual({
    trapNights: 200,
    lostTrapNights: 17,
    effectiveTrapNights: 183,
    per100: 500 / 183,
  })
})

test('no spells, no effort, no index; nonsense is null', () => {
  expect(trapIndex([], 'none')).toEqual({
    trapNights: 0,
    lostTrapNights: 0,
    effectiveTrapNights: 0,
    per100: null,
  })
  const broken = { trapNights: 10, nightsPerInterval: 1, captures: -1, otherCaptures: 0, sprungEmpty: 0 }
  expect(trapIndex([broken], 'none')).toBeNull()
  expect(trapIndex([{ ...broken, captures: Number.NaN }], 'none')).toBeNull()
})
