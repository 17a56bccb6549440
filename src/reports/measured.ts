import type { Cell, Column } from '../types.js'

/**
 * A number with its interval. A value of null cannot be told; a limit of null beside one that can be told means that
 * nothing bounds it on that side.
 */
export interface Measured {
  readonly value: number | null
  readonly low: number | null
  readonly high: number | null
}

export interface MeasuredColumn {
  readonly id: string
  readonly title: string
  readonly unit: string
  readonly decimals: number
}

/** One column for people, `2.1 (0.8 to 4.4)`, and three for machines and whoever asks to see the work. */
export function measuredColumns({ id, title, unit, decimals }: MeasuredColumn): Column[] {
  const work = { unit, decimals, for: 'work' } as const
  return [
    { id: `${id}-shown`, title: `${title} (95 %)`, unit, for: 'people' },
    { id, title, ...work },
    { id: `${id}-low`, title: `${title}, lower limit`, ...work },
    { id: `${id}-high`, title: `${title}, upper limit`, ...work },
  ]
}

/** The cells of such columns; all null where nothing was measured. */
export function measuredCells(
  { id, decimals }: Pick<MeasuredColumn, 'id' | 'decimals'>,
  measured: Measured | null,
): Record<string, Cell> {
  const finite = (number: number | null | undefined) =>
    number !== null && number !== undefined && Number.isFinite(number) ? number : null
  const value = finite(measured?.value)
  const low = finite(measured?.low)
  const high = finite(measured?.high)
  return {
    [`${id}-shown`]: measuredWords({ value, low, high }, decimals),
    [id]: value,
    [`${id}-low`]: low,
    [`${id}-high`]: high,
  }
}

/** `2.1 (0.8 to 4.4)`, `2.1 (0.8 or more)`, `0.8 or more`; null where there is nothing to say. */
export function measuredWords({ value, low, high }: Measured, decimals: number): string | null {
  const words = (number: number) => number.toFixed(decimals).replace(/^-(0(?:\.0*)?)$/, '$1')
  const interval =
    low !== null && high !== null
      ? `${words(low)} to ${words(high)}`
      : low !== null
        ? `${words(low)} or more`
        : high !== null
          ? `at most ${words(high)}`
          : null
  if (value === null) return interval
  return interval === null ? words(value) : `${words(value)} (${interval})`
}
