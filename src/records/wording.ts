import { z } from 'zod'
import { about, oneOf, text } from './fields.js'
import { nearest } from './nearest.js'
import type { NoticeContent } from './use-words.js'
import { noticeContents } from './use-words.js'

/** The texts that a wording can be for. */
export const wordingFor = ['parents', 'staff', 'sign'] as const
export type WordingFor = (typeof wordingFor)[number]

/** What may stand in every part of a wording. */
export const commonBlanks = ['school', 'district'] as const

/** Matters whose words a law sets, or the district; a line for one can be those words themselves. */
export const ownWords: ReadonlySet<NoticeContent> = new Set(['warning-words', 'sensitive-persons-statement'])

const lines = z
  .strictObject(
    Object.fromEntries(
      noticeContents.map((content) => [
        content,
        text(
          ownWords.has(content)
            ? `The words themselves, or a line that holds {${content}}`
            : `A line that holds {${content}}`,
          `… {${content}}`,
        ).optional(),
      ]),
    ) as Record<NoticeContent, z.ZodOptional<z.ZodString>>,
  )
  .meta({
    description:
      'One line for each matter a rulebook can ask for; what stands in braces is filled in. A line is used only where its matter is asked',
  })

/** `wordings/<id>.yaml`: the district's own words for notices and signs, in one language. */
export const wording = z
  .strictObject({
    language: about(
      z.string().regex(/^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$/),
      'Language of the words, as a language tag (RFC 5646)',
      'es',
    ),
    for: z
      .array(oneOf(wordingFor, 'Which text'))
      .min(1)
      .meta({ description: 'For which texts: the notice to parents, the one to staff, the sign' }),
    heading: text(
      'What stands above it; {school} and {district} are filled in',
      'Aviso sobre el uso de un plaguicida',
    ).optional(),
    opening: text(
      'First words, where it is planned or was done; {school} and {district} are filled in',
      'Este es un aviso sobre el uso de un plaguicida en {school}.',
    ).optional(),
    'opening-in-emergency': text(
      'First words in an emergency; {school} and {district} are filled in',
      'Este es un aviso sobre el uso urgente de un plaguicida en {school}.',
    ).optional(),
    lines,
    closing: text(
      'Last words; {school} and {district} are filled in',
      'Guarde este aviso, por favor.',
    ).optional(),
    cautions: text(
      'In this language: the label is the law, local code governs, a licensed applicator decides, this is no permission',
      'La etiqueta del producto es la ley. Este aviso no autoriza ninguna aplicación.',
    ).optional(),
    notes: text('Anything else worth keeping').optional(),
  })
  .meta({ description: "The district's own words for notices and signs, in one language" })

/** Names in braces, in the order in which they stand. */
export function blanksIn(line: string): string[] {
  return [...line.matchAll(/\{([^{}]*)\}/g)].map((match) => match[1] ?? '')
}

/** A line with its blanks filled in once: what is put in is never looked at for blanks itself. */
export function filledIn(line: string, values: ReadonlyMap<string, string>): string {
  return line.replace(/\{([^{}]*)\}/g, (written, name: string) => values.get(name) ?? written)
}

/** What may stand in the line of a matter; in a part that is about none, only what may stand everywhere. */
export function blanksFor(content: NoticeContent | undefined): readonly string[] {
  return content === undefined ? commonBlanks : [content, ...commonBlanks]
}

/** A name in braces that is no blank there, with the one that may be meant. */
export interface UnknownBlank {
  readonly blank: string
  readonly meant: string | undefined
}

export function unknownBlanks(line: string, content: NoticeContent | undefined): UnknownBlank[] {
  const known = blanksFor(content)
  return [...new Set(blanksIn(line))]
    .filter((blank) => !known.includes(blank))
    .map((blank) => ({ blank, meant: nearest(blank, known) }))
}

/** Whether a line for a matter does not say it, so that what is asked would be left out. */
export function leavesItOut(line: string, content: NoticeContent): boolean {
  return !ownWords.has(content) && !blanksIn(line).includes(content)
}
