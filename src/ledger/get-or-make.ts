/** The value under a key, made and kept when there is none yet. */
export function getOrMake<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const found = map.get(key)
  if (found !== undefined) return found
  const made = make()
  map.set(key, made)
  return made
}
