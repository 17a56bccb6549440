import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { writeNew } from '../new/write-new.js'

export type WrittenAll =
  | { readonly is: 'written' }
  | {
      readonly is: 'stopped'
      /** The file that could not be written, and why. */
      readonly file: string
      readonly detail: string
      /** Files written before it that could not be taken away again. */
      readonly left: readonly string[]
    }

/** Writes new files of a ledger: all of them, or else takes away those it had written. None is ever overwritten. */
export function writeAll(
  root: string,
  files: readonly { readonly file: string; readonly text: string }[],
): WrittenAll {
  const written: string[] = []
  for (const { file, text } of files) {
    const one = writeNew(root, file, text)
    if (one === 'written') written.push(file)
    else
      return {
        is: 'stopped',
        file,
        detail: one.detail,
        left: written.filter((path) => !isTakenAway(root, path)),
      }
  }
  return { is: 'written' }
}

function isTakenAway(root: string, file: string): boolean {
  try {
    rmSync(join(root, file))
    return true
  } catch {
    return false
  }
}
