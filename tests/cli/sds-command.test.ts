import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { Page } from '../files/pdf-writer.js'
import { pdfOf } from '../files/pdf-writer.js'
import type { SheetWords } from '../reports/sds-sheets.js'
import { sheetPages, sixteen, tableD1 } from '../reports/sds-sheets.js'
import { ledgerFolder, newFolder, run } from './run-doorsweep.js'

const asOf = ['--as-of', '2026-03-20']

/** A ledger whose product bait-a has this PDF as its sheet, and the entry of the register that goes with it. */
function withSheet(pdf: Buffer, entry = 'revised: 2026-02-10'): string {
  const folder = ledgerFolder(`
=== products/bait-a/product.yaml
name: Invented Bait A
kind: pesticide
registration: 99999-1
active-ingredients: {boric-acid: {strength: 5 %}}
formulation: gel
sds: [{from: 2026-02-15, file: sheet.pdf${entry === '' ? '' : `, ${entry}`}}]
`)
  mkdirSync(join(folder, 'products/bait-a'), { recursive: true })
  writeFileSync(join(folder, 'products/bait-a/sheet.pdf'), pdf)
  return folder
}

async function cellsOf(pdf: Buffer, entry?: string, table = 'compared') {
  const ran = await run(withSheet(pdf, entry), ['sds', 'bait-a', '--format', 'json', ...asOf])
  const page = JSON.parse(ran.out) as {
    tables: { id: string; rows: Record<string, string | number | null>[] }[]
    'not-examined': string[]
  }
  const rows = page.tables.find(({ id }) => id === table)?.rows ?? []
  const row = (what: string) => rows.find((one) => one.what === what)
  return { ran, page, rows, row }
}

const sheet = (words?: SheetWords) => pdfOf(sheetPages(words))

