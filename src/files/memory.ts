import { createHash } from 'node:crypto'
import type { Source } from './source.js'
import { isHidden } from './source.js'

/** Files held in memory: the small ledgers of examples and tests. */
export function memorySource(files: ReadonlyMap<string, string | Uint8Array>): Source {
  return {
    name: 'memory',
    list: () =>
      [...files]
        .map(([path, content]) => ({ path, kind: 'file' as const, size: content.length }))
        .sort((a, b) => (a.path < b.path ? -1 : 1)),
    isFile: (path) => files.has(path) && !isHidden(path),
    prefetch: () => undefined,
    sha256(path) {
      const content = files.get(path)
      if (content === undefined) return { refused: 'missing', detail: 'does not exist' }
      return { sha256: createHash('sha256').update(content).digest('hex') }
    },
    read(path) {
      const content = files.get(path)
      if (content === undefined) return { refused: 'missing', detail: 'does not exist' }
      return { bytes: typeof content === 'string' ? Buffer.from(content, 'utf8') : content }
    },
  }
}
