import type { Column, Plot, Report, Row, Table } from '../types.js'
import type { LegendItem } from './chart-drawn.js'
import { isWhole } from './chart-numbers.js'
import { chartOf } from './chart-of-plot.js'
import { escapeHtml } from './html.js'
import type { Place } from './report-html-parts.js'
import { breakable } from './report-html-parts.js'
import { tableBox } from './report-html-table-box.js'
import { columnsShown } from './report-text.js'

/** A picture under its heading, with the numbers that it is drawn from beside it. */
export function figureOf(report: Report, plot: Plot, { id, level }: Place): string[] {
  const { columns, rows } = numbersOf(report, plot)
  return [
    `<figure class="chart" id="${id}" aria-labelledby="${id}-name">`,
    `<figcaption><h${level} id="${id}-name">${escapeHtml(nameOf(plot))}</h${level}></figcaption>`,
    '<div class="pair">',
    ...drawingAlone(plot, id),
    ...(rows.length === 0
      ? ['<p class="empty">There are no numbers to show.</p>']
      : [
          tableBox({
            caption: `<span id="${id}-numbers">The numbers of this picture</span>`,
            labelledBy: `${id}-numbers ${id}-name`,
            columns,
            rows,
          }),
        ]),
    '</div>',
    '</figure>',
  ]
}

/** A picture that stands with its table, under the heading of that. */
export function drawing(plot: Plot, id: string): string[] {
  return [
    `<figure class="chart" aria-labelledby="${id}-name">`,
    `<figcaption id="${id}-name">${escapeHtml(nameOf(plot))}</figcaption>`,
    ...drawingAlone(plot, id),
    '</figure>',
  ]
}

function nameOf({ title, unit }: Plot): string {
  return `${title} (${unit})`
}

function drawingAlone(plot: Plot, id: string): string[] {
  const drawn = chartOf(plot, id)
  if (!drawn) return ['<p class="empty">There is nothing to draw.</p>']
  return [
    '<div class="drawn">',
    drawn.svg,
    '<ul class="legend">',
    ...drawn.legend.map(legendItem),
    '</ul>',
    '</div>',
  ]
}

function legendItem({ icon, says }: LegendItem): string {
  return `<li><svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">${icon}</svg><span>${breakable(says)}</span></li>`
}

type Numbers = Pick<Table, 'columns' | 'rows'>

/** The rows of the table that the plot names, without the cells that are the same in all; else what it holds itself. */
function numbersOf(
  report: Report,
  plot: Plot,
): { readonly columns: readonly Column[]; readonly rows: readonly Row[] } {
  const named = report.tables.find(({ id }) => id === plot.table?.id)
  const wanted = Object.entries(plot.table?.rows ?? {})
  const rows = named?.rows.filter(({ cells }) => wanted.every(([id, cell]) => cells[id] === cell)) ?? []
  if (!named || rows.length === 0) return plot.bars === undefined ? pointsOf(plot) : barsOf(plot.bars)
  const same = new Set(wanted.map(([id]) => id))
  return { columns: columnsShown(named, false).filter(({ id }) => !same.has(id)), rows }
}

function pointsOf({ points }: Plot): Numbers {
  const numbers = points.flatMap(({ value, low, high }) => [value ?? 0, low ?? 0, high ?? 0])
  const decimals = numbers.filter(Number.isFinite).every(isWhole) ? 0 : 2
  const hasInterval = points.some(({ low, high }) => low !== undefined || high !== undefined)
  return {
    columns: [
      { id: 'day', title: 'day' },
      { id: 'value', title: 'value', decimals },
      ...(hasInterval
        ? [
            { id: 'low', title: 'at least', decimals },
            { id: 'high', title: 'at most', decimals },
          ]
        : []),
    ],
    rows: points.map(({ day, value, low, high }) => ({
      cells: { day, value, low: low ?? null, high: high ?? null },
      records: [],
    })),
  }
}

function barsOf({ by, parts, rows }: NonNullable<Plot['bars']>): Numbers {
  const whole = rows.every(({ values }) => values.every((value) => value === null || isWhole(value)))
  const decimals = whole ? 0 : 2
  return {
    columns: [
      { id: 'name', title: by },
      ...parts.map((title, at) => ({ id: `part-${at}`, title, decimals })),
    ],
    rows: rows.map(({ name, values }) => ({
      cells: {
        name,
        ...Object.fromEntries(parts.map((_, at) => [`part-${at}`, values[at] ?? null])),
      },
      records: [],
    })),
  }
}
