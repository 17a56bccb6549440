import type { Plot, Table } from '../../types.js'
import type { SiteMap } from '../map-site.js'
import type { Part } from './private.js'

/** One question of the yearly meeting, answered from the records. */
export interface Answer {
  /** Short name: an anchor in a page, a key for machines. */
  readonly id: string
  readonly question: string
  /** One plain sentence, with its figure. */
  readonly answer: string
  readonly tables: readonly Table[]
  readonly plots: readonly Plot[]
  /** How many records stand behind the tables; which ones is told only where names are asked for. */
  readonly recordCount: number
  readonly records: readonly string[]
  /** What to type to see all of it, with the work behind each number. None where no report tells it. */
  readonly commands: readonly string[]
  /** What could be better next year, each with its figure. */
  readonly points: readonly Point[]
}

export interface Point {
  readonly says: string
  /** 1: asked by law, or decided and not done. 2: missing or late. 3: could be better. */
  readonly rank: 1 | 2 | 3
}

/** A point of the meeting, tied to the answer that holds its figure. */
export interface Improvement extends Point {
  readonly from: Pick<Answer, 'id' | 'question'>
}

/** The lines to write this year's decisions on, and how they become a record. */
export interface Blank {
  /** `reviews/2026.yaml` */
  readonly file: string
  /** What to type to get the record to fill in; none where there is one. */
  readonly command: string | undefined
  /** What to do with the command, or why there is none. */
  readonly says: string
  /** Above the lines, in the words and the order of the record. */
  readonly asks: readonly BlankAsk[]
  /** Columns of a decision, likewise. */
  readonly ofDecision: readonly BlankAsk[]
}

export interface BlankAsk {
  /** Key of the record. */
  readonly key: string
  readonly says: string
}

/** The packet for the yearly meeting, as data. */
export interface Review {
  readonly title: string
  readonly headline: string
  readonly asOf: string
  /** Name of the school year or calendar year. */
  readonly year: string
  /** Both days counted. `to` may lie after the as-of day; then the year is told up to that. */
  readonly period: { readonly from: string; readonly to: string }
  readonly facts: readonly { readonly label: string; readonly value: string }[]
  readonly improve: readonly Improvement[]
  /** How many more points there are than `improve` lists. */
  readonly morePoints: number
  readonly answers: readonly Answer[]
  readonly blank: Blank
  /** The plan of the one site, where floor plans are asked for; it belongs to the answer `floor-plan`. */
  readonly map?: SiteMap
  /** What was left out because the page may be published, and the word that puts it in. */
  readonly leftOut: readonly { readonly part: Part; readonly says: string }[]
  /** What the reader must know to read the numbers rightly, by what it is about. */
  readonly cautions: readonly { readonly about: string; readonly says: readonly string[] }[]
  readonly notExamined: readonly string[]
  /** True when part of what was asked for could not be read; the exit code is then 2. */
  readonly incomplete: boolean
}
