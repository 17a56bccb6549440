import type { PdfLine } from '../files/pdf-lines.js'
import { normalRegistration } from '../measure/registration-number.js'

/** What a sheet calls itself: `SAFETY DATA SHEET`, as written. */
export function titleOn(lines: readonly PdfLine[]): string | undefined {
  for (const { text } of lines) {
    const found = /\b(?:material )?safety data sheets?\b/i.exec(text.replace(/\s+/g, ' '))
    if (found) return found[0]
  }
  return undefined
}

/** Words before the name of a product, the surest first; bare `Product` only with a colon or in a cell of its own. */
const nameLabels: readonly RegExp[] = [
  /^(?:product|trade|brand|commercial) ?names?(?: \/ ?\w+)?\b/i,
  /^name of (?:the )?(?:product|substance|mixture)\b/i,
  /^(?:ghs )?product identifiers?\b/i,
  /^product(?=\s*:| {2})/i,
]

/** The product identifier of section 1 (29 CFR 1910.1200, Appendix D, Table D.1, 1(a)), as it is printed. */
export function productNameOn(lines: readonly PdfLine[]): string | undefined {
  for (const label of nameLabels) {
    for (const [at, line] of lines.entries()) {
      const text = line.text.replace(/^1 ?\. ?1\.? *[-:]? */, '').trim()
      const found = label.exec(text)
      if (!found) continue
      const value = firstCell(text.slice(found[0].length))
      if (value !== '') return value
      const below = lines[at + 1]
      const name = below?.page === line.page ? firstCell(below.text) : ''
      if (name !== '' && !isLabel(name)) return name
    }
  }
  return undefined
}

function firstCell(text: string): string {
  const [cell = ''] = text.replace(/^[\s:.\-–—|]+/, '').split(/\s{2,}/)
  return cell.trim().slice(0, 120)
}

function isLabel(text: string): boolean {
  return (
    nameLabels.some((label) => label.test(text)) || /:$|^\d{1,2}\.\d|^(?:section )?\d{1,2}[.:]/i.test(text)
  )
}

/** EPA registration numbers printed on a sheet, in the one way of writing them that compares. */
export function registrationsOn(lines: readonly PdfLine[]): string[] {
  const number =
    /\bEPA[\s.]*Reg(?:istration|\.)?[\s.]*(?:No|Number|#)?[\s.:#]*(\d{1,7} ?- ?\d{1,5}(?: ?- ?\d{1,7})?)/gi
  const found = lines.flatMap(({ text }) =>
    [
      ...text
        .normalize('NFKC')
        .replace(/[\u2010-\u2015\u2212]/g, '-')
        .matchAll(number),
    ].flatMap((match) => normalRegistration((match[1] ?? '').replaceAll(' ', '')) ?? []),
  )
  return [...new Set(found)]
}
