import { describe, expect, it } from 'vitest'
import { barsOf } from '../../src/output/chart-bars.js'
import { dayScale } from '../../src/output/chart-days.js'
import { numberText, tickTexts } from '../../src/output/chart-numbers.js'
import { chartOf } from '../../src/output/chart-of-plot.js'
import { plotText } from '../../src/output/plot-text.js'
import { reportHtml } from '../../src/output/report-html.js'
import type { Plot, Report } from '../../src/types.js'
import type { ReadElement } from './read-xml.js'
import { bodyOf, elementsNamed, everyElement, textOf } from './report-html-pages.js'
import { smallReport } from './small-report.js'

const line: Plot = {
  id: 'rate',
  title: 'house mouse, oak kitchen',
  unit: 'per trap-week',
  from: '2026-01-01',
  to: '2026-12-31',
  points: [
    { day: '2026-01-16', value: 0, low: 0, high: 0.5 },
    { day: '2026-03-16', value: 2, low: 1, high: 3 },
    { day: '2026-06-15', value: null },
    { day: '2026-09-01', value: 1, low: 0.5, high: 100 },
    { day: '2026-12-31', value: 4, low: 3, high: null },
  ],
  line: { value: 1, says: 'action threshold' },
  marks: [
    { day: '2026-04-01', says: 'door sweep fitted', kind: 'repair' },
    { day: '2026-04-02', says: 'gel', kind: 'treatment' },
    { day: '2026-04-03', says: 'talked to the cook' },
  ],
}

const bars: Plot = {
  kind: 'bars',
  id: 'uses',
  title: 'Uses by month',
  unit: 'uses',
  from: '2026-01-01',
  to: '2026-04-30',
  points: [],
  marks: [],
  bars: {
    by: 'month',
    parts: ['applied', 'bait put out'],
    rows: [
      { name: '2026-01', values: [null, null] },
      { name: '2026-02', values: [0, 0] },
      { name: '2026-03', values: [1, 3] },
      { name: '2026-04', values: [2, 0] },
    ],
    overTime: true,
  },
}

function drawnOf(plot: Plot) {
  const drawn = chartOf(plot, 'c')
  if (!drawn) throw new Error('nothing is drawn')
  return { svg: bodyOf(`<body>${drawn.svg}</body>`), legend: drawn.legend, text: drawn.svg }
}

const number = (element: ReadElement, name: string) => Number(element.attributes[name])
const texts = (svg: ReadElement) => elementsNamed(svg, 'text').map((one) => ({ one, says: textOf(one) }))

/** Heights by value, from two ticks with their numbers: the baseline of a text stands a fixed step below its line. */
function heightOf(svg: ReadElement): (value: number) => number {
  const ticks = texts(svg)
    .filter(({ one, says }) => one.attributes['text-anchor'] === 'end' && /^[\d.]+$/.test(says))
    .map(({ one, says }) => ({ value: Number(says), y: number(one, 'y') - 5 }))
  const [first, last] = [ticks[0], ticks.at(-1)]
  if (!first || !last || first === last) throw new Error('fewer than two ticks')
  return (value) => first.y + ((value - first.value) * (last.y - first.y)) / (last.value - first.value)
}

