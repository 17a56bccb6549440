import type { Plot, Report } from '../types.js'
import { escapeHtml, htmlPage } from './html.js'
import { figureOf } from './report-html-chart.js'
import { reportHtmlCss } from './report-html-css.js'
import type { Headings, Place } from './report-html-parts.js'
import { idOf, list, words } from './report-html-parts.js'
import { tableSection } from './report-html-table.js'
import { pasteLines, subtitle, tablesShown } from './report-text.js'

export interface HtmlOptions {
  /** Also the columns and records behind each row. */
  readonly showWork: boolean
}

export interface SectionOptions extends HtmlOptions {
  /** Begins every id in the section, so each section of a page needs its own. Letters, digits and hyphens. */
  readonly id: string
  /** Level of its title; what it holds is one level below. */
  readonly level: Headings
}

/** A report as a page that stands alone: it reads on a telephone, prints on A4 and Letter, and fetches nothing. */
export function reportHtml(report: Report, { showWork }: HtmlOptions): string {
  const title = `${report.title}, as of ${report.asOf}`
  return htmlPage({
    title,
    css: reportHtmlCss(title),
    body: `<main>\n${reportSection(report, { showWork, id: 'report', level: 1 })}\n</main>`,
  })
}

/** The same without a page around it, to stand with others in one; the style sheet is `reportHtmlCss`. */
export function reportSection(report: Report, { id, level, showWork }: SectionOptions): string {
  const place: Place = { id: idOf(id), level: level === 1 ? 2 : level === 2 ? 3 : 4, showWork }
  const tables = tablesShown(report, showWork)
  const plots = (report.plots ?? []).map((plot, at) => ({ plot, id: `${place.id}-chart-${at + 1}` }))
  // A picture of a whole table stands with it; any other has its own numbers, and comes after the tables.
  const isWith = (plot: Plot, table: string) => plot.table?.id === table && plot.table.rows === undefined
  const apart = plots.filter(({ plot }) => !tables.some((table) => isWith(plot, table.id)))
  return [
    `<article class="report" id="${place.id}" aria-labelledby="${place.id}-title">`,
    `<h${level} id="${place.id}-title">${escapeHtml(report.title)}</h${level}>`,
    `<p class="when">${escapeHtml(subtitle(report))}</p>`,
    `<p class="headline">${words(report.headline)}</p>`,
    ...(report.incomplete
      ? [
          `<p class="incomplete">Part of what was asked for could not be examined: see <a href="#${place.id}-not-examined">not examined</a>.</p>`,
        ]
      : []),
    ...facts(report),
    ...contents(report, place, tables.length, apart),
    ...tables.flatMap((table, at) =>
      tableSection(
        table,
        { ...place, id: `${place.id}-table-${at + 1}` },
        plots.filter(({ plot }) => isWith(plot, table.id)),
      ),
    ),
    ...apart.flatMap((one) => figureOf(report, one.plot, { ...place, id: one.id })),
    ...lines('To read this rightly', 'cautions', report.cautions, place),
    ...lines('Not examined', 'not-examined', notExamined(report), place),
    ...paste(report, place),
    `<p class="dashes">A dash (–) stands where there is no number or nothing is recorded. It is never a zero.</p>`,
    '</article>',
  ].join('\n')
}

/** What makes a report incomplete is listed; were it not, that would have to be said. */
function notExamined({ notExamined: told, incomplete }: Report): readonly string[] {
  return incomplete && told.length === 0
    ? ['Part of what was asked for; the report does not say which.']
    : told
}

function facts(report: Report): string[] {
  if (report.facts.length === 0) return []
  const pairs = report.facts.map(
    ({ label, value }) => `<div><dt>${escapeHtml(label)}</dt><dd>${words(value)}</dd></div>`,
  )
  return ['<dl class="facts">', ...pairs, '</dl>']
}

/** On a long page of its own, where to find what; a part of another page has none. */
function contents(
  report: Report,
  { id, level, showWork }: Place,
  tables: number,
  apart: readonly { readonly plot: Plot; readonly id: string }[],
): string[] {
  if (level !== 2 || tables + apart.length < 5) return []
  const links = [
    ...tablesShown(report, showWork).map(({ title }, at) => [`${id}-table-${at + 1}`, title] as const),
    ...apart.map((one) => [one.id, one.plot.title] as const),
    ...(report.cautions.length > 0 ? [[`${id}-cautions`, 'To read this rightly'] as const] : []),
    ...(notExamined(report).length > 0 ? [[`${id}-not-examined`, 'Not examined'] as const] : []),
  ]
  return [
    '<nav aria-label="On this page">',
    list(links.map(([to, says]) => `<a href="#${to}">${escapeHtml(says)}</a>`)),
    '</nav>',
  ]
}

function lines(title: string, name: string, said: readonly string[], { id, level }: Place): string[] {
  if (said.length === 0) return []
  return [
    `<section class="${name}" id="${id}-${name}" aria-labelledby="${id}-${name}-title">`,
    `<h${level} id="${id}-${name}-title">${title}</h${level}>`,
    list(said.map(words)),
    '</section>',
  ]
}

function paste({ paste: told }: Report, { id, level }: Place): string[] {
  if (!told) return []
  return [
    `<section class="paste" id="${id}-paste" aria-labelledby="${id}-paste-title">`,
    `<h${level} id="${id}-paste-title">${escapeHtml(told.title)}</h${level}>`,
    `<pre>${pasteLines(told).map(escapeHtml).join('\n')}</pre>`,
    '</section>',
  ]
}
