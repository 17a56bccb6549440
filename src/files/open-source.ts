import { index, revision } from './git-source.js'
import type { Opening } from './opening.js'
import type { Source } from './source.js'
import { workTree } from './work-tree.js'

/** Null when there is no such revision or no git checkout. */
export function openSource(opening: Opening): Source | null {
  if (opening.kind === 'work tree') return workTree(opening.root)
  return opening.kind === 'index' ? index(opening.root) : revision(opening.root, opening.rev)
}
