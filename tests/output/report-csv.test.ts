import { describe, expect, it } from 'vitest'
import { reportCsv } from '../../src/output/report-csv.js'
import type { Report } from '../../src/types.js'
import { smallReport } from './small-report.js'

/** One text cell as CSV writes it. */
function cellOf(text: string): string | undefined {
  const report: Report = {
    ...smallReport,
    tables: [
      {
        id: 'a',
        title: 'A',
        columns: [{ id: 'a', title: 'a' }],
        rows: [{ cells: { a: text }, records: [] }],
        empty: '',
      },
    ],
  }
  return reportCsv(report).split('\n')[1]?.replace(/,$/, '')
}

describe('a table as CSV', () => {
  it('has one header with units, and under each head its own cell', () => {
    expect(reportCsv(smallReport)).toBe(`area,rate (per trap-week),change (% a month),note,records
kitchen,0.583333333333,-3.25,a|b <i>,sites/oak/visits/2026-03-05-okafor.yaml sites/oak/visits/2026-03-12-okafor.yaml
'=1+1,,,,
store,,,'@cmd,
hall,0,-0.01,'-5,'+x.yaml
`)
  })

  it('is the table that was asked for, and empty for one that is not there', () => {
    expect(reportCsv(smallReport, 'other')).toBe('a,records\n')
    expect(reportCsv(smallReport, 'no-such-table')).toBe('')
  })
})

describe('text that a spreadsheet would run', () => {
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1+1', '\r=1+1', ' =1+1'])('%j is kept text', (text) => {
    expect(cellOf(text)).toMatch(/^"?'|^"?\\u000d/)
    expect(cellOf(text)).not.toMatch(/^"?\s*[=+\-@]/)
  })

  it.each(['a=b', '1+1', '2026-03-20', '–'])('%j is left alone', (text) => {
    expect(cellOf(text)).toBe(text)
  })

  it('with commas, quotes and line ends stays one cell', () => {
    expect(cellOf('a, "b"')).toBe('"a, ""b"""')
    expect(cellOf('a\nb')).toBe('a\\u000ab')
  })
})
