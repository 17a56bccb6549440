import { deflateSync } from 'node:zlib'

/**
 * Writes small PDFs as ISO 32000-1 has them (from memory): a header, numbered objects, a table of where each begins,
 * a trailer. No product of it is anyone's real sheet.
 */
export interface PdfOptions {
  readonly packed?: boolean
  readonly title?: string
  /** Turns the pages: 90, 180 or 270 degrees. */
  readonly rotate?: number
}

/** A line of text at a place of its page; points from the lower left corner. */
export interface Put {
  readonly x: number
  readonly y: number
  readonly text: string
  readonly size?: number
}

/** A page: lines from the top down, lines at places, or nothing but a picture as a scanner makes it. */
export type Page = readonly (string | Put)[] | 'picture'

export function pdfOf(pages: readonly Page[], { packed = false, title, rotate }: PdfOptions = {}): Buffer {
  const objects: Buffer[] = []
  const add = (object: string | Buffer) => objects.push(Buffer.from(object))
  const kids = pages.map((_, at) => `${5 + at * 2} 0 R`).join(' ')
  add('<< /Type /Catalog /Pages 2 0 R >>')
  add(`<< /Type /Pages /Kids [${kids}] /Count ${pages.length} >>`)
  add('<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>')
  add(streamOf(Buffer.from([0, 255, 255, 0]), picture, packed))
  pages.forEach((page, at) => {
    const turned = rotate === undefined ? '' : `/Rotate ${rotate} `
    add(
      `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] ${turned}/Resources << /Font << /F1 3 0 R >> /XObject << /I1 4 0 R >> >> /Contents ${6 + at * 2} 0 R >>`,
    )
    add(streamOf(Buffer.from(contentOf(page), 'latin1'), '', packed))
  })
  if (title !== undefined) add(`<< /Title (${escaped(title)}) >>`)
  return fileOf(objects, title === undefined ? '' : ` /Info ${objects.length} 0 R`)
}

const picture =
  '/Type /XObject /Subtype /Image /Width 2 /Height 2 /ColorSpace /DeviceGray /BitsPerComponent 8 '

/** Objects, each at the place that the table gives. */
export function fileOf(objects: readonly Buffer[], trailer = ''): Buffer {
  const parts = [Buffer.from('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n', 'latin1')]
  const starts: number[] = []
  let at = parts[0]?.length ?? 0
  objects.forEach((object, index) => {
    const part = Buffer.concat([Buffer.from(`${index + 1} 0 obj\n`), object, Buffer.from('\nendobj\n')])
    starts.push(at)
    parts.push(part)
    at += part.length
  })
  const table = starts.map((start) => `${String(start).padStart(10, '0')} 00000 n \n`).join('')
  parts.push(
    Buffer.from(
      `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${table}trailer\n<< /Size ${objects.length + 1} /Root 1 0 R${trailer} >>\nstartxref\n${at}\n%%EOF\n`,
    ),
  )
  return Buffer.concat(parts)
}

export function streamOf(content: Buffer, entries = '', packed = false): Buffer {
  const data = packed ? deflateSync(content) : content
  const filter = packed ? '/Filter /FlateDecode ' : ''
  return Buffer.concat([
    Buffer.from(`<< ${entries}${filter}/Length ${data.length} >>\nstream\n`),
    data,
    Buffer.from('\nendstream'),
  ])
}

function contentOf(page: Page): string {
  if (page === 'picture') return 'q 612 0 0 792 0 0 cm /I1 Do Q'
  let y = 750
  return page
    .map((line) => {
      const put = typeof line === 'string' ? { x: 50, y, text: line } : line
      y = put.y - 15
      return `BT /F1 ${put.size ?? 10} Tf 1 0 0 1 ${put.x} ${put.y} Tm (${escaped(put.text)}) Tj ET`
    })
    .join('\n')
}

function escaped(text: string): string {
  return text.replace(/[\\()]/g, '\\$&')
}
