import { Worker } from 'node:worker_threads'

/** A run of text as a page draws it; lengths in the page's own units, `y` upwards. */
export interface PdfPiece {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly width: number
  /** Height of the letters. */
  readonly size: number
}

export type PdfPage = { readonly pieces: readonly PdfPiece[] } | { readonly unreadable: true }

export interface PdfText {
  /** The first of its pages, as many as the bounds allow. */
  readonly pages: readonly PdfPage[]
  readonly pageCount: number
  /** What the file gives as its title, beside its pages. */
  readonly title?: string
  /** It ends before the mark that a PDF ends with, so the rest may be lost. */
  readonly cutOff?: boolean
}

export interface PdfRefusal {
  readonly refused:
    | 'empty'
    | 'not-a-pdf'
    | 'encrypted'
    | 'damaged'
    | 'too-slow'
    | 'too-much'
    | 'not-installed'
    | 'library-failed'
  readonly detail: string
}

export type PdfRead = PdfText | PdfRefusal

export interface PdfBounds {
  readonly pages: number
  readonly characters: number
  readonly seconds: number
  readonly megabytes: number
}

/** A safety data sheet is some ten pages of text; what is beyond these was made to be slow, or is no sheet. */
export const pdfBounds: PdfBounds = { pages: 200, characters: 2_000_000, seconds: 30, megabytes: 1024 }

/** Bytes of the largest PDF that is read. */
export const largestPdf = 50 * 1024 * 1024

/** What is installed to read a PDF; the name and version stand in package.json too. */
export const pdfLibrary = 'unpdf'

/** The text of a PDF, page by page. A PDF is untrusted: nothing in it runs, and reading it ends within the bounds. */
export async function readPdf(
  bytes: Uint8Array,
  bounds: PdfBounds = pdfBounds,
  library = `${pdfLibrary}/pdfjs`,
): Promise<PdfRead> {
  if (bytes.length === 0) return { refused: 'empty', detail: 'is empty' }
  const beginning = latin(bytes.subarray(0, 1024))
  // ISO 32000-1, annex H, note 13: readers take a header that stands anywhere in the first 1024 bytes (from memory).
  if (!beginning.includes('%PDF-')) {
    const isPage = /<(?:!doctype html|html|head|body)\b/i.test(beginning)
    return { refused: 'not-a-pdf', detail: `is not a PDF${isPage ? ', but a web page' : ''}` }
  }
  const read = await inThread(bytes, bounds, library)
  if ('refused' in read) return { ...read, detail: detailOf(read, bounds) }
  // The same note: the mark is looked for in the last 1024 bytes.
  return latin(bytes.subarray(-1024)).includes('%%EOF') ? read : { ...read, cutOff: true }
}

function latin(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('latin1')
}

function detailOf({ refused, detail }: PdfRefusal, { seconds, megabytes }: PdfBounds): string {
  switch (refused) {
    case 'encrypted':
      return 'is encrypted and asks for a password'
    case 'damaged':
      return 'is damaged: it cannot be opened as a PDF'
    case 'too-slow':
      return `could not be read within ${seconds} seconds`
    case 'too-much':
      return `takes more than ${megabytes} MB of memory to read`
    case 'library-failed':
      return `could not be read: ${detail.split('\n')[0]?.slice(0, 200)}`
    default:
      return detail
  }
}

/**
 * The built worker, for the program and for tests that run the sources alike: node 20 starts no thread from a
 * TypeScript file.
 */
const worker = new URL('../../dist/files/pdf-worker.js', import.meta.url)

function inThread(bytes: Uint8Array, bounds: PdfBounds, library: string): Promise<PdfRead> {
  return new Promise((resolve) => {
    const thread = new Worker(worker, {
      workerData: { library, bytes: new Uint8Array(bytes), bounds },
      argv: [],
      execArgv: [],
      env: {},
      // What the library prints is not for the reader of a report.
      stdout: true,
      stderr: true,
      resourceLimits: { maxOldGenerationSizeMb: bounds.megabytes },
    })
    const before = process.memoryUsage().rss
    const end = (read: PdfRead) => {
      clearTimeout(timer)
      clearInterval(watch)
      void thread.terminate()
      resolve(read)
    }
    const timer = setTimeout(() => end({ refused: 'too-slow', detail: '' }), bounds.seconds * 1000)
    // Buffers, where a page that unpacks to a gigabyte goes, are outside the limits of a thread.
    const watch = setInterval(() => {
      if (process.memoryUsage().rss - before > bounds.megabytes * 1024 * 1024)
        end({ refused: 'too-much', detail: '' })
    }, 50)
    thread.once('message', (read: PdfRead) => end(read))
    thread.once('error', (error) =>
      end({ refused: isMemory(error) ? 'too-much' : 'library-failed', detail: String(error) }),
    )
    thread.once('exit', () => end({ refused: 'library-failed', detail: 'its thread ended early' }))
  })
}

function isMemory(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY'
}
