import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { memorySource } from '../../../src/files/memory.js'
import type { Source } from '../../../src/files/source.js'
import { workTree } from '../../../src/files/work-tree.js'
import { plainPainter } from '../../../src/output/painter.js'
import { reviewHtml } from '../../../src/output/review-html.js'
import { reviewJson } from '../../../src/output/review-json.js'
import { reviewMarkdown } from '../../../src/output/review-markdown.js'
import { reviewText } from '../../../src/output/review-text.js'
import { makeReview } from '../../../src/reports/review/make-review.js'
import type { Part } from '../../../src/reports/review/private.js'
import type { Answer, Review } from '../../../src/reports/review/review.js'
import { day } from '../../ledger/small-site.js'

const exampleFolder = new URL('../../../examples/district', import.meta.url).pathname

export const example = () => workTree(exampleFolder)

/** The example with some files replaced or added. */
export function exampleWith(files: Readonly<Record<string, string>>): Source {
  const read = (under: string): [string, string | Uint8Array][] =>
    readdirSync(join(exampleFolder, under)).flatMap((name): [string, string | Uint8Array][] => {
      const path = under === '' ? name : `${under}/${name}`
      const whole = join(exampleFolder, path)
      return statSync(whole).isDirectory() ? read(path) : [[path, readFileSync(whole)]]
    })
  return memorySource(new Map([...read(''), ...Object.entries(files)]))
}

export interface Asked {
  readonly year?: string
  readonly asOf?: string
  readonly site?: string
  readonly with?: readonly Part[]
}

export function reviewIn(source: Source, asked: Asked = {}): Review {
  const made = makeOrRefuse(source, asked)
  if ('refused' in made) throw new Error(made.refused)
  return made
}

export function refusalOf(source: Source, asked: Asked): string {
  const made = makeOrRefuse(source, asked)
  if (!('refused' in made)) throw new Error('it was not refused')
  return made.refused
}

function makeOrRefuse(
  source: Source,
  { year = '2025-2026', asOf = '2026-06-30', site, with: parts = [] }: Asked,
) {
  return makeReview(source, {
    year,
    asOf: day(asOf),
    asOfIsToday: false,
    ...(site === undefined ? {} : { site }),
    withParts: new Set(parts),
    revision: 'no commit',
  })
}

export function answerIn({ answers }: Review, id: string): Answer {
  const found = answers.find((answer) => answer.id === id)
  if (!found) throw new Error(`there is no answer ${id}`)
  return found
}

export function rowsIn(answer: Answer, table: string) {
  const found = answer.tables.find(({ id }) => id === table)
  if (!found) throw new Error(`there is no table ${table}`)
  return found.rows.map(({ cells }) => cells)
}

/** All that is said of a review in any format, as one text. */
export const saidIn = (review: Review) =>
  [
    reviewHtml(review),
    reviewJson(review),
    reviewMarkdown(review),
    reviewText(review, { paint: plainPainter }),
  ].join('\n')