describe('sds', () => {
  it('finds product, number, date and all sixteen headings of Table D.1', async () => {
    const { rows, row } = await cellsOf(sheet())
    expect(row('product identifier')).toMatchObject({ pdf: 'Invented Bait A', result: 'agrees' })
    expect(row('EPA Reg. No.')).toMatchObject({ pdf: '99999-1', result: 'agrees' })
    expect(row('revision date')).toMatchObject({ register: '2026-02-10', result: 'agrees' })
    expect(row('headings')).toMatchObject({ pdf: '16 of 16' })
    expect(rows.every(({ result }) => result !== 'differs' && result !== 'not found')).toBe(true)
  })

  it('lists each heading by number, in the words of the law, with its page', async () => {
    const { rows } = await cellsOf(sheet(), undefined, 'headings')
    expect(rows.map(({ number }) => number)).toEqual(sixteen)
    expect(rows.map(({ heading }) => String(heading).toLowerCase())).toEqual(
      tableD1.map((heading) => heading.toLowerCase()),
    )
    // The first page of the sheet holds sections 1 to 8.
    expect(rows.map(({ page }) => page)).toEqual(sixteen.map((number) => (number <= 8 ? 1 : 2)))
  })

  it.each([
    ['packed streams', pdfOf(sheetPages(), { packed: true })],
    ['capitals', sheet({ heading: (words, number) => `SECTION ${number} - ${words.toUpperCase()}` })],
    ['a number and a stop', sheet({ heading: (words, number) => `${number}. ${words}` })],
  ])('reads headings with %s', async (_, pdf) => {
    expect((await cellsOf(pdf)).row('headings')).toMatchObject({ pdf: '16 of 16' })
  })

  it('names the headings that are not there', async () => {
    const { ran, row } = await cellsOf(sheet({ without: [5, 12] }))
    expect(row('headings')).toMatchObject({ pdf: '14 of 16; not found: 5, 12', result: 'not found' })
    expect(ran.code).toBe(1)
  })

  it.each([
    ['March 12, 2026', '2026-03-12', 'agrees'],
    ['12-Mar-2026', '2026-03-12', 'agrees'],
    ['2026-03-12', '2026-03-13', 'differs'],
    // The thirteenth is no month, so this can be read in one way only.
    ['03/13/2026', '2026-03-13', 'agrees'],
  ])('a revision date written %s, in the register %s: %s', async (date, revised, result) => {
    const { row } = await cellsOf(sheet({ date: `Revision date: ${date}` }), `revised: ${revised}`)
    expect(row('revision date')).toMatchObject({ result })
  })

  it('never guesses which number of a date is the month', async () => {
    const { ran, row } = await cellsOf(sheet({ date: 'Revision date: 03/12/2026' }), '')
    expect(row('revision date')).toMatchObject({
      pdf: '03/12/2026 = 2026-03-12 or 2026-12-03',
      result: 'ambiguous',
    })
    expect(ran.code).toBe(1)
  })

  it('tells a sheet of another product and another number', async () => {
    const { ran, row } = await cellsOf(
      sheet({ name: 'Product name: Invented Dust Z', number: 'EPA Reg. No. 99999-77' }),
    )
    expect(row('product identifier')).toMatchObject({ result: 'differs' })
    expect(row('EPA Reg. No.')).toMatchObject({ result: 'differs' })
    expect(ran.code).toBe(1)
  })

  it('ends with an entry to paste, which it does not write itself', async () => {
    const folder = withSheet(sheet(), '')
    const ran = await run(folder, ['sds', 'bait-a', ...asOf])
    expect(ran.out).toMatch(/To paste into products\/bait-a\/product.yaml/)
    expect(ran.out).toMatch(/revised: 2026-02-10/)
    expect(ran.out).toMatch(/The register was not changed/)
    expect((await run(folder, ['sds', 'bait-a', ...asOf])).out).toBe(ran.out)
  })

  const letter: Page[] = [['Dear parents,', 'on Friday the school is closed.', 'The principal']]
  it.each([
    ['no PDF', Buffer.from('<html><body>SECTION 1: Identification</body></html>'), /not a PDF|no PDF/i],
    ['nothing at all', Buffer.alloc(0), /empty|not a PDF|no PDF/i],
    ['only a scan', pdfOf(['picture']), /scan/],
    ['no safety data sheet', pdfOf(letter), /not? .*safety data sheet|safety data sheet/i],
    ['cut off in the middle', sheet().subarray(0, 200), /damaged|cannot be read|could not be read|no PDF/i],
  ])('%s: says so, and exits with 2', async (_, pdf, says) => {
    const { ran, page } = await cellsOf(pdf)
    expect(ran.code).toBe(2)
    expect(page['not-examined'].join('\n')).toMatch(says)
    expect(ran.out + ran.err).not.toMatch(/at .*\.[jt]s:\d+/)
  })

  it('reads a sheet outside of any ledger', async () => {
    const folder = newFolder()
    writeFileSync(join(folder, 'sheet.pdf'), sheet())
    const ran = await run(folder, ['sds', './sheet.pdf', ...asOf])
    expect(ran.out).toContain('16 of 16')
    expect(ran.err).toBe('')
  })

  it.each([
    [['sds', 'bait-aa'], /There is no product bait-aa; did you mean bait-a\?/],
    [['sds', './nowhere.pdf'], /nowhere\.pdf does not exist/],
    [['sds', 'bait-a', '--product', 'bait-a'], /--product goes with the PDF/],
  ])('%j is refused plainly', async (args, says) => {
    const ran = await run(withSheet(sheet()), [...args, ...asOf])
    expect([ran.code, ran.out]).toEqual([2, ''])
    expect(ran.err).toMatch(says)
  })

  it('makes control characters of a sheet visible', async () => {
    const ran = await run(withSheet(sheet({ name: 'Product name: Bait\u001b[31m A' })), [
      'sds',
      'bait-a',
      ...asOf,
    ])
    expect(ran.out).not.toContain('\u001b')
  })
})
