import { expect, it } from 'vitest'
import { importJson } from '../../src/output/import-json.js'
import { planOf } from '../writing/import/plan-of.js'

const page = (csv: string, isWritten = false) => ({ ...planOf(csv), file: 'in.csv', isWritten })
const head = 'Date,Trap,Pest,Count\n'

it('holds the files that would be written, and what check would say besides', () => {
  const csv = `${head}2026-03-12,K2,house-mouse,3\n\n2026-03-12,K10,german-cockroach,0\n`
  const told = JSON.parse(importJson(page(csv)))
  expect({ ...told, brings: undefined }).toEqual({
    'format-version': 1,
    file: 'in.csv',
    written: false,
    counts: { rows: 2, 'rows-left-out': 0, refused: 0, added: 1, unchanged: 0 },
    refused: [],
    files: [
      {
        file: 'sites/oak/visits/2026-03-12-okafor.yaml',
        outcome: 'added',
        // As a spreadsheet numbers them, the header and the empty row counted.
        rows: [2, 4],
        text: 'purpose: trap-check\nby: okafor\nreadings:\n  none: [K10]\n  K2: {house-mouse: 3}\n',
      },
    ],
    'columns-left-aside': [],
    brings: undefined,
  })
  // A mouse on a sticky trap that is set for cockroaches is only unlikely.
  expect(told.brings).toContainEqual(
    expect.objectContaining({
      rule: 'reading-does-not-fit',
      level: 'note',
      key: 'readings.K2.house-mouse',
      site: 'oak',
      says: 'K2 is a sticky trap, which is not made to show what it counts here: house-mouse.',
      remedy: expect.stringMatching(/./),
      location: { file: 'sites/oak/visits/2026-03-12-okafor.yaml', line: 5, column: 8 },
    }),
  )
})

it('holds what is refused, with row, column and value as they stand in the file, and then knows of nothing besides', () => {
  const csv = `${head}2026-03-12,K2,german-cockroach,1\n\n"2026-03-12"," K22",german-cockroach,1\n2026-03-12,K10,german-cockroach,=A1\n2026-03-12,K3\n`
  const told = JSON.parse(importJson(page(csv)))
  expect(told.refused).toEqual([
    {
      row: 4,
      column: { number: 2, heading: 'Trap' },
      value: ' K22',
      says: 'There is no device `K22` at oak; did you mean `K2`?',
      remedy: expect.stringContaining('say under `names`'),
      location: { file: 'in.csv', line: 4, column: 14 },
    },
    {
      row: 5,
      column: { number: 4, heading: 'Count' },
      value: '=A1',
      says: '`=A1` is a formula, not a number.',
      remedy: 'Save the sheet with the values of its cells.',
      location: { file: 'in.csv', line: 5, column: 33 },
    },
    {
      row: 6,
      column: null,
      value: null,
      says: 'Has 2 cells; the header has 4.',
      remedy: 'A cell with a separator in it needs quotes around it.',
      location: { file: 'in.csv', line: 6, column: 1 },
    },
  ])
  expect(told.brings).toBe(null)
  expect(told.counts).toEqual({ rows: 4, 'rows-left-out': 0, refused: 3, added: 0, unchanged: 0 })
})

it('every refusal says what to do', () => {
  const csv = `${head}03/04/2026,K2,german-cockroach,1
2026-03-12,K22,german-cockroach,1
2026-03-12,K2,german-cockroch,1
2026-03-12,K2,german-cockroach,-1
2026-03-12,K2,german-cockroach,many
2026-03-12,K2,none,4
2026-03-12,K2,,4
2026-03-12,12,german-cockroach,1
2026-03-12,,german-cockroach,1
2026-05-12,K2,german-cockroach,1
2026-03-13,K2,german-cockroach,
2026-03-14,K2,german-cockroach,1
2026-03-14,K2,german-cockroach,1
2026-03-02,K2,german-cockroach,1
,K2,german-cockroach,1
`
  const { refused } = JSON.parse(importJson(page(csv)))
  expect(refused).toHaveLength(14)
  for (const { remedy } of refused) expect(remedy).toMatch(/^[A-Z].*\.$/)
})

it('files that lie there already say so; marks that turn text around are escaped', () => {
  const csv = `${head}2026-03-12,K2,german-cockroach,1\n`
  const plan = planOf(csv)
  const [one] = plan.fresh
  if (!one) throw new Error('no record was made')
  const told = importJson({ ...plan, file: 'in\u202e.csv', fresh: [], unchanged: [one], isWritten: true })
  expect(told).toContain('"file": "in\\u202e.csv"')
  expect(JSON.parse(told)).toMatchObject({
    written: true,
    files: [{ file: 'sites/oak/visits/2026-03-12-okafor.yaml', outcome: 'unchanged', rows: [2] }],
  })
})
