import type { RecordOf } from '../../records/kinds.js'
import type { NoticeContent } from '../../records/use-words.js'
import { noticeContents } from '../../records/use-words.js'
import type { KeyPath } from '../../types.js'

/** One text of a wording: the line for a matter, or a part that is about none. */
export interface WordingPart {
  readonly path: KeyPath
  readonly text: string
  readonly content: NoticeContent | undefined
}

const parts = ['heading', 'opening', 'opening-in-emergency', 'closing', 'cautions'] as const

export function wordingParts(data: RecordOf<'wording'>): WordingPart[] {
  return [
    ...parts.flatMap((key) => partOf([key], data[key], undefined)),
    ...noticeContents.flatMap((content) => partOf(['lines', content], data.lines[content], content)),
  ]
}

function partOf(path: KeyPath, text: string | undefined, content: NoticeContent | undefined): WordingPart[] {
  return text === undefined ? [] : [{ path, text, content }]
}

/** The ledger of the examples: a district with words of its own, of which some lines are given. */
export const wordingWith = (lines: string) => `
=== wordings/aviso.yaml
language: es
for: [parents, staff]
heading: Aviso
lines:
  date: "Fecha: {date}"
  ${lines}
`
