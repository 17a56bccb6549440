import type { Report } from '../types.js'
import type { Here } from './runner.js'
import { UsageError } from './usage-error.js'

/** How every report can be written. */
export const reportFormats = ['text', 'markdown', 'html', 'json', 'csv'] as const

export interface WrittenAs {
  readonly format: (typeof reportFormats)[number]
  readonly table?: string
  readonly showWork?: boolean
}

/** A report in the format asked for. */
export async function written(report: Report, flags: WrittenAs, here: Here): Promise<string> {
  const showWork = flags.showWork === true
  switch (flags.format) {
    case 'json':
      return (await import('../output/report-json.js')).reportJson(report)
    case 'csv': {
      if (flags.table !== undefined && !report.tables.some((table) => table.id === flags.table)) {
        throw new UsageError(
          `This report has no table ${flags.table}; it has ${report.tables
            .filter((table) => table.for !== 'people')
            .map((table) => table.id)
            .join(', ')}.`,
        )
      }
      return (await import('../output/report-csv.js')).reportCsv(report, flags.table)
    }
    case 'markdown':
      return (await import('../output/report-markdown.js')).reportMarkdown(report, { showWork })
    case 'html':
      return (await import('../output/report-html.js')).reportHtml(report, { showWork })
    case 'text':
      return (await import('../output/report-text.js')).reportText(report, {
        paint: here.painter,
        showWork,
        ...(here.stdout.isTTY === true && here.stdout.columns !== undefined
          ? { width: here.stdout.columns }
          : {}),
      })
  }
}
