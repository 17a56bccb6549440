import { describe, expect, it } from 'vitest'
import { memorySource } from '../../src/files/memory.js'
import { effectReport } from '../../src/reports/effect.js'
import type { Report, Row } from '../../src/types.js'
import { day, oakFiles } from '../ledger/small-site.js'
import { board, cleaned, effectOn, effectOptions, elm, only, readEvery, rowsOf } from './effect-ledgers.js'

/** 4 and 6 before, 30 on the day, 2, 3 and 0 after; cleaned on 2026-03-31. */
const fewer = readEvery([4, 6, 30, 2, 3, 0], { done: { '2026-03-31': cleaned() } })

describe('before and after', () => {
  it('is the rate after over the rate before, with what clumped catches leave open', () => {
    const { cells, records } = only(rowsOf(effectOn(fewer), 'effect'))
    expect(cells).toMatchObject({
      answer: 'cannot tell',
      day: '2026-03-31',
      tactic: 'cleaning',
      kind: 'action',
      site: 'oak',
      area: 'kitchen',
      pest: 'German cockroach',
      'caught-before': 10,
      'nights-before': 200,
      'readings-before': 2,
      'caught-after': 5,
      'nights-after': 300,
      'readings-after': 3,
      'left-out': '2026-03-31: 30 in 100 trap-nights',
      'days-before': '2026-02-19 to 2026-03-21',
      'days-after': '2026-03-31 to 2026-04-30',
      basis: 'the catch before',
      why: 'the interval includes no change',
    })
    // (5/300)/(10/200) = 1/3.
    expect(cells.change).toBeCloseTo(1 / 3, 12)
    // χ² about the means 5 and 5/3: (1 + 1)/5 + (1/9 + 16/9 + 25/9)/(5/3) = 0.4 + 2.8, df 1 + 2, excess 0.2 over
    // Σ(1 − h)μ = 2·(5/2) + 3·(2/3)(5/3) = 25/3: c = 0.024. M = 10/2 = 5: dispersion 1 + 0.024·5 = 1.12.
    expect(cells.dispersion).toBeCloseTo(1.12, 12)
    // Counts over 1.12·(t(3)/z)² = 2.952868: Clopper and Pearson's limits by scipy 1.17.1 `beta.ppf`.
    expect(cells['change-low']).toBeCloseTo(0.02219261406, 9)
    expect(cells['change-high']).toBeCloseTo(2.835414739, 8)
    expect(cells['p-adjusted']).toBeCloseTo(0.4351917795, 8)
    expect(records).toEqual(
      ['03-11', '03-21', '03-31', '04-10', '04-20', '04-30'].map(
        (date) => `sites/oak/visits/2026-${date}-okafor.yaml`,
      ),
    )
    expect(cells['change-or-why']).toBe('0.33 (0.02 to 2.84)')
  })

  it('says fell, rose or about the same only where the interval does', () => {
    const answerTo = (before: number, after: number) => {
      const counts = [...Array(6).fill(before), before, ...Array(6).fill(after)]
      const { cells } = only(
        rowsOf(
          effectOn(readEvery(counts, { every: 8, done: { '2026-04-26': cleaned() } }), {}, { window: 60 }),
          'effect',
        ),
      )
      return [cells.answer, cells['caught-before'], cells['caught-after'], cells.why]
    }
    // Readings that never vary do not clump: 40 against 8 of each is far apart, 400 a reading against 400 far from 1.25.
    expect(answerTo(40, 8)).toEqual(['fell', 240, 48, 'the whole interval is below no change'])
    expect(answerTo(8, 40)).toEqual(['rose', 48, 240, 'the whole interval is above no change'])
    expect(answerTo(400, 400)).toEqual([
      'about the same',
      2400,
      2400,
      'the interval is tight around no change',
    ])
    expect(answerTo(2, 2)).toEqual(['cannot tell', 12, 12, 'the interval includes no change'])
  })

  it('counts no reading that spans the day, and none that reaches beyond the window', () => {
    const visits = readEvery([4, 6, 30, 2, 3, 5, 7])
    const repair = {
      'sites/oak/repairs/2026-04-05-tarrow.yaml': 'by: tarrow\narea: kitchen\ndone: new trap\n',
    }
    const { cells } = only(rowsOf(effectOn(visits, repair), 'effect'))
    // Whole before 04-05: 03-11, 03-21 and 03-31 (left out); 03-31 to 04-10 spans it. Whole within 30 days after, to
    // 05-05: 04-20 and 04-30; 05-10 is beyond.
    expect(cells).toMatchObject({
      tactic: 'repair',
      kind: 'repair',
      'caught-before': 10,
      'caught-after': 8,
      'readings-after': 2,
      'left-out': '2026-03-31: 30 in 100 trap-nights',
    })
  })

  it('keeps the reading that may have led to it where it is the only one, and says so', () => {
    const visits = readEvery([30, 2, 3], { done: { '2026-03-11': cleaned() } })
    const { cells } = only(rowsOf(effectOn(visits), 'effect'))
    expect(cells).toMatchObject({ 'caught-before': 30, 'readings-before': 1 })
    expect(cells['left-out']).toContain('had to be kept')
  })

  it('adds up devices of one day, and compares only those that were read on both sides', () => {
    const visits = {
      '2026-03-01': `set: {K1: ${board()}, K2: ${board()}, K3: ${board()}}`,
      '2026-03-11':
        'readings: {K1: {german-cockroach: 4, renewed: yes}, K2: {german-cockroach: 5, renewed: yes}, K3: {german-cockroach: 50, renewed: yes}}',
      '2026-03-21': `readings: {K1: {german-cockroach: 6, renewed: yes}, K2: {german-cockroach: 1, renewed: yes}}\ntaken-up: {K3: in the way}\n${cleaned()}`,
      '2026-03-22': `set: {K4: ${board()}}`,
      '2026-03-31':
        'readings: {K1: {german-cockroach: 2, renewed: yes}, K2: {german-cockroach: 7, renewed: yes}, K4: {german-cockroach: 90, renewed: yes}}',
    }
    const { cells } = only(rowsOf(effectOn(visits), 'effect'))
    // K3 was not read after, K4 not before: 4 + 5 in 2 · 100 trap-nights against 2 + 7 in as many.
    expect(cells).toMatchObject({
      'caught-before': 9,
      'nights-before': 200,
      'readings-before': 1,
      'caught-after': 9,
      'nights-after': 200,
      'readings-after': 1,
    })
  })
})

