import { stringify } from 'csv-stringify/sync'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { readRecord } from '../../../src/files/read-record.js'
import { plainMap, planOf } from './plan-of.js'

/** What people write into remarks, and what YAML, CSV and spreadsheets take for something else. */
const remark = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 40 }),
  fc.constantFrom(
    '=1+1',
    '-',
    '- a',
    '#',
    'a: b',
    'a #b',
    'yes',
    'null',
    '~',
    '1_000',
    '0x1F',
    '1e3',
    '"',
    "'",
    '{a: b}',
    '[',
    '*a',
    '&a',
    '!t',
    '%',
    '@',
    '`',
    '2026-03-12',
    '12:30',
    'a\nb',
    'a\tb',
    '\\n',
    '<<',
    '?',
  ),
)

it('any remark comes out of the record as it went in, or its cell is told', () => {
  fc.assert(
    fc.property(remark, (text) => {
      const csv = stringify([
        ['Date', 'Trap', 'Pest', 'Count', 'Remark'],
        ['2026-03-12', 'K2', 'german-cockroach', '1', text],
      ])
      const plan = planOf(csv, { map: `${plainMap}note: Remark\n` })
      if (plan.troubles.length > 0) {
        expect(plan.troubles.map(({ says }) => says)).toEqual([
          expect.stringContaining('Holds a hidden character'),
        ])
        return
      }
      const [record] = plan.fresh
      const read = readRecord(Buffer.from(record?.text ?? '', 'utf8'))
      const expected = text.replace(/\r\n?/g, '\n').trim()
      expect(read).toEqual({
        data: {
          purpose: 'trap-check',
          by: 'okafor',
          readings: { K2: { 'german-cockroach': 1, ...(expected === '' ? {} : { note: expected }) } },
        },
      })
    }),
    { numRuns: 150 },
  )
})

it('any bytes are read, or refused with a reason', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.uint8Array({ maxLength: 200 }),
        fc
          .string({
            unit: fc.constantFrom('"', ',', '\n', '\r', 'K2', ';', 'x', ' ', 'Date', '2026-03-12'),
            maxLength: 30,
          })
          .map((text) => Buffer.from(text)),
        fc
          .string({
            unit: fc.constantFrom('"', ',', '\n', '\r', 'K2', ';', 'x', ' ', '2026-03-12', 'ant', '1'),
            maxLength: 30,
          })
          .map((text) => Buffer.from(`Date,Trap,Pest,Count\n${text}`)),
      ),
      (bytes) => {
        let plan: unknown
        try {
          plan = planOf(bytes)
        } catch (error) {
          // planOf throws the reason of what cannot be read; a fault of the program would read otherwise.
          expect(String(error)).toMatch(/^Error: in\.csv(?::[0-9]+)? cannot be read: /)
          return
        }
        expect(plan).toBeDefined()
      },
    ),
    { numRuns: 150 },
  )
})
