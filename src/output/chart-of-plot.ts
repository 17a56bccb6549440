import type { Plot } from '../types.js'
import { barChart } from './chart-bars.js'
import type { Drawn } from './chart-drawn.js'
import { lineChart } from './chart-line.js'

/** A plot as SVG. Every id in it begins with the one given. Undefined where there is nothing to draw. */
export function chartOf(plot: Plot, id: string): Drawn | undefined {
  return plot.bars === undefined ? lineChart(plot, id) : barChart(plot, plot.bars, id)
}