describe('against untreated areas', () => {
  // The same days in another kitchen: 8 in 200 before (03-11, 03-21), 12 in 300 after, nothing done.
  const beside = (done = {}) => elm(readEvery([3, 5, 9, 4, 4, 4], { set: board('galley'), id: 'G1', done }))

  it('is the change divided by theirs', () => {
    const { cells, records } = only(rowsOf(effectOn(fewer, beside()), 'effect'))
    expect(cells).toMatchObject({
      basis: 'untreated areas in the same days',
      'untreated-areas': 1,
      'untreated-caught-before': 8,
      'untreated-nights-before': 200,
      'untreated-caught-after': 12,
      'untreated-nights-after': 300,
    })
    // (5/300)/(10/200) = 1/3; (12/300)/(8/200) = 1.
    expect(cells.change).toBeCloseTo(1 / 3, 12)
    expect(cells.plain).toBeCloseTo(1 / 3, 12)
    expect(records).toContain('sites/elm/visits/2026-04-10-okafor.yaml')
  })

  it('counts no area in which nothing was caught on either side', () => {
    const visits = readEvery([3, 5, 9, 4, 4, 4], { set: board('galley'), id: 'G1' })
    const both = Object.entries(visits).map(([date, text]) => [
      date,
      text
        .replace('set: {', `set: {C1: ${board('scullery')}, `)
        .replace('readings: {', 'readings: {none: [C1], '),
    ])
    const [row] = rowsOf(effectOn(fewer, elm(Object.fromEntries(both))), 'effect')
    expect(row?.cells).toMatchObject({ 'untreated-areas': 1, 'untreated-nights-after': 300 })
  })

  it('takes none where something was done against the pest, of another kind, or without any catch', () => {
    const basisWith = (others: Readonly<Record<string, string>>) =>
      rowsOf(effectOn(fewer, others), 'effect').find(({ cells }) => cells.site === 'oak')?.cells.basis
    expect(basisWith(beside({ '2026-04-10': cleaned('galley') }))).toBe('the catch before')
    // Against another pest.
    expect(basisWith(beside({ '2026-04-10': cleaned('galley', 'house-mouse') }))).toContain('untreated')
    expect(basisWith(elm(readEvery([3, 5, 9, 4, 4, 4], { set: board('hall'), id: 'H1' })))).toBe(
      'the catch before',
    )
    expect(basisWith(elm(readEvery([0, 0, 9, 0, 0, 0], { set: board('galley'), id: 'G1' })))).toBe(
      'the catch before',
    )
  })
})

