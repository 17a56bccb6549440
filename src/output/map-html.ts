import type { SiteMap } from '../reports/map-site.js'
import type { Report } from '../types.js'
import { htmlPage } from './html.js'
import { mapSvgElement } from './map-svg.js'
import type { HtmlOptions } from './report-html.js'
import { reportSection } from './report-html.js'
import { reportHtmlCss } from './report-html-css.js'

/** A page that stands alone: the picture, then its tables, which are its text alternative. */
export function mapHtml(map: SiteMap, report: Report, { showWork }: HtmlOptions): string {
  const title = `${report.title}, as of ${report.asOf}`
  const picture = mapSvgElement(withoutDrawing(map), { prefix: 'map-' })
  return htmlPage({
    title,
    css: reportHtmlCss(title),
    body: `<main>\n${picture}${reportSection(report, { showWork, id: 'report', level: 1 })}\n</main>`,
  })
}

/** Pages of this program tell the browser to show no image at all, so that none can be fetched. */
function withoutDrawing(map: SiteMap): SiteMap {
  if (map.drawing.is !== 'drawn') return map
  return {
    ...map,
    drawing: { is: 'left out', file: map.drawing.file, why: 'a page shows no image; --format svg does' },
  }
}
