import type { Answer, Review } from '../reports/review/review.js'
import { clean } from './clean.js'
import type { TextOptions } from './report-text.js'
import { reportText, subtitle } from './report-text.js'
import {
  answerForPeople,
  blankTitle,
  cautionsTitle,
  improveTitle,
  leftOutLine,
  leftOutTitle,
  morePoints,
  notExaminedTitle,
  nothingToImprove,
  recordsLine,
} from './review-parts.js'
import { wrapped } from './wrapped.js'

/** The packet for a terminal. */
export function reviewText(review: Review, options: Pick<TextOptions, 'paint' | 'width'>): string {
  const { paint, width } = options
  const heading = (text: string) => wrapped(clean(text), width).map((line) => paint.strong(line))
  const list = (lines: readonly string[]) =>
    lines.flatMap((line) => wrapped(`  * ${clean(line)}`, width, '    '))
  const more = morePoints(review)
  const lines = [
    ...heading(review.title),
    `${review.period.from} to ${review.period.to}, as of ${review.asOf}`,
    '',
    ...wrapped(clean(review.headline), width),
    '',
    ...review.facts.flatMap(({ label, value }) => wrapped(`  ${label}: ${clean(value)}`, width, '    ')),
    '',
    ...(review.answers.length === 0
      ? []
      : [
          ...heading(improveTitle),
          ...(review.improve.length === 0
            ? [`  ${nothingToImprove}`]
            : list(review.improve.map(({ says, from }) => `${says} (${from.question})`))),
          ...(more === undefined ? [] : [`  ${more}`]),
          '',
        ]),
    ...review.answers.flatMap((answer) => answerLines(review, answer, options)),
    ...heading(blankTitle),
    ...blankLines(review).flatMap((line) => wrapped(clean(line), width, '    ')),
    '',
    ...(review.leftOut.length === 0
      ? []
      : [...heading(leftOutTitle), ...list(review.leftOut.map(leftOutLine)), '']),
    ...heading(cautionsTitle),
    ...review.cautions.flatMap(({ about, says }) =>
      says.length === 0 ? [] : [`  ${clean(about)}`, ...list(says).map((line) => paint.faint(line))],
    ),
    ...(review.notExamined.length === 0
      ? []
      : ['', ...heading(notExaminedTitle), ...list(review.notExamined)]),
  ]
  return `${lines.join('\n').trimEnd()}\n`
}

function answerLines(
  review: Review,
  answer: Answer,
  { paint, width }: Pick<TextOptions, 'paint' | 'width'>,
): string[] {
  const report = answerForPeople(review, answer)
  const under = subtitle(report)
  const text = reportText(report, { paint, showWork: false, ...(width === undefined ? {} : { width }) })
  const records = recordsLine(answer)
  return [
    ...text
      .trimEnd()
      .split('\n')
      .filter((line) => line !== under),
    ...(records === undefined ? [] : ['', ...wrapped(`  ${records}`, width, '  ')]),
    ...[...answer.records, ...answer.commands].map((line) => `    ${clean(line)}`),
    '',
  ]
}

function blankLines({ blank }: Review): string[] {
  const ofDecision = blank.ofDecision.map(({ says }) => says).join(', ')
  return [
    ...(blank.command === undefined ? [] : [`  ${blank.command}`]),
    `  ${blank.says}`,
    `  It asks: ${blank.asks.map(({ says }) => says).join(', ')}; of each decision: ${ofDecision}.`,
  ]
}
