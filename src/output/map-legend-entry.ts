import type { MapArea, MapDevice } from '../reports/map-site.js'
import type { Element } from './xml.js'

/** One line of the legend: a sample, drawn about a spot, and what it means. A title has no sample. */
export interface Entry {
  readonly sample?: (x: number, y: number) => readonly Element[]
  readonly text: string
  readonly isTitle?: true
}

export interface Shown {
  readonly numbered: readonly MapDevice[]
  readonly unlabelled: readonly MapDevice[]
  readonly unnamed: readonly MapArea[]
  readonly displaced: number
  /** Whether anything is drawn in boxes, not to scale. */
  readonly boxed: boolean
}

export function titled(title: string, entries: readonly Entry[]): Entry[] {
  return entries.length === 0 ? [] : [{ text: title, isTitle: true }, ...entries]
}

/** A number in a sentence, without the noise after its third digit. */
export const figure = (number: number) => String(Number(number.toPrecision(3)))
