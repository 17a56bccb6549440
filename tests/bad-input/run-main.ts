import { main } from '../../src/cli/main.js'

export interface Said {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs the whole program in a folder, on a stated day. */
export async function doorsweep(cwd: string, ...args: string[]): Promise<Said> {
  const said = { out: '', err: '' }
  const code = await main(args, {
    stdout: { write: (text) => (said.out += text) },
    stderr: { write: (text) => (said.err += text) },
    env: { DOORSWEEP_TODAY: '2026-03-20' },
    cwd: () => cwd,
  })
  return { code, ...said }
}

/** Characters that can steer a terminal, turn text around or hide in it. A line feed is none. */
const steering =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]/

export function steeringIn(text: string): string | undefined {
  const found = steering.exec(text)?.[0]
  return found === undefined ? undefined : `U+${found.charCodeAt(0).toString(16)}`
}