describe('a line over time', () => {
  const { svg, legend, text } = drawnOf(line)
  const circles = elementsNamed(svg, 'circle').filter(({ attributes }) => attributes.fill !== 'none')

  it('has every value at the height and the day that the axes give it', () => {
    const y = heightOf(svg)
    expect(
      circles.map((one) => Math.abs(number(one, 'cy') - y([0, 2, 1, 4][circles.indexOf(one)] ?? 0)) < 0.3),
    ).toEqual([true, true, true, true])
    // Days from 2026-01-01: 15, 74, 243 and 364, so the places are in those proportions.
    const [a = 0, b = 0, c = 0, d = 0] = circles.map((one) => number(one, 'cx'))
    expect((b - a) / (d - a)).toBeCloseTo(59 / 349, 2)
    expect((c - a) / (d - a)).toBeCloseTo(228 / 349, 2)
  })

  it('breaks where nothing was measured, hatches that stretch and draws no zero there', () => {
    const course = elementsNamed(svg, 'path').find(({ attributes }) => attributes.stroke === '#12395c')
    expect(course?.attributes.d?.match(/M/g)).toHaveLength(2)
    const [gap] = elementsNamed(svg, 'rect').filter(({ attributes }) => attributes.fill === 'url(#c-hatch)')
    if (!gap) throw new Error('no gap')
    const [, before = 0, after = 0] = circles.map((one) => number(one, 'cx'))
    expect(number(gap, 'x')).toBeGreaterThan(before)
    expect(number(gap, 'x') + number(gap, 'width')).toBeLessThan(after)
    expect(circles).toHaveLength(4)
    expect(legend.map(({ says }) => says)).toContain('nothing was measured')
  })

  it('draws intervals, and an arrow on those that go on above', () => {
    const pale = '#5b93bf'
    const y = heightOf(svg)
    const intervals = elementsNamed(svg, 'line').filter(({ attributes }) => attributes.stroke === pale)
    expect(intervals).toHaveLength(4)
    expect(Math.abs(number(intervals[1] as ReadElement, 'y1') - y(1))).toBeLessThan(0.3)
    expect(Math.abs(number(intervals[1] as ReadElement, 'y2') - y(3))).toBeLessThan(0.3)
    expect(elementsNamed(svg, 'path').filter(({ attributes }) => attributes.fill === pale)).toHaveLength(2)
  })

  it('draws the line to compare with, dashed, at its height', () => {
    const limit = elementsNamed(svg, 'line').find(
      ({ attributes }) => attributes['stroke-dasharray'] === '8 5',
    )
    expect(Math.abs(number(limit as ReadElement, 'y1') - heightOf(svg)(1))).toBeLessThan(0.3)
    expect(legend.map(({ says }) => says)).toContain('action threshold: 1')
  })

  it('marks what happened by letters, and tells kinds apart by shapes', () => {
    expect(legend.slice(-3).map(({ says }) => says)).toEqual([
      'a, 2026-04-01, repair: door sweep fitted',
      'b, 2026-04-02, treatment: gel',
      'c, 2026-04-03: talked to the cook',
    ])
    expect(new Set(legend.map(({ icon }) => icon)).size).toBe(legend.length)
    // A day apart they would lie upon each other, so each has a row of its own.
    const letters = texts(svg).filter(({ says }) => /^[abc]$/.test(says))
    expect(new Set(letters.map(({ one }) => one.attributes.y)).size).toBe(3)
  })

  it('stays within its drawing, and is the same each time', () => {
    const [, , width = 0, height = 0] = (/viewBox="([^"]+)"/.exec(text)?.[1] ?? '').split(' ').map(Number)
    for (const one of everyElement(svg))
      for (const [name, most] of [
        ['x', width],
        ['x1', width],
        ['x2', width],
        ['cx', width],
        ['y', height],
        ['y1', height],
        ['y2', height],
        ['cy', height],
      ] as const)
        if (one.attributes[name] !== undefined) {
          expect(number(one, name)).toBeGreaterThanOrEqual(0)
          expect(number(one, name)).toBeLessThanOrEqual(most)
        }
    expect(chartOf(line, 'c')?.svg).toBe(text)
    expect(text).not.toMatch(/NaN|Infinity|undefined/)
  })
})

