import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll } from 'vitest'
import { main } from '../../src/cli/main.js'
import { ledgerWith } from '../../src/rules/base-ledger.js'

const folders: string[] = []

afterAll(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true })
})

/** A new folder that is gone after the test file. */
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'doorsweep-test-'))
  folders.push(folder)
  return folder
}

export function writeFiles(folder: string, files: ReadonlyMap<string, string>): void {
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), text)
  }
}

/** A folder with an overlay on the ledger of the rules' examples, in which nothing is wrong on 2026-03-20. */
export function ledgerFolder(overlay = ''): string {
  const folder = newFolder()
  writeFiles(folder, ledgerWith(overlay))
  return folder
}

export interface Ran {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs one command line in a folder, with streams that only collect. */
export async function run(
  cwd: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
  isTTY = false,
): Promise<Ran> {
  const written = { out: '', err: '' }
  const code = await main(args, {
    stdout: {
      isTTY,
      write: (text) => {
        written.out += text
      },
    },
    stderr: {
      write: (text) => {
        written.err += text
      },
    },
    env,
    cwd: () => cwd,
  })
  return { code, ...written }
}

/** Runs `check` on an overlay as of 2026-03-20. */
export function check(overlay: string, ...args: string[]): Promise<Ran> {
  return run(ledgerFolder(overlay), ['check', '--as-of', '2026-03-20', ...args])
}

/** Runs git in a folder, as nobody in particular. */
export function git(folder: string, ...args: string[]): void {
  const name = 'Example'
  const mail = 'example@invalid.example'
  execFileSync('git', ['-c', 'commit.gpgsign=false', '-c', 'init.defaultBranch=main', ...args], {
    cwd: folder,
    stdio: 'ignore',
    env: {
      ...process.env,
      GIT_AUTHOR_NAME: name,
      GIT_AUTHOR_EMAIL: mail,
      GIT_COMMITTER_NAME: name,
      GIT_COMMITTER_EMAIL: mail,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_NOSYSTEM: '1',
    },
  })
}
