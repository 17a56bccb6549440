import { existsSync, lstatSync } from 'node:fs'
import { dirname } from 'node:path'
import { safeWrite } from '../files/safe-write.js'

export type WrittenMap = 'written' | { readonly refused: string }

/** Writes a map as a whole file or not at all; over another only if asked to, and never in place of a folder. */
export function writeMapFile(path: string, text: string, replace: boolean): WrittenMap {
  try {
    const there = lstatSync(path, { throwIfNoEntry: false })
    if (there?.isDirectory()) return { refused: 'is a folder' }
    if (there && !replace) return { refused: 'is there already; --replace writes over it' }
    if (!existsSync(dirname(path))) return { refused: 'cannot be written: its folder is not there' }
    safeWrite(path, text, { fresh: !replace })
    return 'written'
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === '') throw error
    return code === 'EEXIST'
      ? { refused: 'is there already; --replace writes over it' }
      : { refused: `could not be written (${code})` }
  }
}
