import type { Command } from 'commander'
import { candidatesFor } from './candidates.js'
import { offerPaths } from './shells.js'

/** The answer to a completion script: a candidate a line, and a last line if the shell is to offer paths. */
export async function candidateLines(
  program: Command,
  words: readonly string[],
  cwd: string,
  isDescribed: boolean,
): Promise<string> {
  const { words: candidates, paths } = await candidatesFor(program, words, cwd)
  const lines = candidates.map(({ word, means }) =>
    isDescribed && means !== undefined && means !== '' ? `${word}\t${inOneLine(means)}` : word,
  )
  return [...lines, ...(paths === undefined ? [] : [offerPaths[paths]])].map((line) => `${line}\n`).join('')
}

function inOneLine(text: string): string {
  return text.replace(/[\s\u0000-\u001f\u007f]+/g, ' ')
}
