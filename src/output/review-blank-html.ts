import type { Blank } from '../reports/review/review.js'
import { escapeHtml } from './html.js'
import { breakable, words } from './report-html-parts.js'

/** Decisions that a page has room for; a meeting makes some three to five. */
const rows = 6

/** Lines to write this year's decisions on, in the words and the order of the record. */
export function blankHtml({ command, says, asks, ofDecision }: Blank): string {
  return [
    ...(command === undefined
      ? []
      : [
          `<p>What is written here becomes a record:</p>`,
          `<p class="command"><code>${breakable(command)}</code></p>`,
        ]),
    `<p>${words(says)}</p>`,
    '<dl class="asks">',
    ...asks.map(({ says: ask }) => `<div><dt>${escapeHtml(ask)}</dt><dd class="line">${unseen}</dd></div>`),
    '</dl>',
    '<table class="blank">',
    '<caption>What was decided</caption>',
    `<thead><tr><th scope="col">No.</th>${ofDecision.map((ask) => `<th scope="col">${escapeHtml(ask.says)}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...Array.from(
      { length: rows },
      (_, at) =>
        `<tr><th scope="row">${at + 1}</th>${ofDecision.map((ask) => `<td data-head="${escapeHtml(ask.says)}">${unseen}</td>`).join('')}</tr>`,
    ),
    '</tbody>',
    '</table>',
  ].join('\n')
}

/** For whoever hears the page: an empty cell would be passed over in silence. */
const unseen = '<span class="unseen">to fill in</span>'
