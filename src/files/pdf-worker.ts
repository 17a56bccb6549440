import { parentPort, workerData } from 'node:worker_threads'
import type { PdfBounds, PdfPage, PdfPiece, PdfRead } from './pdf-text.js'

/**
 * Takes the text out of one PDF, in a thread of its own that `pdf-text` can end at any moment. The library is an
 * optional dependency, so what is used of it is stated here and not taken from its own types.
 */
interface Library {
  getDocument(options: Readonly<Record<string, unknown>>): { readonly promise: Promise<PdfFile> }
}

interface PdfFile {
  readonly numPages: number
  getMetadata(): Promise<{ readonly info?: { readonly Title?: unknown } }>
  getPage(number: number): Promise<{
    getTextContent(): Promise<{ readonly items: readonly TextItem[] }>
    cleanup(): unknown
  }>
}

interface TextItem {
  readonly str?: string
  /** a, b, c, d, e, f: direction of the text, direction across it, and where it stands. */
  readonly transform?: readonly number[]
  readonly width?: number
}

interface Asked {
  readonly library: string
  readonly bytes: Uint8Array
  readonly bounds: PdfBounds
}

/** A file is no reason to call anyone up. The library asks for nothing when it is handed bytes; now it cannot. */
for (const name of ['fetch', 'WebSocket', 'XMLHttpRequest', 'EventSource'])
  Object.defineProperty(globalThis, name, { value: undefined, configurable: true })

parentPort?.postMessage(await textOf(workerData as Asked))

async function textOf({ library, bytes, bounds }: Asked): Promise<PdfRead> {
  let pdfjs: Library
  try {
    pdfjs = (await import(library)) as Library
  } catch (error) {
    return isNotFound(error)
      ? { refused: 'not-installed', detail: '' }
      : { refused: 'library-failed', detail: String(error) }
  }
  let file: PdfFile
  try {
    file = await pdfjs.getDocument({
      data: bytes,
      isEvalSupported: false,
      enableXfa: false,
      disableFontFace: true,
      useSystemFonts: false,
      useWorkerFetch: false,
      disableAutoFetch: true,
      isOffscreenCanvasSupported: false,
      verbosity: 0,
    }).promise
  } catch (error) {
    return nameOf(error) === 'PasswordException'
      ? { refused: 'encrypted', detail: '' }
      : { refused: 'damaged', detail: '' }
  }
  const pages: PdfPage[] = []
  let characters = 0
  for (let number = 1; number <= Math.min(file.numPages, bounds.pages); number++) {
    const page = await pageOf(file, number)
    pages.push(page)
    if ('pieces' in page) for (const { text } of page.pieces) characters += text.length
    if (characters > bounds.characters) break
  }
  const title = await titleOf(file)
  return { pages, pageCount: file.numPages, ...(title === undefined ? {} : { title }) }
}

async function pageOf(file: PdfFile, number: number): Promise<PdfPage> {
  try {
    const page = await file.getPage(number)
    const { items } = await page.getTextContent()
    page.cleanup()
    return { pieces: items.flatMap(pieceOf) }
  } catch {
    return { unreadable: true }
  }
}

/** Text may run in any direction; it is put down as if its page were turned so that it runs to the right. */
function pieceOf({ str, transform, width = 0 }: TextItem): PdfPiece[] {
  const [a = 1, b = 0, c = 0, d = 1, x = 0, y = 0] = transform ?? []
  if (str === undefined || str === '') return []
  const along = Math.hypot(a, b) || 1
  const size = Math.hypot(c, d) || along
  return [{ text: str, x: (x * a + y * b) / along, y: (y * a - x * b) / along, width, size }]
}

async function titleOf(file: PdfFile): Promise<string | undefined> {
  try {
    const title = (await file.getMetadata()).info?.Title
    return typeof title === 'string' && title.trim() !== '' ? title.trim().slice(0, 300) : undefined
  } catch {
    return undefined
  }
}

function nameOf(error: unknown): string {
  return error instanceof Error ? error.name : ''
}

function isNotFound(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND'
}
