/** What every floor of the house speaks. Imports nothing. */

/** Whole days since 1970-01-01 in the district's own calendar. */
export type Day = number

/** The levels of SARIF: an error is broken or unlawful, a warning a gap, a note worth a look. */
export type Level = 'error' | 'warning' | 'note'

export const levels: readonly Level[] = ['error', 'warning', 'note']

/** Keys and list positions from the top of a record. */
export type KeyPath = readonly (string | number)[]

/** Where something is said: a file of the ledger and a key path in it. Never a line: lines are found last. */
export interface Place {
  /** Path of the file from the root of the ledger, with forward slashes. */
  readonly file: string
  readonly path: KeyPath
  /** Point at the key itself rather than at its value. */
  readonly onKey?: boolean
  /** Start and end offset in the text, for a file that has no key paths because it could not be read. */
  readonly span?: readonly [number, number]
}

export interface RelatedPlace {
  readonly place: Place
  readonly says: string
}

/** A law, a standard, a published figure, or the common practice of the trade, which has no source. */
export interface Citation {
  readonly kind: 'law' | 'standard' | 'published' | 'practice' | 'plan' | 'contract' | 'program'
  readonly text: string
}

export type ArgValue = string | number | boolean | readonly string[]
export type Args = Readonly<Record<string, ArgValue>>

/** Something the records show, or fail to show, as data. The sentence is made last, by the rule's own `says`. */
export interface Problem {
  readonly rule: string
  readonly level: Level
  readonly args: Args
  /** The arguments that tell two problems of one rule at one place apart; part of the fingerprint. */
  readonly identity: readonly string[]
  readonly at: Place
  readonly related: readonly RelatedPlace[]
  readonly sources: readonly Citation[]
  /** First day on which it is true. */
  readonly from: Day
  /** First day on which it is no longer true, when a later record ended it. */
  readonly until?: Day
  /** The site it belongs to, if one. */
  readonly site?: string
  /** Who can mend it. */
  readonly actor: Actor
  /** True when something that should be there is not. */
  readonly gap: boolean
}

export type Actor = 'technician' | 'coordinator' | 'site manager' | 'maintenance' | 'whoever wrote the record'

/** A problem that a dated, reasoned exception covers. It is shown as excepted, never dropped. */
export interface ExceptedProblem {
  readonly problem: Problem
  readonly exception: string
  readonly why: string
  readonly until?: Day
}

/** Something that was asked for and could not be looked at. Any of these makes the exit code 2. */
export interface NotChecked {
  readonly what: string
  readonly why: string
}

export type Cell = string | number | null

export interface Column {
  readonly id: string
  readonly title: string
  /** Unit of a number, as it stands in a CSV header. */
  readonly unit?: string
  /**
   * `people`: only in text and Markdown, such as a number with its interval in one cell. `work`: the numbers and
   * reasons behind a row, for machines, and for people who ask to see the work. Neither: for everyone.
   */
  readonly for?: 'people' | 'work'
  /** Decimals shown to people; machines get the number itself. Text has none. */
  readonly decimals?: number
}

export interface Row {
  readonly cells: Readonly<Record<string, Cell>>
  /** Files behind the row, for `--show-work` and for whoever doubts it. */
  readonly records: readonly string[]
}

export interface Table {
  readonly id: string
  readonly title: string
  readonly columns: readonly Column[]
  readonly rows: readonly Row[]
  /** How many rows a person is shown unless they ask for the work; the number left out is said. */
  readonly shownToPeople?: number
  /** What to say when there are no rows. */
  readonly empty: string
  /**
   * `people`: only in text and Markdown, where it tells again, for reading, what another table tells in full. `work`: for
   * machines, and for people who ask to see the work. Neither: for everyone.
   */
  readonly for?: 'people' | 'work'
}

/** One point of a plot: what was measured over a stretch of days, drawn at the middle of it. */
export interface PlotPoint {
  /** ISO date. */
  readonly day: string
  /** Null where nothing was measured: never drawn as a zero. */
  readonly value: number | null
  /** Limits of its interval; an upper limit that cannot be told is null. */
  readonly low?: number | null
  readonly high?: number | null
}

/** Something that happened at a moment of a plot. */
export interface PlotMark {
  /** ISO date. */
  readonly day: string
  readonly says: string
  /** What it was, where that is known: a picture tells these apart by their shapes. */
  readonly kind?: 'treatment' | 'repair' | 'action'
}

/** Numbers of groups side by side, each of the same parts. */
export interface PlotBars {
  /** What there is a bar for each of, such as `month` or `owner`. */
  readonly by: string
  /** The parts of every bar, in the order in which they are drawn from zero. */
  readonly parts: readonly string[]
  /** A value for each part, none below zero; null where nothing is known, which is never drawn as a zero. */
  readonly rows: readonly { readonly name: string; readonly values: readonly (number | null)[] }[]
  /** Whether the bars follow each other in time; they then stand side by side. */
  readonly overTime?: boolean
}

/** A number over time, or of groups, as a picture. Its numbers stand in a table of the same report too. */
export interface Plot {
  /** `bars` draws `bars`; `line`, and what says neither, draws `points` over time. */
  readonly kind?: 'line' | 'bars'
  readonly id: string
  readonly title: string
  readonly unit: string
  /** ISO dates of its left and right edge. */
  readonly from: string
  readonly to: string
  readonly points: readonly PlotPoint[]
  /** A height to compare with, such as an action threshold. */
  readonly line?: { readonly value: number; readonly says: string }
  readonly marks: readonly PlotMark[]
  readonly bars?: PlotBars
  /** The table of the same report in which its numbers stand, and the cells of the rows that are drawn, if not all are. */
  readonly table?: { readonly id: string; readonly rows?: Readonly<Record<string, Cell>> }
}

/** A report as data; every format is made from it. */
export interface Report {
  readonly report: string
  readonly title: string
  /** One plain sentence: what a principal should know. */
  readonly headline: string
  readonly asOf: string
  readonly period?: { readonly from: string; readonly to: string }
  /** Lines of text above the tables, such as who received a service report. */
  readonly facts: readonly { readonly label: string; readonly value: string }[]
  readonly tables: readonly Table[]
  readonly plots?: readonly Plot[]
  /** Text to paste into a file of the ledger, in every format but CSV. */
  readonly paste?: { readonly title: string; readonly text: string }
  /** What the reader must know to read the numbers rightly. */
  readonly cautions: readonly string[]
  readonly notExamined: readonly string[]
  /** True when part of what was asked for could not be read; the exit code is then 2. */
  readonly incomplete: boolean
}
