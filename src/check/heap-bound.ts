import { getHeapStatistics, setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

/** How much may be left over before it is cleared away, in bytes. */
const room = 64 * 1024 * 1024

/**
 * Clears away what judged sites leave behind once there is more than `room` of it. V8 would let a heap grow to several times what is
 * in use before it looks; the records of a site are garbage all at once when the site is done, and the moment between two sites,
 * when hardly anything is alive, is the cheapest there is.
 */
export function heapBound(): () => void {
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc') as () => void
  let after = 0
  return () => {
    const used = getHeapStatistics().used_heap_size
    if (after === 0) after = used
    if (used < after + room) return
    collect()
    after = getHeapStatistics().used_heap_size
  }
}
