import type { SiteMap } from '../reports/map-site.js'
import type { Answer, Review } from '../reports/review/review.js'
import { escapeHtml, htmlPage } from './html.js'
import { mapSvgElement } from './map-svg.js'
import { reportSection } from './report-html.js'
import { reportHtmlCss } from './report-html-css.js'
import { breakable, idOf, list, words } from './report-html-parts.js'
import { blankHtml } from './review-blank-html.js'
import { reviewHtmlCss } from './review-html-css.js'
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

/** A part of the page with its own heading. */
interface Part {
  readonly id: string
  readonly title: string
  /** Markup, its heading included. */
  readonly html: string
}

/** The packet as one page that stands alone: no script, nothing fetched, for paper, a telephone and a screen reader. */
export function reviewHtml(review: Review): string {
  const parts = partsOf(review)
  return htmlPage({
    title: `${review.title}, as of ${review.asOf}`,
    css: [reportHtmlCss(review.title), reviewHtmlCss(`as of ${review.asOf}`)].join('\n'),
    body: [
      '<a class="skip" href="#packet">Skip to the answers</a>',
      '<div class="packet">',
      headOf(review),
      contentsOf(parts),
      '<main id="packet" tabindex="-1">',
      ...parts.map(({ html }) => html),
      '</main>',
      '</div>',
    ].join('\n'),
  })
}

function partsOf(review: Review): Part[] {
  return [
    ...(review.answers.length === 0 ? [] : [section('improve', improveTitle, improvements(review))]),
    ...review.answers.map((answer) => answerPart(review, answer)),
    section('decide', blankTitle, blankHtml(review.blank)),
    ...(review.leftOut.length === 0
      ? []
      : [section('left-out', leftOutTitle, list(review.leftOut.map((one) => words(leftOutLine(one)))))]),
    section('read', cautionsTitle, cautions(review)),
    ...(review.notExamined.length === 0
      ? []
      : [section('not-examined', notExaminedTitle, list(review.notExamined.map(words)))]),
  ]
}

function section(id: string, title: string, body: string): Part {
  const html = [
    `<section class="part" id="${id}" aria-labelledby="${id}-title">`,
    `<h2 id="${id}-title">${escapeHtml(title)}</h2>`,
    body,
    '</section>',
  ].join('\n')
  return { id, title, html }
}

function headOf({ title, headline, period, asOf, facts, incomplete }: Review): string {
  return [
    '<header>',
    `<h1>${breakable(title)}</h1>`,
    `<p class="days">${period.from} to ${period.to}, as of ${asOf}</p>`,
    `<p class="headline">${words(headline)}</p>`,
    ...(incomplete
      ? [
          '<p class="incomplete">Part of what was asked for could not be examined; the end of the page says what.</p>',
        ]
      : []),
    '<dl class="facts">',
    ...facts.map(
      ({ label, value }) => `<div><dt>${escapeHtml(label)}</dt><dd>${breakable(value)}</dd></div>`,
    ),
    '</dl>',
    '<p>A dash (–) stands where there is no number or nothing is recorded. It is never a zero.</p>',
    '</header>',
  ].join('\n')
}

function contentsOf(parts: readonly Part[]): string {
  return [
    '<nav class="contents" aria-label="Contents">',
    '<ol>',
    ...parts.map(({ id, title }) => `<li><a href="#${id}">${escapeHtml(title)}</a></li>`),
    '</ol>',
    '</nav>',
  ].join('\n')
}

function improvements(review: Review): string {
  const more = morePoints(review)
  if (review.improve.length === 0) return `<p>${nothingToImprove}</p>`
  const items = review.improve.map(
    ({ says, from }) =>
      `<li>${words(capitalised(says))} <span class="from">(<a href="#${idOf(from.id)}">${escapeHtml(from.question)}</a>)</span></li>`,
  )
  return ['<ol>', ...items, '</ol>', ...(more === undefined ? [] : [`<p class="more">${more}</p>`])].join(
    '\n',
  )
}

/** The answer as the section of a report, and what stands behind it. */
function answerPart(review: Review, answer: Answer): Part {
  const id = idOf(answer.id)
  return {
    id,
    title: answer.question,
    html: [
      reportSection(answerForPeople(review, answer), { id, level: 2, showWork: false }),
      ...(answer.id === 'floor-plan' && review.map ? [planOf(review.map)] : []),
      ...behind(answer),
    ].join('\n'),
  }
}

/** The plan; the tables above tell it in words. */
function planOf(map: SiteMap): string {
  return `<div class="plan">${mapSvgElement(map, { prefix: 'plan-' })}</div>`
}

function behind(answer: Answer): string[] {
  const line = recordsLine(answer)
  if (line === undefined && answer.commands.length === 0) return []
  return [
    '<div class="behind">',
    `<p>${escapeHtml(line ?? 'All of it is told by:')}</p>`,
    list([
      ...answer.records.map(breakable),
      ...answer.commands.map((command) => `<code>${breakable(command)}</code>`),
    ]),
    '</div>',
  ]
}

function cautions(review: Review): string {
  return review.cautions
    .filter(({ says }) => says.length > 0)
    .map(({ about, says }) => `<h3>${escapeHtml(about)}</h3>\n${list(says.map(words))}`)
    .join('\n')
}

function capitalised(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`
}
