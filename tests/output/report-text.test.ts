import { describe, expect, it } from 'vitest'
import { plainPainter } from '../../src/output/painter.js'
import { cellText, reportText } from '../../src/output/report-text.js'
import type { Report } from '../../src/types.js'
import { smallReport } from './small-report.js'

const textOf = (report: Report, showWork = false) => reportText(report, { paint: plainPainter, showWork })

describe('a report as text', () => {
  it('is a title, a sentence, facts, tables, and what was not examined', () => {
    expect(textOf(smallReport)).toBe(`Catch in <b>Oak</b> | kitchen
2026-03-01 to 2026-03-20, as of 2026-03-20

One thing_is *sure*.

By: Ada [Okafor]

Catch
  area     rate (95 %)          rate (per trap-week)  note
  kitchen  0.58 (0.23 to 1.20)                  0.58  a|b <i>
  =1+1     –                                       –
  store    –                                       –  @cmd
  hall     –                                    0.00  -5

Other
  There is none.

* A zero is a reading.
not examined: sites/elm: it has no site.yaml.
`)
  })

  it('shows the work and the records when asked', () => {
    const lines = textOf(smallReport, true).split('\n')
    const heading = lines.find((line) => line.includes('rate (per trap-week)'))
    expect(heading).toContain('change (% a month)')
    expect(heading).toMatch(/records$/)
    expect(lines.filter((line) => line.includes('sites/oak/visits/'))).toHaveLength(2)
    // −0.01 rounded to one decimal is zero, without a sign.
    expect(lines.find((line) => line.includes('hall'))).toMatch(/0\.00 +0\.0 +-5/)
  })

  it('says how many rows it does not show', () => {
    const [table] = smallReport.tables
    if (!table) throw new Error('the report has a table')
    const short = { ...smallReport, tables: [{ ...table, shownToPeople: 1 }] }
    expect(textOf(short)).toContain('  3 more rows: --show-work, --format json or csv shows them all.')
    expect(textOf(short)).not.toContain('store')
    expect(textOf(short, true)).toContain('store')
    expect(textOf(short, true)).not.toContain('more rows')
  })

  it('makes control characters visible, wherever they come from', () => {
    const evil = '\u001b[2Jgone\u202e\r\n'
    const text = textOf({
      ...smallReport,
      title: evil,
      headline: evil,
      facts: [{ label: 'By', value: evil }],
      tables: [
        {
          id: 'a',
          title: 'A',
          columns: [{ id: 'a', title: 'a' }],
          rows: [{ cells: { a: evil }, records: [evil] }],
          empty: '',
        },
      ],
      notExamined: [evil],
    })
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/)
    expect(text.split('\\u001b[2Jgone\\u202e\\u000d\\u000a')).toHaveLength(6)
  })

  it.each([60, 40, 20])('fits a terminal of %i columns without losing a word', (width) => {
    const long = {
      ...smallReport,
      tables: [
        {
          id: 'a',
          title: 'A',
          columns: [
            { id: 'area', title: 'area' },
            { id: 'next', title: 'the plan says next' },
            { id: 'caught', title: 'caught', unit: 'animals', decimals: 0 },
          ],
          rows: [
            {
              cells: {
                area: 'kitchen',
                next: 'clean under and behind the equipment, mend leaks, empty the bins every night',
                caught: 12,
              },
              records: [],
            },
          ],
          empty: '',
        },
      ],
    }
    const text = reportText(long, { paint: plainPainter, showWork: false, width })
    const table = text.slice(text.indexOf('\nA\n') + 3, text.indexOf('* A zero'))
    const words =
      'kitchen clean under and behind the equipment, mend leaks, empty the bins every night 12'.split(' ')
    expect(words.filter((word) => !table.split(/\s+/).includes(word))).toEqual([])
    if (width === 60) for (const line of table.split('\n')) expect(line.length).toBeLessThanOrEqual(width)
  })

  it('has no colour without a painter', () => {
    expect(textOf(smallReport, true)).not.toContain('\u001b')
  })
})

describe('a cell', () => {
  it.each([
    [null, '–'],
    [undefined, '–'],
    [Number.NaN, '–'],
    [Number.POSITIVE_INFINITY, '–'],
    [Number.NEGATIVE_INFINITY, '–'],
    [0, '0.00'],
    [-0, '0.00'],
    [-0.001, '0.00'],
    [-0.006, '-0.01'],
    [1234.5, '1234.50'],
    ['', ''],
  ])('%s is shown as %s', (cell, shown) => {
    expect(cellText(cell, { id: 'a', title: 'a', decimals: 2 })).toBe(shown)
  })

  it('of a number without decimals is the number, and never what is none', () => {
    expect(cellText(2.5, { id: 'a', title: 'a' })).toBe('2.5')
    expect(cellText(Number.NaN, { id: 'a', title: 'a' })).toBe('–')
  })
})
