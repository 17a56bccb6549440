import type { Answer, Review } from '../reports/review/review.js'
import { escaped, reportMarkdown } from './report-markdown.js'
import { subtitle } from './report-text.js'
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

/** The packet as Markdown. Text from records is escaped, so that it stays text. */
export function reviewMarkdown(review: Review): string {
  const more = morePoints(review)
  const list = (lines: readonly string[]) => lines.map((line) => `- ${escaped(line)}`)
  const section = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : [`## ${title}`, '', ...lines, '']
  const lines = [
    `# ${escaped(review.title)}`,
    '',
    `${review.period.from} to ${review.period.to}, as of ${review.asOf}`,
    '',
    `**${escaped(review.headline)}**`,
    '',
    ...review.facts.map(({ label, value }) => `- ${label}: ${escaped(value)}`),
    '',
    ...(review.answers.length === 0
      ? []
      : section(improveTitle, [
          ...(review.improve.length === 0
            ? [nothingToImprove]
            : list(review.improve.map(({ says, from }) => `${says} (${from.question})`))),
          ...(more === undefined ? [] : ['', more]),
        ])),
    ...review.answers.flatMap((answer) => answerLines(review, answer)),
    ...section(blankTitle, blankLines(review)),
    ...section(leftOutTitle, list(review.leftOut.map(leftOutLine))),
    ...section(
      cautionsTitle,
      review.cautions.flatMap(({ about, says }) =>
        says.length === 0 ? [] : [`### ${escaped(about)}`, '', ...list(says), ''],
      ),
    ),
    ...section(notExaminedTitle, list(review.notExamined)),
  ]
  return `${lines.join('\n').trimEnd()}\n`
}

/** One level below the page. Only headings begin with the mark: text of records has it escaped. */
function answerLines(review: Review, answer: Answer): string[] {
  const report = answerForPeople(review, answer)
  const under = subtitle(report)
  const records = recordsLine(answer)
  return [
    ...reportMarkdown(report, { showWork: false })
      .trimEnd()
      .split('\n')
      .filter((line) => line !== under)
      .map((line) => (line.startsWith('#') ? `#${line}` : line)),
    '',
    ...(records === undefined ? [] : [records, '']),
    ...[...answer.records.map(escaped), ...answer.commands.map((command) => `\`${command}\``)].map(
      (line) => `- ${line}`,
    ),
    '',
  ]
}

/** Lines to fill in, in the words of the record. */
function blankLines({ blank }: Review): string[] {
  const empty = blank.ofDecision.map(() => ' ').join(' | ')
  return [
    ...(blank.command === undefined ? [] : [`\`${blank.command}\``, '']),
    escaped(blank.says),
    '',
    ...blank.asks.map(({ says }) => `- ${says}:`),
    '',
    `| ${blank.ofDecision.map(({ says }) => says).join(' | ')} |`,
    `| ${blank.ofDecision.map(() => '---').join(' | ')} |`,
    ...Array.from({ length: 3 }, () => `| ${empty} |`),
  ]
}
