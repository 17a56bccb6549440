import { workTree } from '../files/work-tree.js'
import { dayOf } from '../measure/calendar.js'
import { chartOf } from '../output/chart-of-plot.js'
import { mapSvg } from '../output/map-svg.js'
import { readMap } from '../reports/map.js'
import { trendReport } from '../reports/trend.js'

/** The pictures of the README, drawn from the example district, by their paths in the checkout at `root`. */
export function pictures(root: string): Map<string, string> {
  const source = workTree(`${root}/examples/district`)
  const options = { asOf: dayOf('2026-06-30') ?? 0, asOfIsToday: false, pest: 'german-cockroach' }
  const plots = trendReport(source, { ...options, site: 'ottermere' }).plots ?? []
  const kitchen = plots.find(({ title }) => title.includes('kitchen'))
  const chart = kitchen && chartOf(kitchen, 'catch')
  const { map } = readMap(source, options, 'ottermere')
  if (!chart || !map) throw new Error('the example district has no catch of a kitchen to draw')
  return new Map([
    ['examples/pictures/catch-over-time.svg', `${chart.svg}\n`],
    ['examples/pictures/map.svg', mapSvg(map)],
  ])
}
