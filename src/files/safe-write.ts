import {
  closeSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  unlinkSync,
  writeSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'

/**
 * Writes a whole file or nothing: first beside its place under a temporary name, then renamed. With `fresh` it
 * refuses to replace a file that is there (throws an error with code EEXIST).
 */
export function safeWrite(path: string, content: string | Uint8Array, { fresh = false } = {}): void {
  const folder = dirname(path)
  mkdirSync(folder, { recursive: true })
  const temporary = join(folder, `.${basename(path)}.${process.pid}.tmp`)
  const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content
  try {
    writeThrough(temporary, bytes)
    if (fresh) {
      // A hard link fails when the name is taken, which a rename would not.
      linkSync(temporary, path)
      unlinkSync(temporary)
    } else renameSync(temporary, path)
  } catch (error) {
    rmSync(temporary, { force: true })
    throw error
  }
}

function writeThrough(path: string, bytes: Uint8Array): void {
  // One may be left from a run that was killed; `wx` then makes sure that nothing else is written through.
  rmSync(path, { force: true })
  const handle = openSync(path, 'wx')
  try {
    let written = 0
    while (written < bytes.length) written += writeSync(handle, bytes, written)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}
