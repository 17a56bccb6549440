import { describe, expect, it } from 'vitest'
import { reportJson } from '../../src/output/report-json.js'
import { smallReport } from './small-report.js'

const document = JSON.parse(reportJson(smallReport))

describe('a report as JSON', () => {
  it('is versioned and says what it is', () => {
    expect(document).toMatchObject({
      'format-version': 1,
      report: 'example',
      'as-of': '2026-03-20',
      period: { from: '2026-03-01', to: '2026-03-20' },
      'not-examined': ['sites/elm: it has no site.yaml.'],
    })
    expect(JSON.parse(reportJson({ ...smallReport, period: { from: 'a', to: 'b' } })).period).toEqual({
      from: 'a',
      to: 'b',
    })
    const { period: _, ...without } = smallReport
    expect(JSON.parse(reportJson(without)).period).toBeNull()
  })

  it('has every column for machines, also the work, and none that only people need', () => {
    expect(document.tables[0].columns).toEqual([
      { id: 'area', title: 'area', unit: null },
      { id: 'rate', title: 'rate', unit: 'per trap-week' },
      { id: 'change', title: 'change', unit: '% a month' },
      { id: 'note', title: 'note', unit: null },
    ])
  })

  it('has numbers as numbers, in full; a missing one is null and never 0', () => {
    const [kitchen, formula, store, hall] = document.tables[0].rows
    expect(kitchen).toEqual({
      area: 'kitchen',
      // Twelve digits of 7/12.
      rate: 0.583333333333,
      change: -3.25,
      note: 'a|b <i>',
      records: ['sites/oak/visits/2026-03-05-okafor.yaml', 'sites/oak/visits/2026-03-12-okafor.yaml'],
    })
    expect([formula.rate, formula.change, store.rate, store.change]).toEqual([null, null, null, null])
    expect(hall.rate).toBe(0)
    expect(formula.area).toBe('=1+1')
  })

  it('escapes what a terminal would obey, and is the same document', () => {
    const evil = 'a\u009b2J\u202eb\u2028c\u007f'
    const text = reportJson({ ...smallReport, title: evil })
    expect(text).not.toMatch(/[\u007f-\u009f\u202e\u2028]/)
    expect(JSON.parse(text).title).toBe(evil)
  })

  it('ends in a line end', () => {
    expect(reportJson(smallReport)).toMatch(/\}\n$/)
  })
})
