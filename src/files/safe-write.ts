import {
  closeSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  renameSync,
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
  const handle = openSync(temporary, 'wx')
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content
    let written = 0
    while (written < bytes.length) written += writeSync(handle, bytes, written)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
  try {
    if (fresh) {
      // A hard link fails when the name is taken, which a rename would not.
      linkSync(temporary, path)
      unlinkSync(temporary)
    } else renameSync(temporary, path)
  } catch (error) {
    if (lstatSync(temporary, { throwIfNoEntry: false })) unlinkSync(temporary)
    throw error
  }
}
