import { createHash } from 'node:crypto'
import type { Entry, Source } from './source.js'
import { isHidden } from './source.js'

/** A source with some files laid over it, and some taken away (null); what it lies on is not touched. */
export function overlaid(source: Source, laid: ReadonlyMap<string, Uint8Array | null>): Source {
  const added = [...laid].flatMap(([path, bytes]): Entry[] =>
    bytes === null ? [] : [{ path, kind: 'file', size: bytes.length }],
  )
  return {
    name: source.name,
    ...(source.notChecked ? { notChecked: source.notChecked } : {}),
    list: (goesInto) =>
      [...source.list(goesInto).filter(({ path }) => !laid.has(path)), ...added].sort((a, b) =>
        a.path < b.path ? -1 : 1,
      ),
    isFile(path) {
      const bytes = laid.get(path)
      return bytes === undefined ? source.isFile(path) : bytes !== null && !isHidden(path)
    },
    prefetch: (paths) => source.prefetch(paths.filter((path) => !laid.has(path))),
    read(path, atMost) {
      const bytes = laid.get(path)
      if (bytes === undefined) return source.read(path, atMost)
      return bytes === null ? missing : { bytes }
    },
    sha256(path) {
      const bytes = laid.get(path)
      if (bytes === undefined) return source.sha256(path)
      return bytes === null ? missing : { sha256: createHash('sha256').update(bytes).digest('hex') }
    },
  }
}

const missing = { refused: 'missing', detail: 'does not exist' } as const
