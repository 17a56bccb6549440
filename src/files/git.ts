import { execFileSync } from 'node:child_process'

/**
 * Runs git with an argument list: no shell, no hooks, no pager, no file-system monitor, no network, no settings
 * of the checkout that run programs. Returns its output, or null when git is missing or fails.
 */
export function git(folder: string, args: readonly string[], input?: string): Buffer | null {
  try {
    return execFileSync('git', [...safeSettings, ...args], {
      cwd: folder,
      input: input ?? '',
      maxBuffer: 1024 * 1024 * 1024,
      stdio: ['pipe', 'pipe', 'ignore'],
      env: {
        ...process.env,
        GIT_OPTIONAL_LOCKS: '0',
        GIT_TERMINAL_PROMPT: '0',
        GIT_NO_LAZY_FETCH: '1',
        LC_ALL: 'C',
      },
    })
  } catch {
    return null
  }
}

const safeSettings = [
  '--no-pager',
  '-c',
  'core.hooksPath=/dev/null',
  '-c',
  'core.fsmonitor=false',
  '-c',
  'core.quotePath=false',
  '-c',
  'protocol.allow=never',
]

/** Output of git whose parts end in NUL bytes, as text. */
export function partsOf(output: Buffer): string[] {
  const parts = output.toString('utf8').split('\0')
  parts.pop()
  return parts
}
