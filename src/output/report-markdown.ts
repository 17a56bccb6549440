import type { Report } from '../types.js'
import { clean } from './clean.js'
import { plotText } from './plot-text.js'
import {
  cellText,
  columnsShown,
  heading,
  leftOut,
  pasteLines,
  recordsColumn,
  rowsShown,
  subtitle,
  tablesShown,
} from './report-text.js'

/** A report as Markdown, for a page or a message. Text from records is escaped, so that it stays text. */
export function reportMarkdown(report: Report, { showWork }: { readonly showWork: boolean }): string {
  const lines = [
    `# ${escaped(report.title)}`,
    '',
    `${subtitle(report)}`,
    '',
    `**${escaped(report.headline)}**`,
    '',
  ]
  for (const { label, value } of report.facts) lines.push(`- ${label}: ${escaped(value)}`)
  if (report.facts.length > 0) lines.push('')
  for (const table of tablesShown(report, showWork)) {
    lines.push(`## ${table.title}`, '')
    if (table.rows.length === 0) lines.push(table.empty, '')
    else {
      const columns = columnsShown(table, showWork)
      lines.push(`| ${columns.map(heading).join(' | ')} |`)
      lines.push(
        `| ${columns.map((column) => (column.decimals === undefined ? '---' : '---:')).join(' | ')} |`,
      )
      for (const row of rowsShown(table, showWork)) {
        lines.push(
          `| ${columns.map((column) => (column.id === recordsColumn ? row.records.map(escaped).join('<br>') : escaped(cellText(row.cells[column.id], column)))).join(' | ')} |`,
        )
      }
      const more = leftOut(table, showWork)
      lines.push('', ...(more === undefined ? [] : [more, '']))
    }
  }
  for (const plot of report.plots ?? []) lines.push(...indentedCode(plotText(plot)), '')
  for (const caution of report.cautions) lines.push(`- ${caution}`)
  for (const line of report.notExamined) lines.push(`- Not examined: ${escaped(line)}`)
  if (report.paste)
    lines.push('', `## ${escaped(report.paste.title)}`, '', ...indentedCode(pasteLines(report.paste)))
  return `${lines.join('\n').trimEnd()}\n`
}

/** Four blanks make text of it, whatever marks it holds. */
function indentedCode(lines: readonly string[]): string[] {
  return lines.map((line) => (line === '' ? '' : `    ${line}`))
}

/** Text that stays text in Markdown. */
export function escaped(text: string): string {
  return clean(text.replace(/[\r\n]+/g, ' ')).replace(/[\\`*_[\]|~<>&#]/g, (mark) => `\\${mark}`)
}
