import { expect, it } from 'vitest'
import type { ImportKind } from '../../../src/writing/import/mapping.js'
import { readMapping } from '../../../src/writing/import/read-mapping.js'

function wrongIn(text: string, kind: ImportKind = 'counts'): string[] {
  const read = readMapping(kind, 'map.yaml', Buffer.from(text, 'utf8'))
  return 'troubles' in read ? read.troubles.map(({ line, column, says }) => `${line}:${column} ${says}`) : []
}

it.each([
  ['date: Date\ndevce: Trap\n', ['2:1 `devce` is not a key here; did you mean `device`?']],
  [
    'date: {column: D, format: MM/DD}\n',
    [expect.stringMatching(/^1:19 In `date`, the format `MM\/DD` has to name/)],
  ],
  ['site: {names: {a: b}}\n', ['1:1 `site` takes either `column` or `always`.']],
  ['site: {column: S, always: oak}\n', ['1:1 `site` takes either `column` or `always`.']],
  [
    'pests: {ant: A}\ncount: N\n',
    ['2:1 `pests` names a column for each pest, so `count` has no place beside it.'],
  ],
  [
    'pests:\n  ant: {adultz: A}\n',
    [expect.stringMatching(/^2:9 `adultz` is no life stage; .* Did you mean `adults`\?$/)],
  ],
  [
    'counts: new since the last look\nstage: S\n',
    [expect.stringMatching(/^1:1 New animals cannot be added/)],
  ],
  [
    'sprung: S\nsprung-empty: E\n',
    ['2:1 `sprung` is one word for each reading, so `sprung-empty` has no place beside it.'],
  ],
  [
    'lamp: {column: L, format: MM}\n',
    [expect.stringMatching(/^1:19 In `lamp`, the format `MM` has to name/)],
  ],
  [
    'on-paper: {column: P, format: DD}\n',
    [expect.stringMatching(/^1:23 In `on-paper`, the format `DD` has to name/)],
  ],
  ['bait-unit: {unit: g}\n', [expect.stringMatching(/^1:13 `unit` is not a key here/)]],
  ['encoding: latin1\n', [expect.stringContaining('did you mean `latin-1`?')]],
  ['delimiter: ";;"\n', [expect.stringContaining('is not one of')]],
  ['', [expect.stringMatching(/^1:1 /)]],
  ['date: [\n', [expect.stringMatching(/^[0-9]+:[0-9]+ /)]],
  ['a: 1\na: 2\n', [expect.stringContaining('stands in the same map a second time')]],
])('%j', (text, expected) => {
  expect(wrongIn(text)).toEqual(expected)
})

it('each kind has fields of its own', () => {
  expect(wrongIn('says: S\nfrom: F\n', 'complaints')).toEqual([])
  expect(wrongIn('done: D\nmends: M\n', 'repairs')).toEqual([])
  expect(wrongIn('says: S\n', 'repairs')).toEqual([expect.stringMatching(/^1:1 `says` is not a key here/)])
})
