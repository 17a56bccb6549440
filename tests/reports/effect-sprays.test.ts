import { expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { isoOf } from '../../src/measure/calendar.js'
import { effectReport } from '../../src/reports/effect.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { expectAgrees, referenceKind } from '../measure/stats-reference.js'
import { effectOptions, only, rowsOf } from './effect-ledgers.js'

/**
 * Insects left on plots after six sprays, twelve plots each: Beall G (1942) Biometrika 32:243–262, R's InsectSprays. Here
 * each of the other five groups is what a room caught on twelve days before something was done, and group C what it caught
 * on twelve days after: so "after over before" is one over R's ratio "versus C". A thirteenth reading, on the day itself,
 * is the one that may have led to it: whatever it is, it must not matter.
 */
const sprays = referenceKind<
  { analysis: string; group: string[]; count: number[] },
  {
    pairs: { group: string; ratio: number; p_central: number; ci95: { lower: number; upper: number } }[]
  }
>('open_data')
const found = sprays.cases.find(({ input }) => input.analysis === 'pairwise_rate_ratios')
if (!found) throw new Error('the case is missing')
const { input, expected } = found
const of = (group: string) => input.count.filter((_, at) => input.group[at] === group)
const groups = ['a', 'b', 'd', 'e', 'f']

function spraysLedger(onTheDay: number): Map<string, string> {
  const begin = day('2026-03-01')
  const visits: Record<string, string> = {
    [isoOf(begin)]:
      `set: {${groups.map((group) => `K${group}: {kind: sticky-trap, area: room-${group}, for: [ant], traps: 10}`).join(', ')}}`,
  }
  for (let at = 0; at < 25; at++) {
    const counts = groups.map((group) =>
      at === 12 ? onTheDay : at < 12 ? of(group.toUpperCase())[at] : of('C')[at - 13],
    )
    visits[isoOf(begin + 8 * (at + 1))] =
      `readings: {${groups.map((group, n) => `K${group}: {ant: ${counts[n]}, renewed: yes}`).join(', ')}}`
  }
  return oakFiles(visits, {
    'sites/oak/site.yaml': `name: Oak School\nsite-manager: [{from: 2026-01-01, who: lind}]\ncomplaint-log: front office\ncontract: [{from: 2026-01-01, contractor: Invented Pest Services, routine-visits: monthly}]\nareas: {${groups.map((group) => `room-${group}: {kind: classroom}`).join(', ')}}\n`,
    'products/dust/product.yaml': 'name: Invented Dust\nkind: pesticide\nformulation: dust\n',
    // The thirteenth reading is 104 days later, on 2026-06-13.
    'sites/oak/applications/2026-06-13-okafor.yaml': `by: okafor\nstatus: done\nproduct: dust\npest: ant\nmethod: void\nareas: {${groups.map((group) => `room-${group}: {}`).join(', ')}}\n`,
  })
}

const report = effectReport(memorySource(spraysLedger(99)), effectOptions({ window: 110 }))
const cellsOf = (group: string) => {
  const row = rowsOf(report, 'effect').find(({ cells }) => cells.area === `room-${group}`)
  if (!row) throw new Error(`no row of ${group}`)
  return row.cells
}

it('the ratio is that of R, with the readings of twelve days on either side', () => {
  expect(rowsOf(report, 'effect')).toHaveLength(5)
  for (const { group, ratio } of expected.pairs) {
    const cells = cellsOf(group.toLowerCase())
    expectAgrees(Number(cells.change), 1 / ratio, sprays, `ratio ${group}`)
    // Twelve readings of 10 traps after 8 nights are 960 trap-nights.
    expect(cells).toMatchObject({
      'readings-before': 12,
      'readings-after': 12,
      'nights-before': 960,
      'nights-after': 960,
      'left-out': '2026-06-13: 99 in 80 trap-nights',
      basis: 'the catch before',
      kind: 'treatment',
      tactic: 'pesticide',
    })
  }
})

it("allows for clumping: the limits hold R's, which take each insect to be on its own", () => {
  for (const { group, ci95 } of expected.pairs) {
    const cells = cellsOf(group.toLowerCase())
    expect(Number(cells['change-low'])).toBeLessThan(1 / ci95.upper)
    expect(Number(cells['change-high'])).toBeGreaterThan(1 / ci95.lower)
  }
})

/**
 * Worked apart from this program, by scipy 1.17.1: c = (χ² − 22)/Σ(1 − 1/12)μ about the two means, dispersion 1 + c·M with
 * M the larger mean, counts over dispersion · (t(22)/z)², limits from `beta.ppf`, p twice the smaller `beta.cdf`/`sf`. By
 * hand for E: means 3.5 and 25/12; Σ(x − m)² = 11·3 and 11·3.90152 = 42.91667; χ² = 33/3.5 + 42.91667/2.083333 =
 * 9.42857 + 20.6 = 30.02857; excess 8.02857 over 11/12 · (42 + 25) = 61.41667: c = 0.130723, dispersion 1 + 3.5·c = 1.45753.
 * The five p, adjusted: E as it is; D · 5/4; F · 5/3; A · 5/2; B · 5.
 */
it.each([
  ['a', 2.231795340338, 0.06602281569733, 0.2802381123298, 3.908375218257e-12 * (5 / 2), 'fell'],
  ['b', 1.935363201392, 0.06656918808037, 0.2524287921056, 5.753273737467e-15 * 5, 'fell'],
  ['d', 1.805627705628, 0.1990618581161, 0.8496702706518, 0.013139292914647 * (5 / 4), 'fell'],
  ['e', 1.45752953, 0.2944777989888, 1.163619865107, 0.1407024901194, 'cannot tell'],
  ['f', 2.945858585859, 0.05027131987383, 0.2666862969383, 2.175943798701e-11 * (5 / 3), 'fell'],
])('group %s against C', (group, dispersion, lower, upper, adjusted, answer) => {
  const cells = cellsOf(group)
  const close = (id: string, value: number) =>
    expectAgrees(Number(cells[id]), value, { ...sprays, absolute_tolerance: 0 }, id)
  close('dispersion', dispersion)
  close('change-low', lower)
  close('change-high', upper)
  close('p-adjusted', adjusted)
  expect(cells.answer).toBe(answer)
})

it('pooled, each case weighs by the square root of its animals', () => {
  const { cells } = only(rowsOf(report, 'tactics'))
  // n = 199, 209, 84, 67, 225; Σ25/√n = 25 · 0.438004 = 10.95010; Σbefore/√n = 174/√199 + 184/√209 + 59/√84 + 42/√67 +
  // 200/√225 = 12.33453 + 12.72755 + 6.43742 + 5.13110 + 13.33333 = 49.96393; their quotient is 0.219160.
  expect(cells.change).toBeCloseTo(0.21916, 5)
  expect(cells).toMatchObject({
    pest: 'ant, kind not told',
    tactic: 'pesticide',
    taken: 'nothing',
    answer: 'fell',
    cases: 5,
    'lower-cases': 5,
    'caught-before': 659,
    'caught-after': 125,
  })
  // Wilson, all of 5: 5/(5 + 1.959964²) = 0.56552.
  expect(cells['lower-share-low']).toBeCloseTo(56.552, 3)
  expect(report.headline).toMatch(
    /^After pesticide other than bait, nothing else being done, the catch of ant, kind not told fell to 0\.22 times what it was \(0\.\d\d to 0\.\d\d\), over 5 cases in this ledger; of 1 treatment, repair or other action that can be judged, 1 was followed by a surely lower catch, 0 by a higher one; none is left open\.$/,
  )
})

it('does not depend on the reading that may have led to it', () => {
  const other = effectReport(memorySource(spraysLedger(0)), effectOptions({ window: 110 }))
  const without = (one: typeof report) =>
    rowsOf(one, 'effect').map(({ cells }) => JSON.stringify({ ...cells, 'left-out': null }))
  expect(without(other)).toEqual(without(report))
})