describe('what was done', () => {
  it('once on a day is one; what else was done there in these days is named', () => {
    const report = effectOn(fewer, {
      'sites/oak/repairs/2026-04-15-tarrow.yaml':
        'by: tarrow\ndone: sweep\nopenings: {kitchen: 3/8 in gap}\n',
      'sites/oak/repairs/2026-03-31-tarrow.yaml': 'by: tarrow\narea: kitchen\ndone: new trap\n',
    })
    const cells = rowsOf(report, 'effect').map((row) => row.cells)
    const cleaning = cells.find(({ tactic }) => tactic === 'cleaning')
    expect(cleaning?.['also-done']).toBe(
      'repair 2026-03-31 (2026-03-31-tarrow); exclusion 2026-04-15 (2026-04-15-tarrow)',
    )
    expect(cleaning?.['tactic-shown']).toBe('cleaning +2')
    // Both of one day have one catch after them: one test, not two.
    expect(report.cautions.join()).toContain('over 2 comparisons')
    expect(cells.map(({ tactic }) => tactic).sort()).toEqual(['cleaning', 'exclusion', 'repair'])
  })

  it('is named up to the last day of the windows, and not beyond', () => {
    const alsoDone = (repaired: string) => {
      const report = effectOn(fewer, {
        [`sites/oak/repairs/${repaired}-tarrow.yaml`]: 'by: tarrow\narea: kitchen\ndone: new trap\n',
      })
      return rowsOf(report, 'effect').find(({ cells }) => cells.tactic === 'cleaning')?.cells['also-done']
    }
    // The windows are 2026-02-19 to 2026-03-21, and to 2026-04-30.
    expect(alsoDone('2026-02-18')).toBeNull()
    expect(alsoDone('2026-02-19')).toContain('repair 2026-02-19')
    expect(alsoDone('2026-04-30')).toContain('repair 2026-04-30')
    expect(alsoDone('2026-05-01')).toBeNull()
  })

  it('to the building is held against every pest trapped for there', () => {
    const visits = readEvery([4, 6, 30, 2, 3, 0], {
      set: '{kind: sticky-trap, area: kitchen, for: [german-cockroach, house-cricket]}',
    })
    const report = effectOn(visits, {
      'sites/oak/repairs/2026-03-31-tarrow.yaml': 'by: tarrow\narea: kitchen\ndone: new trap\n',
    })
    expect(rowsOf(report, 'effect').map(({ cells }) => [cells.pest, cells.why])).toEqual([
      ['German cockroach', 'the interval includes no change'],
      ['house cricket', 'nothing was caught before or after'],
    ])
  })

  it('where no trap shows it, or to people, is told apart with its reason', () => {
    const report = effectOn({
      ...fewer,
      '2026-05-15':
        'actions: {a: {did: swept, tactic: cleaning, area: store, pest: german-cockroach}, b: {did: set traps, tactic: trapping, area: kitchen, pest: house-mouse}, c: {did: spoke, tactic: education, area: kitchen}}\nconditions: {d: {new: gap, fixed: filled}}',
    })
    expect(rowsOf(report, 'not-judged').map(({ cells }) => [cells.why, cells.things])).toEqual([
      ['no trap that counts the pest stands there', 2],
      ['no record says in which area', 1],
      ['teaching, handing on and closing off act on people, and no change on one day is looked for', 1],
    ])
    expect(report.facts.slice(0, 2).map(({ value }) => value)).toEqual(['5', '1'])
    expect(report.headline).toBe(
      'Of 1 treatment, repair or other action that can be judged, 0 were followed by a surely lower catch, 0 by a higher one; for all of them it cannot be told.',
    )
  })
})

