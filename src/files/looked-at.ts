import type { Entry } from './source.js'
import type { Stamps } from './stamps.js'
import { workTree } from './work-tree.js'

/**
 * A work tree that lists its files and takes their stamps once. What changes afterwards is read as it is then, under the stamp it had
 * before: such a stamp is never met again.
 */
export function workTreeLookedAtOnce(root: string): ReturnType<typeof workTree> {
  const tree = workTree(root)
  let listed: readonly Entry[] | undefined
  let stamps: Stamps | undefined
  return {
    ...tree,
    list(goesInto) {
      if (goesInto && !listed) return tree.list(goesInto)
      listed ??= tree.list()
      return listed
    },
    stamps(entries, groupOf, now) {
      if (entries !== listed) return tree.stamps(entries, groupOf, now)
      stamps ??= tree.stamps(entries, groupOf, now)
      return stamps
    },
  }
}
