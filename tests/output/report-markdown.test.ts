import { expect, it } from 'vitest'
import { reportMarkdown } from '../../src/output/report-markdown.js'
import { smallReport } from './small-report.js'

it('a report as Markdown keeps text from records text', () => {
  expect(reportMarkdown(smallReport, { showWork: false })).toBe(`# Catch in \\<b\\>Oak\\</b\\> \\| kitchen

2026-03-01 to 2026-03-20, as of 2026-03-20

**One thing\\_is \\*sure\\*.**

- By: Ada \\[Okafor\\]

## Catch

| area | rate (95 %) | rate (per trap-week) | note |
| --- | --- | ---: | --- |
| kitchen | 0.58 (0.23 to 1.20) | 0.58 | a\\|b \\<i\\> |
| =1+1 | – | – |  |
| store | – | – | @cmd |
| hall | – | 0.00 | -5 |

## Other

There is none.

- A zero is a reading.
- Not examined: sites/elm: it has no site.yaml.
`)
})

it('shows the work and the records when asked, several on lines of their own', () => {
  const text = reportMarkdown(smallReport, { showWork: true })
  expect(text).toContain(
    '| area | rate (95 %) | rate (per trap-week) | change (% a month) | note | records |',
  )
  expect(text).toContain(
    '| -3.3 | a\\|b \\<i\\> | sites/oak/visits/2026-03-05-okafor.yaml<br>sites/oak/visits/2026-03-12-okafor.yaml |',
  )
  expect(text).not.toMatch(/NaN|Infinity/)
})

it('makes control characters visible and keeps every row on its line', () => {
  const evil = '\u001b[2J`x`\n# no heading\n| no cell |'
  const text = reportMarkdown(
    {
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
    },
    { showWork: true },
  )
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/)
  expect(text).not.toMatch(/^# no heading/m)
  expect(text).not.toMatch(/(?<!\\)`/)
  // One heading, one ruler, one row; a bar from a record does not begin another cell.
  const rows = text.split('\n').filter((line) => line.startsWith('|'))
  expect(rows).toHaveLength(3)
  expect(rows[2]?.split(/(?<!\\)\|/)).toHaveLength(4)
})
