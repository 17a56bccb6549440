import type { ChildProcessWithoutNullStreams } from 'node:child_process'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import type { Day } from '../../types.js'
import { pacificOffset } from './days.js'
import type { DemoCommit } from './world.js'

/** Environment variables by name; only those that git needs to be found are taken from it. */
export type Environment = Readonly<Record<string, string | undefined>>

/**
 * The environment for git: how to find it, and nothing else of the user's. No settings of the user or the machine,
 * no other repository, no prompts.
 */
function bareEnvironment(environment: Environment): Record<string, string> {
  const kept: Record<string, string> = {
    GIT_CONFIG_GLOBAL: '/dev/null',
    GIT_CONFIG_NOSYSTEM: '1',
    GIT_TERMINAL_PROMPT: '0',
    LC_ALL: 'C',
  }
  for (const name of ['PATH', 'Path', 'SystemRoot', 'TMPDIR', 'TEMP']) {
    const value = environment[name]
    if (value !== undefined) kept[name] = value
  }
  return kept
}

const safeSettings = ['--no-pager', '-c', 'core.hooksPath=/dev/null', '-c', 'core.autocrlf=false']

function startGit(
  folder: string,
  args: readonly string[],
  environment: Environment,
): ChildProcessWithoutNullStreams {
  return spawn('git', [...safeSettings, ...args], { cwd: folder, env: bareEnvironment(environment) })
}

/** Waits for a git process; an error tells its last words. `missing` when there is no git on this machine. */
async function finish(child: ChildProcessWithoutNullStreams, what: string): Promise<'done' | 'missing'> {
  let words = ''
  child.stderr.setEncoding('utf8')
  child.stderr.on('data', (text: string) => {
    words = (words + text).slice(-2000)
  })
  child.stdout.resume()
  return new Promise((resolve, reject) => {
    child.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') resolve('missing')
      else reject(error)
    })
    child.on('close', (code) => {
      if (code === 0) resolve('done')
      else reject(new Error(`git ${what} ended with code ${code}: ${words.trim()}`))
    })
  })
}

async function run(
  folder: string,
  args: readonly string[],
  environment: Environment,
): Promise<'done' | 'missing'> {
  const child = startGit(folder, args, environment)
  child.stdin.on('error', () => {})
  child.stdin.end()
  return finish(child, args[0] ?? '')
}

function twoDigits(value: number): string {
  return value < 10 ? `0${value}` : `${value}`
}

/** Seconds since 1970 and the offset, as git's raw date format has them. */
function rawDate(day: Day, minute: number): string {
  const offset = pacificOffset(day)
  const seconds = day * 86400 + (minute - offset) * 60
  const away = Math.abs(offset)
  return `${seconds} ${offset < 0 ? '-' : '+'}${twoDigits(Math.floor(away / 60))}${twoDigits(away % 60)}`
}

/** One commit in the language of `git fast-import`. Paths are made of plain characters only, and need no quotes. */
function importText(commit: DemoCommit): string {
  const who = `${commit.author.name} <${commit.author.email}> ${rawDate(commit.day, commit.minute)}`
  const parts = [`commit refs/heads/main\nauthor ${who}\ncommitter ${who}\n${dataText(commit.message)}`]
  for (const file of commit.files) parts.push(`M 100644 inline ${file.path}\n${dataText(file.text)}`)
  return `${parts.join('')}\n`
}

function dataText(text: string): string {
  return `data ${Buffer.byteLength(text, 'utf8')}\n${text}\n`
}

/**
 * Makes a repository in an empty folder, streams the commits into one `git fast-import`, and checks them out.
 * Resolves to how many commits and files were written, or to null, before any commit is drawn, when there is no git.
 */
export async function writeHistory(
  folder: string,
  commits: Iterable<DemoCommit>,
  environment: Environment,
): Promise<{ readonly commits: number; readonly files: number } | null> {
  const init = ['init', '--quiet', '--initial-branch=main', '--template=']
  if ((await run(folder, init, environment)) === 'missing') return null
  const child = startGit(folder, ['fast-import', '--quiet', '--date-format=raw', '--done'], environment)
  const finished = finish(child, 'fast-import')
  // An early end shows as a broken pipe here and with its reason in `finished`.
  let broken = false
  child.stdin.on('error', () => {
    broken = true
  })
  finished.catch(() => {
    broken = true
  })
  const paths = new Set<string>()
  let count = 0
  let batch = ''
  const send = async () => {
    const ready = child.stdin.write(batch)
    batch = ''
    if (!ready && !broken) await Promise.race([once(child.stdin, 'drain'), finished])
  }
  try {
    for (const commit of commits) {
      count++
      for (const file of commit.files) paths.add(file.path)
      batch += importText(commit)
      if (batch.length > 1 << 18) await send()
      if (broken) break
    }
  } catch (error) {
    // Without this, git would wait for more commits, and the program for git.
    child.kill()
    throw error
  }
  child.stdin.end(`${batch}done\n`)
  await finished
  await run(folder, ['checkout', '--quiet', '--force', 'main'], environment)
  return { commits: count, files: paths.size }
}
