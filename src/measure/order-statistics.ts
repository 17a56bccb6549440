/** Numbers from the smallest to the largest, in an array of their own. */
export function ascending(values: Iterable<number>): Float64Array {
  return Float64Array.from(values).sort()
}

/** Middle of numbers that are already in order, the mean of the two middle ones if they are even in number. */
export function medianOfOrdered(ordered: ArrayLike<number>): number | null {
  const middle = ordered.length / 2
  const above = ordered[Math.floor(middle)]
  if (above === undefined) return null
  if (ordered.length % 2 === 1) return above
  const below = ordered[middle - 1] ?? above
  // Halved first: the sum of two large numbers may leave the range.
  return below / 2 + above / 2
}

/** How often each of the values occurs. */
export function timesEach(values: Iterable<number>): number[] {
  const times = new Map<number, number>()
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1)
  return [...times.values()]
}
