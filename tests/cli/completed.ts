import { main } from '../../src/cli/complete/main.js'
import { programWith } from '../../src/cli/main.js'
import type { Surroundings } from '../../src/cli/terminal.js'

export const exampleDistrict = new URL('../../examples/district', import.meta.url).pathname

/** Streams that only collect. */
export function collecting(cwd: string): { readonly here: Surroundings; readonly out: () => string } {
  let out = ''
  const stdout = {
    write: (text: string) => {
      out += text
    },
  }
  return { here: { stdout, stderr: stdout, env: {}, cwd: () => cwd }, out: () => out }
}

/** What is offered in place of the last word, as `doorsweep complete` prints it. */
export async function completed(words: readonly string[], cwd = exampleDistrict): Promise<readonly string[]> {
  const { here, out } = collecting(cwd)
  await main(['complete', '--', ...words], here)
  return out().split('\n').slice(0, -1)
}

/** The whole program; nothing of it runs. */
export function wholeProgram() {
  return programWith(() => async () => {}, collecting('/').here)
}
