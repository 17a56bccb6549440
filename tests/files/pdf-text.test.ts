import { readFileSync } from 'node:fs'
import { deflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { linesOf } from '../../src/files/pdf-lines.js'
import type { PdfBounds } from '../../src/files/pdf-text.js'
import { pdfBounds, readPdf } from '../../src/files/pdf-text.js'
import { fileOf, pdfOf, streamOf } from './pdf-writer.js'

async function textOf(bytes: Uint8Array, bounds: Partial<PdfBounds> = {}, library?: string) {
  const read = await readPdf(bytes, { ...pdfBounds, ...bounds }, library)
  if ('refused' in read) return read
  return { ...read, lines: linesOf(read.pages, 'as drawn').map(({ text, page }) => `${page} ${text}`) }
}

const sheet = (name: string) => readFileSync(new URL(`sheets/${name}`, import.meta.url))
const module = (code: string) => `data:text/javascript,${encodeURIComponent(code)}`

describe('the text of a PDF', () => {
  it.each([false, true])('page by page and line by line, packed: %s', async (packed) => {
    const pages = [
      ['First (1) line', 'Second'],
      [
        { x: 50, y: 700, text: 'Third' },
        { x: 300, y: 700, text: 'right of it' },
      ],
    ]
    expect(await textOf(pdfOf(pages, { packed, title: 'Title (A)' }))).toMatchObject({
      lines: ['1 First (1) line', '1 Second', '2 Third  right of it'],
      pageCount: 2,
      title: 'Title (A)',
    })
  })

  it.each([90, 180, 270])('also of a page turned by %i degrees', async (rotate) => {
    expect(await textOf(pdfOf([['one', 'two']], { rotate }))).toMatchObject({ lines: ['1 one', '1 two'] })
  })

  it('a page that is only a picture has none', async () => {
    expect(await textOf(pdfOf(['picture', ['words']]))).toMatchObject({ lines: ['2 words'], pageCount: 2 })
  })

  it('a file that is only locked against changes can be read', async () => {
    const read = await textOf(sheet('locked-against-changes.pdf'))
    expect(read).toMatchObject({ pageCount: 2 })
    expect('lines' in read && read.lines[0]).toBe('1 SAFETY DATA SHEET')
  })

  it('a table of places that is wrong is made good, and an end that is missing is said', async () => {
    const whole = pdfOf([['one']])
    const astray = Buffer.from(whole.toString('latin1').replace(/startxref\n\d+/, 'startxref\n7'), 'latin1')
    expect(await textOf(astray)).toMatchObject({ lines: ['1 one'] })
    const cut = whole.subarray(0, whole.length - '%%EOF\n'.length)
    expect(await textOf(cut)).toMatchObject({ lines: ['1 one'], cutOff: true })
    expect(await textOf(whole)).not.toHaveProperty('cutOff')
  })

  it('the header may stand a little below the top', async () => {
    expect(await textOf(Buffer.concat([Buffer.from('\n\n'), pdfOf([['one']])]))).toMatchObject({
      lines: ['1 one'],
    })
  })
})

describe('what cannot be read says why', () => {
  it.each<[string, Uint8Array, string, string]>([
    ['nothing', Buffer.alloc(0), 'empty', 'is empty'],
    ['other bytes', Buffer.from('SAFETY DATA SHEET\n'), 'not-a-pdf', 'is not a PDF'],
    [
      'a web page',
      Buffer.from('<!DOCTYPE html><html><body>Not found'),
      'not-a-pdf',
      'is not a PDF, but a web page',
    ],
    [
      'one that asks for a password',
      sheet('asks-for-a-password.pdf'),
      'encrypted',
      'is encrypted and asks for a password',
    ],
    [
      'half a file',
      pdfOf([['one'], ['two']]).subarray(0, 600),
      'damaged',
      'is damaged: it cannot be opened as a PDF',
    ],
    ['a header alone', Buffer.from('%PDF-1.7\n'), 'damaged', 'is damaged: it cannot be opened as a PDF'],
  ])('%s', async (_, bytes, refused, detail) => {
    expect(await textOf(bytes)).toEqual({ refused, detail })
  })
})

describe('reading ends', () => {
  it('after so many pages', async () => {
    const read = await textOf(pdfOf(Array.from({ length: 9 }, (_, at) => [`page ${at + 1}`])), { pages: 3 })
    expect(read).toMatchObject({ pageCount: 9, lines: ['1 page 1', '2 page 2', '3 page 3'] })
  })

  it('after so many characters', async () => {
    const read = await textOf(pdfOf([['one'], ['two'], ['three']]), { characters: 5 })
    // 3 characters, then 6, which is more than 5.
    expect(read).toMatchObject({ pageCount: 3, lines: ['1 one', '2 two'] })
  })

  it('of a million pages that are one', async () => {
    const loop = ['<< /Type /Catalog /Pages 2 0 R >>', '<< /Type /Pages /Kids [2 0 R] /Count 1000000 >>'].map(
      (object) => Buffer.from(object),
    )
    const read = await textOf(fileOf(loop))
    expect('lines' in read ? read.lines : read.refused).toEqual([])
  })

  it('of a page that unpacks to 300 MB, before they are all there', async () => {
    const blanks = deflateSync(deflateSync(Buffer.alloc(300 * 1024 * 1024, ' '), { level: 1 }))
    const bomb = fileOf([
      Buffer.from('<< /Type /Catalog /Pages 2 0 R >>'),
      Buffer.from('<< /Type /Pages /Kids [3 0 R] /Count 1 >>'),
      Buffer.from('<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R >>'),
      streamOf(blanks, '/Filter [/FlateDecode /FlateDecode] '),
    ])
    expect(bomb.length).toBeLessThan(100_000)
    expect(await textOf(bomb, { megabytes: 100 })).toEqual({
      refused: 'too-much',
      detail: 'takes more than 100 MB of memory to read',
    })
  })

  it('in time, even when the library never comes back', async () => {
    const endless = module('export function getDocument() { for (;;); }')
    expect(await textOf(pdfOf([['one']]), { seconds: 0.5 }, endless)).toEqual({
      refused: 'too-slow',
      detail: 'could not be read within 0.5 seconds',
    })
  })

  it('when the library fails, in one line', async () => {
    const failing = module('process.exit(3)')
    expect(await textOf(pdfOf([['one']]), {}, failing)).toEqual({
      refused: 'library-failed',
      detail: 'could not be read: its thread ended early',
    })
  })
})

it('a library that is not installed is said, and nothing else', async () => {
  expect(await textOf(pdfOf([['one']]), {}, 'no-such-library-of-pdf')).toEqual({
    refused: 'not-installed',
    detail: '',
  })
})

it('the library is asked to run nothing, fetch nothing and print nothing', async () => {
  const telling = module(`
    export function getDocument({ isEvalSupported, useWorkerFetch, useSystemFonts, enableXfa, verbosity }) {
      console.log('printed'); console.error('printed')
      const asked = { isEvalSupported, useWorkerFetch, useSystemFonts, enableXfa, verbosity }
      const network = [typeof fetch, typeof WebSocket, Object.keys(process.env).length]
      return { promise: Promise.resolve({ numPages: 0, getMetadata: async () => ({ info: { Title: JSON.stringify([asked, network]) } }) }) }
    }`)
  const read = await textOf(pdfOf([['one']]), {}, telling)
  expect('title' in read && JSON.parse(read.title ?? '')).toEqual([
    { isEvalSupported: false, useWorkerFetch: false, useSystemFonts: false, enableXfa: false, verbosity: 0 },
    ['undefined', 'undefined', 0],
  ])
})