describe('bars', () => {
  it('over time stand side by side, with a height for each part, none for a zero and hatching for what is not known', () => {
    const { svg, legend } = drawnOf(bars)
    const y = heightOf(svg)
    const rects = elementsNamed(svg, 'rect')
    const unknown = rects.filter(({ attributes }) => attributes.fill === 'url(#c-hatch)')
    const parts = rects.filter((one) => !unknown.includes(one))
    expect(unknown).toHaveLength(1)
    expect(parts).toHaveLength(3)
    const unit = y(0) - y(1)
    for (const [at, units] of [1, 3, 2].entries())
      expect(Math.abs(number(parts[at] as ReadElement, 'height') - units * unit)).toBeLessThan(0.3)
    expect(
      texts(svg)
        .filter(({ one, says }) => one.attributes['text-anchor'] === 'middle' && /^\d$/.test(says))
        .map(({ says }) => says),
    ).toEqual(['0', '4', '2'])
    expect(legend.map(({ says }) => says)).toEqual(['applied', 'bait put out', 'nothing is known'])
  })

  it('of groups lie below each other under their names, which are told in full', () => {
    const long = `${'maintenance of the district and of its grounds '.repeat(3)}${'x'.repeat(90)}`
    const { svg } = drawnOf({
      ...bars,
      bars: {
        by: 'owner',
        parts: ['a', 'b', 'c'],
        rows: [
          { name: long, values: [10, 20, 30] },
          { name: 'no one', values: [0, 0, 6] },
        ],
      },
    })
    const rects = elementsNamed(svg, 'rect')
    const widths = rects.map((one) => number(one, 'width'))
    expect(widths[1]).toBeCloseTo(2 * (widths[0] ?? 0), 0)
    expect(widths[2]).toBeCloseTo(3 * (widths[0] ?? 0), 0)
    expect(widths[3]).toBeCloseTo((widths[2] ?? 0) / 5, 0)
    const told = texts(svg)
      .map(({ says }) => says)
      .join('')
    expect(told.replaceAll(' ', '')).toContain(long.replaceAll(' ', ''))
    expect(told).toContain('60')
  })

  it('have no part below zero or of no number', () => {
    const odd = barsOf({
      by: 'x',
      parts: ['a', 'b'],
      rows: [
        { name: 'n', values: [-2, Number.NaN] },
        { name: 'm', values: [Number.POSITIVE_INFINITY, 2] },
      ],
    })
    expect(odd.map(({ total }) => total)).toEqual([null, 2])
    expect(odd[1]?.parts).toEqual([{ at: 1, from: 0, to: 2 }])
  })

  it('are told in plain characters too', () => {
    const plain = plotText(bars).join('\n')
    expect(plain).toContain('2026-01 |x')
    expect(plain).toContain('2026-02 |0')
    expect(plain).toContain('2026-03 |#=== 4 (# 1, = 3)')
    expect(plain).toContain('# applied')
    for (const row of plotText({
      ...bars,
      bars: {
        by: 'x',
        parts: ['a'],
        rows: [
          { name: 'y'.repeat(30), values: [5000] },
          { name: 'z', values: [1] },
        ],
      },
    }))
      expect(row.length).toBeLessThanOrEqual(79)
  })
})

describe.each<[string, Plot]>([
  ['nothing measured', { ...line, points: [{ day: '2026-02-01', value: null }] }],
  ['no points', { ...line, points: [] }],
  ['only numbers that are none', { ...line, points: [{ day: '2026-02-01', value: Number.NaN }] }],
  ['a period that is none', { ...line, from: '2026-05-01', to: '2026-01-01' }],
  ['days that are none', { ...line, from: 'soon', to: 'later' }],
  ['points outside the period', { ...line, points: [{ day: '2020-01-01', value: 1 }] }],
  ['no bars', { ...bars, bars: { by: 'x', parts: ['a'], rows: [] } }],
  [
    'bars of which nothing is known',
    { ...bars, bars: { by: 'x', parts: ['a'], rows: [{ name: 'n', values: [null] }] } },
  ],
])('%s', (_, plot) => {
  it('is no picture, and the page says so', () => {
    expect(chartOf(plot, 'c')).toBeUndefined()
    expect(reportHtml({ ...smallReport, plots: [plot] }, { showWork: false })).toContain(
      'There is nothing to draw.',
    )
  })
})

