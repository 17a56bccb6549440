/**
 * The value that would stand at a place (0 for the smallest) if the values were in order; null where there is no such
 * place. Reorders them, and no more than that asks: Hoare CAR (1961) Algorithm 65: Find, Commun. ACM 4:321–322 (from
 * memory). No value may be NaN.
 */
export function valueAt(values: Float64Array, place: number): number | null {
  let [low, high] = [0, values.length - 1]
  if (!(place >= low && place <= high)) return null
  while (low < high) {
    const pivot = values[(low + high) >> 1] ?? 0
    let [i, j] = [low, high]
    while (i <= j) {
      while ((values[i] ?? 0) < pivot) i += 1
      while ((values[j] ?? 0) > pivot) j -= 1
      if (i > j) break
      const kept = values[i] ?? 0
      values[i] = values[j] ?? 0
      values[j] = kept
      i += 1
      j -= 1
    }
    if (place <= j) high = j
    else if (place >= i) low = i
    else break
  }
  return values[place] ?? null
}

/** The middle of the values, which are reordered; the mean of the two middle ones if they are even in number. */
export function medianOf(values: Float64Array): number | null {
  const above = valueAt(values, Math.floor(values.length / 2))
  if (above === null || values.length % 2 === 1) return above
  // Whatever stands before the upper middle one is no larger: the lower one is the largest of these.
  let below = values[0] ?? above
  for (let at = 1; at < values.length / 2; at += 1) below = Math.max(below, values[at] ?? below)
  // Halved first: the sum of two large numbers may leave the range.
  return below / 2 + above / 2
}

/** How often each of the values occurs. */
export function timesEach(values: Iterable<number>): number[] {
  const times = new Map<number, number>()
  for (const value of values) times.set(value, (times.get(value) ?? 0) + 1)
  return [...times.values()]
}
