import { expect, it } from 'vitest'
import { linesOf } from '../../src/files/pdf-lines.js'
import type { PdfPiece } from '../../src/files/pdf-text.js'

/** Letters ten high; each character five wide. */
const at = (x: number, y: number, text: string): PdfPiece => ({
  text,
  x,
  y,
  width: text.length * 5,
  size: 10,
})
const lines = (order: 'as drawn' | 'as seen', ...pieces: PdfPiece[]) =>
  linesOf([{ pieces }], order).map(({ text }) => text)

it('joins what stands on one line: as a word, with a blank, or as another cell', () => {
  // `Re` ends at 10. Nothing between; 2 of 10 is a blank; 30 of 10 is another cell.
  expect(lines('as drawn', at(0, 100, 'Re'), at(10, 100, 'vised'))).toEqual(['Revised'])
  expect(lines('as drawn', at(0, 100, 'Re'), at(12, 100, 'vised'))).toEqual(['Re vised'])
  expect(lines('as drawn', at(0, 100, 'Re'), at(40, 100, 'vised'))).toEqual(['Re  vised'])
})

it('begins a line where the height changes, but not for a raised mark', () => {
  expect(lines('as drawn', at(0, 100, 'one'), at(0, 88, 'two'))).toEqual(['one', 'two'])
  expect(lines('as drawn', at(0, 100, 'Bait'), at(20, 103, '®'))).toEqual(['Bait®'])
})

it('keeps the order of drawing, or goes from the top and from the left', () => {
  const pieces = [at(0, 50, 'foot'), at(60, 100, 'right'), at(0, 100, 'left')]
  expect(lines('as drawn', ...pieces)).toEqual(['foot', 'right', 'left'])
  expect(lines('as seen', ...pieces)).toEqual(['left  right', 'foot'])
})

it('tells the page, and passes over one that could not be read', () => {
  const pages = [{ unreadable: true } as const, { pieces: [at(0, 10, ' '), at(9, 10, 'words')] }]
  expect(linesOf(pages, 'as drawn')).toEqual([{ text: 'words', page: 2 }])
})

it('cuts a line that no page has', () => {
  expect(lines('as drawn', at(0, 0, 'x'.repeat(5000)))[0]).toHaveLength(2000)
})
