/**
 * A chart as a Markov chain: states 0, 1, 2, … in steps of one, and a signal as soon as the state is at or
 * above a threshold.
 */
export interface ChartMoves {
  /** Chance of the next state being `to`, for two different states. */
  chance: (from: number, to: number) => number
  /** Chance of the next state being `bound` or above. */
  beyond: (from: number, bound: number) => number
}

export interface RunLengthChain {
  /** How many states lie below the threshold. */
  states: () => number
  /** Average run length from state 0 with the threshold where it now is. */
  fromZero: () => number
  /** Average run length from any state below the threshold. */
  from: (start: number) => number
  /** Raises the threshold by one state. */
  grow: () => void
}

/** No chain is grown beyond this: with moves of any width it takes about 0.15 s. */
export const MOST_STATES = 600

/**
 * Average run lengths of a chart for every threshold up to the last one asked for: Brook D, Evans DA (1972)
 * Biometrika 59:539–549, (I − Q)·L = 1, Q being the moves between the states below the threshold.
 *
 * A higher threshold adds one row and one column to Q, so one triangular factorisation serves all thresholds:
 * it is grown by a row and a column until the run is long enough. A step costs at most about 1.5 · states²
 * multiplications; where a sum can move only so far one way (by k), what lies beyond stays zero and is skipped.
 * Pivots are had from the chances of going beyond the threshold instead of as one less the chance of staying
 * (Grassmann WK, Taksar MI, Heyman DP 1985, Operations Research 33:1107–1116, from memory): nothing is ever
 * subtracted, so that runs of any length keep their digits.
 */
export function runLengthChain(moves: ChartMoves): RunLengthChain {
  // Magnitudes of the factors' elements beside the diagonal, all of which are negative.
  const lowerRows: Vector[] = []
  const upperColumns: Vector[] = []
  const pivots: number[] = []
  /** Solves the lower factor for ones, and the upper one (from the left) for state 0. */
  const ones = emptyVector(MOST_STATES)
  const visits = emptyVector(MOST_STATES)
  let fromZero = 0

  function grow() {
    const n = pivots.length
    if (n >= MOST_STATES) throw new RangeError(`a chain has at most ${MOST_STATES} states`)
    const column = emptyVector(n)
    for (let r = 0; r < n; r += 1) put(column, r, moves.chance(r, n) + product(lowerRows[r], column, r))
    const row = emptyVector(n)
    for (let s = 0; s < n; s += 1) {
      put(row, s, (moves.chance(n, s) + product(row, upperColumns[s], s)) / (pivots[s] ?? 0))
    }
    lowerRows.push(row)
    upperColumns.push(column)
    const beyond = emptyVector(n + 1)
    for (let r = 0; r <= n; r += 1) {
      put(beyond, r, moves.beyond(r, n + 1) + product(lowerRows[r], beyond, r))
    }
    const pivot = beyond.values[n] ?? 0
    const one = 1 + product(row, ones, n)
    const visit = ((n === 0 ? 1 : 0) + product(column, visits, n)) / pivot
    pivots.push(pivot)
    put(ones, n, one)
    put(visits, n, visit)
    fromZero += one * visit
  }

  function from(start: number): number {
    const left = ones.values.slice(0, pivots.length)
    for (let n = pivots.length - 1; n >= start; n -= 1) {
      const length = (left[n] ?? 0) / (pivots[n] ?? 0)
      left[n] = length
      const column = upperColumns[n]?.values
      for (let r = start; r < n; r += 1) left[r] = (left[r] ?? 0) + (column?.[r] ?? 0) * length
    }
    return left[start] ?? Number.NaN
  }

  return { states: () => pivots.length, fromZero: () => fromZero, from, grow }
}

/** Numbers that are zero before the first place that was put. */
interface Vector {
  values: Float64Array
  first: number
}

function emptyVector(length: number): Vector {
  return { values: new Float64Array(length), first: length }
}

function put(vector: Vector, at: number, value: number): void {
  vector.values[at] = value
  if (value !== 0 && at < vector.first) vector.first = at
}

/** Sum of the products of the elements before `end`. */
function product(one: Vector | undefined, other: Vector | undefined, end: number): number {
  if (one === undefined || other === undefined) return 0
  const [a, b] = [one.values, other.values]
  let sum = 0
  for (let i = Math.max(one.first, other.first); i < end; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0)
  return sum
}
