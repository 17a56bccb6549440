import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  renameSync,
  rmdirSync,
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
  const made = makeFolder(folder)
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
    if (made !== undefined) removeEmpty(folder, made)
    throw error
  }
}

/** Makes a folder and those above it; the topmost it had to make. */
function makeFolder(folder: string): string | undefined {
  try {
    return mkdirSync(folder, { recursive: true })
  } catch (error) {
    // On a disk that may only be read this says that nothing is there; what is there says why.
    let there = folder
    while (!existsSync(there) && there !== dirname(there)) there = dirname(there)
    accessSync(there, constants.W_OK)
    throw error
  }
}

/** Takes away folders that were made for a file that could not be written, as far as they are empty. */
function removeEmpty(folder: string, topmost: string): void {
  try {
    for (let empty = folder; ; empty = dirname(empty)) {
      rmdirSync(empty)
      if (empty === topmost) return
    }
  } catch {
    // Another command has put something there since.
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