it.each<[string, Plot]>([
  ['one day', { ...line, from: '2026-03-16', to: '2026-03-16' }],
  ['all zero', { ...line, points: [{ day: '2026-02-01', value: 0, low: 0, high: 0 }], marks: [] }],
  [
    'no upper limit anywhere',
    { ...line, points: [{ day: '2026-02-01', value: 0, low: 0, high: Number.POSITIVE_INFINITY }] },
  ],
  ['a tiny number', { ...line, points: [{ day: '2026-02-01', value: 1e-9 }] }],
  ['a huge number', { ...line, points: [{ day: '2026-02-01', value: 1e12 }] }],
  ['only zeros as bars', { ...bars, bars: { by: 'x', parts: ['a'], rows: [{ name: 'n', values: [0] }] } }],
])('%s is drawn with numbers only', (_, plot) => {
  expect(chartOf(plot, 'c')?.svg).not.toMatch(/NaN|Infinity|undefined|e[+-]\d/)
})

describe('axes', () => {
  it.each([
    ['2026-01-01', '2026-12-31', /^2026-\d\d$/],
    ['2021-07-01', '2026-06-30', /^202\d$/],
    ['2026-06-01', '2026-06-30', /^2026-06-\d\d$/],
    ['2026-06-30', '2026-06-30', /^2026-06-30$/],
  ])('from %s to %s have ticks that name days people know', (from, to, form) => {
    const ticks = dayScale(from, to, 0, 380)?.ticks ?? []
    expect(ticks.length).toBeGreaterThan(0)
    expect(ticks.length).toBeLessThanOrEqual(7)
    for (const { says } of ticks) expect(says).toMatch(form)
    // Nine units a letter: none runs into the next.
    ticks.slice(1).forEach(({ x, says }, at) => {
      expect(x - (ticks[at]?.x ?? 0)).toBeGreaterThan(says.length * 9 - 9)
    })
  })

  it('write numbers alike in every country', () => {
    expect(tickTexts([0, 0.25, 0.5])).toEqual(['0.00', '0.25', '0.50'])
    expect(tickTexts([0, 5000, 10_000])).toEqual(['0', '5000', '10000'])
    expect(tickTexts([0, 0.002, 0.004])).toEqual(['0.000', '0.002', '0.004'])
    expect([0, 3.5, 1234.5, 0.012345].map(numberText)).toEqual(['0', '3.5', '1235', '0.01235'])
  })
})

describe('the numbers beside a picture', () => {
  const table = {
    id: 'by-month',
    title: 'By month',
    for: 'work' as const,
    columns: [
      { id: 'area', title: 'area' },
      { id: 'month', title: 'month' },
      { id: 'caught', title: 'caught', decimals: 0 },
      { id: 'method', title: 'method', for: 'work' as const },
    ],
    rows: [
      { cells: { area: 'kitchen', month: '2026-01', caught: 3, method: 'x' }, records: [] },
      { cells: { area: 'hall', month: '2026-01', caught: 9, method: 'x' }, records: [] },
    ],
    empty: '',
  }
  const shown = (plot: Plot) => {
    const report: Report = { ...smallReport, tables: [table], plots: [plot] }
    const body = bodyOf(reportHtml(report, { showWork: false }))
    return elementsNamed(body, 'tr').map(({ children }) => children.map(textOf))
  }

  it('are the rows of the table that it names', () => {
    expect(shown({ ...line, table: { id: 'by-month', rows: { area: 'kitchen' } } })).toEqual([
      ['month', 'caught'],
      ['2026-01', '3'],
    ])
  })

  it('are its own where it names none', () => {
    expect(shown(line).slice(0, 4)).toEqual([
      ['day', 'value', 'at least', 'at most'],
      ['2026-01-16', '0.00', '0.00', '0.50'],
      ['2026-03-16', '2.00', '1.00', '3.00'],
      ['2026-06-15', '–', '–', '–'],
    ])
    expect(shown({ ...bars, table: { id: 'gone' } })[3]).toEqual(['2026-03', '1', '3'])
  })
})
