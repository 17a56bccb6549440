import type { Answer, Review } from '../reports/review/review.js'
import { jsonText } from './clean.js'
import { reportJson } from './report-json.js'
import { answerAsReport } from './review-parts.js'

/** Version of this JSON: fields may be added, none is renamed or removed within a version. */
const formatVersion = 1

/** The packet for machines: tables and plots of an answer have the shape they have in the report they come from. */
export function reviewJson(review: Review): string {
  return jsonText({
    'format-version': formatVersion,
    report: 'review',
    title: review.title,
    headline: review.headline,
    'as-of': review.asOf,
    year: review.year,
    period: review.period,
    facts: review.facts,
    improve: review.improve,
    'more-points': review.morePoints,
    answers: review.answers.map((answer) => answerForMachines(review, answer)),
    blank: {
      file: review.blank.file,
      command: review.blank.command ?? null,
      asks: review.blank.asks,
      'of-decision': review.blank.ofDecision,
    },
    'left-out': review.leftOut,
    cautions: review.cautions,
    'not-examined': review.notExamined,
  })
}

function answerForMachines(review: Review, answer: Answer) {
  const { tables, plots } = JSON.parse(reportJson(answerAsReport(review, answer))) as {
    readonly tables: unknown
    readonly plots?: unknown
  }
  return {
    id: answer.id,
    question: answer.question,
    answer: answer.answer,
    points: answer.points,
    tables,
    plots: plots ?? [],
    'record-count': answer.recordCount,
    records: answer.records,
    commands: answer.commands,
  }
}
