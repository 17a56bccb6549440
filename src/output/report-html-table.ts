import type { Plot, Table } from '../types.js'
import { escapeHtml } from './html.js'
import { drawing } from './report-html-chart.js'
import type { Place } from './report-html-parts.js'
import { breakable } from './report-html-parts.js'
import { tableBox } from './report-html-table-box.js'
import { columnsShown, leftOut, rowsShown } from './report-text.js'

/** A table of a report under its heading, with the pictures that are drawn of the whole of it. */
export function tableSection(
  table: Table,
  { id, level, showWork }: Place,
  plots: readonly { readonly plot: Plot; readonly id: string }[],
): string[] {
  const head = `<h${level} id="${id}-title">${escapeHtml(table.title)}</h${level}>`
  const drawn = plots.flatMap((one) => drawing(one.plot, one.id))
  if (table.rows.length === 0)
    return [
      `<div class="table" id="${id}">`,
      head,
      `<p class="empty">${breakable(table.empty)}</p>`,
      '</div>',
    ]
  const more = leftOut(table, showWork)
  const box = tableBox({
    caption: head,
    labelledBy: `${id}-title`,
    columns: columnsShown(table, showWork),
    rows: rowsShown(table, showWork),
  })
  return [
    `<div class="table" id="${id}">`,
    ...(drawn.length === 0 ? [box] : ['<div class="pair table-first">', box, ...drawn, '</div>']),
    ...(more === undefined ? [] : [`<p class="more">${escapeHtml(more)}</p>`]),
    '</div>',
  ]
}