/** Boards in four areas of two sites and two pests, read every ten days, with something done now and then. */
function manyFiles(): Map<string, string> {
  const counts = [3, 9, 30, 2, 1, 0, 4, 6, 8, 3, 2, 9]
  const done = { '2026-03-31': cleaned(), '2026-05-20': cleaned() }
  const files = oakFiles(readEvery(counts, { done }), {
    ...elm(
      readEvery([...counts].reverse(), {
        set: board('galley'),
        id: 'G1',
        done: { '2026-04-10': cleaned('galley') },
      }),
    ),
    'sites/oak/repairs/2026-04-20-tarrow.yaml':
      'by: tarrow\ndone: sweeps\nopenings: {store: 3/8 in gap, kitchen: 1/4 in gap}\n',
  })
  const store = readEvery([0, 1, 7, 6, 2, 0, 1], {
    id: 'S1',
    set: board('store', 4, 'house-cricket'),
    pest: 'house-cricket',
    done: { '2026-03-31': cleaned('store', 'house-cricket') },
  })
  for (const [date, text] of Object.entries(store))
    files.set(`sites/oak/visits/${date}-reyes.yaml`, `purpose: follow-up\nby: reyes\n${text}`)
  return files
}

describe('the whole ledger', () => {
  const same = (row: Row) => JSON.stringify(row)
  const all = effectReport(memorySource(manyFiles()), effectOptions())
  const rows = rowsOf(all, 'effect')

  it('is adjusted together', () => {
    // Cleaned on three days in the kitchens and once in the store, and sweeps in both on a day of their own.
    expect(rows.map(({ cells }) => `${cells.day} ${cells.area} ${cells.tactic}`).sort()).toEqual([
      '2026-03-31 kitchen cleaning',
      '2026-03-31 store cleaning',
      '2026-04-10 galley cleaning',
      '2026-04-20 kitchen exclusion',
      '2026-04-20 store exclusion',
      '2026-05-20 kitchen cleaning',
    ])
    // What is tested is what has six animals on both sides; each area and day is one comparison.
    const tested = rows.filter(({ cells }) => cells['p-adjusted'] !== null)
    expect(
      tested.every(({ cells }) => Number(cells['caught-before']) + Number(cells['caught-after']) >= 6),
    ).toBe(true)
    expect(all.cautions.join()).toContain(`over ${tested.length} comparisons`)
  })

  it.each([
    { site: 'elm' },
    { site: 'oak' },
    { pest: 'house-cricket' },
    { site: 'oak', pest: 'german-cockroach' },
  ])('filters only hide: %j', (filter) => {
    const filtered = effectReport(memorySource(manyFiles()), effectOptions(filter))
    const name = filter.pest === 'house-cricket' ? 'house cricket' : 'German cockroach'
    const expected = rows.filter(
      ({ cells }) =>
        (filter.site === undefined || cells.site === filter.site) &&
        (filter.pest === undefined || cells.pest === name),
    )
    expect(expected.length).toBeGreaterThan(0)
    expect(rowsOf(filtered, 'effect').map(same)).toEqual(expected.map(same))
    expect(filtered.cautions).toEqual(all.cautions)
    const pooled = rowsOf(all, 'tactics').filter(({ cells }) => !filter.pest || cells.pest === name)
    expect(rowsOf(filtered, 'tactics').map(same)).toEqual(pooled.map(same))
  })

  it('reads the same whatever the order of its files', () => {
    const turned = new Map([...manyFiles()].reverse())
    expect(JSON.stringify(effectReport(memorySource(turned), effectOptions()))).toBe(JSON.stringify(all))
  })

  it('before the period and after its end is read up to the as-of day, but nothing done then is judged', () => {
    const in2 = (more: object): Report => effectReport(memorySource(manyFiles()), effectOptions(more))
    const april = { from: day('2026-04-01'), to: day('2026-04-30') }
    const inApril = rowsOf(in2(april), 'effect')
    expect(inApril.map(({ cells }) => cells.day)).toEqual(['2026-04-20', '2026-04-10', '2026-04-20'])
    const kitchen = (of: readonly Row[]) =>
      of.find(({ cells }) => cells.area === 'kitchen' && cells.day === '2026-04-20')?.cells
    for (const id of ['change', 'caught-before', 'caught-after', 'also-done'])
      expect(kitchen(inApril)?.[id]).toEqual(kitchen(rows)?.[id])
  })
})
