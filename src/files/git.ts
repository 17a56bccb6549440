import { isUtf8 } from 'node:buffer'
import { execFileSync } from 'node:child_process'
import { fileNameOf } from './file-name.js'
import { gitEnvironment } from './git-environment.js'

/**
 * Runs git with an argument list: no shell, no hooks, no pager, no file-system monitor, no network, and no other program
 * that a checkout could name. Returns its output, or null when git is missing or fails.
 *
 * Ask only for what is stored: a command that compares with the files on disk (`status`, `diff-files`, `hash-object`)
 * would run the filters that a checkout sets.
 */
export function git(folder: string, args: readonly string[], input?: string): Buffer | null {
  try {
    return execFileSync('git', [...safeSettings, ...withoutPrograms(args)], {
      cwd: folder,
      input: input ?? '',
      maxBuffer: 1024 * 1024 * 1024,
      stdio: ['pipe', 'pipe', 'ignore'],
      env: gitEnvironment(folder, process.env),
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
  // Signatures are looked at by a program that a checkout may name.
  '-c',
  'log.showSignature=false',
  // Files that look like a repository, committed among the records, are none: their settings would be a stranger's.
  '-c',
  'safe.bareRepository=explicit',
  '-c',
  'submodule.recurse=false',
  '-c',
  'protocol.allow=never',
]

const showsDifferences = new Set(['diff', 'diff-index', 'diff-tree', 'log', 'show'])

/** A checkout may name programs that show differences, for all files or by their attributes. */
function withoutPrograms([command = '', ...rest]: readonly string[]): string[] {
  return showsDifferences.has(command)
    ? [command, '--no-ext-diff', '--no-textconv', ...rest]
    : [command, ...rest]
}

/** Output of git whose parts end in NUL bytes, as text. */
export function partsOf(output: Buffer): string[] {
  if (isUtf8(output)) return output.toString('utf8').split('\0').slice(0, -1)
  const parts: string[] = []
  for (let at = 0; at < output.length; ) {
    const end = output.indexOf(0, at)
    if (end === -1) break
    parts.push(fileNameOf(output.subarray(at, end)))
    at = end + 1
  }
  return parts
}
