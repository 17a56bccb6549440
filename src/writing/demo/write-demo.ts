import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Environment } from './history.js'
import { writeHistory } from './history.js'
import type { DemoCommit } from './world.js'

export type DemoWritten =
  | {
      readonly commits: number
      readonly files: number
      /** `not written` when there is no git on this machine: the files are there all the same. */
      readonly history: 'written' | 'not written'
    }
  | { readonly refused: 'not empty' | 'not a folder' }
  /** Git or the disk failed, in its own words; nothing is left in the folder. */
  | { readonly failed: string }

/**
 * Writes an invented ledger into a folder that does not exist or is empty: its git history first, then the files it
 * ends with. Refuses any other folder. `environment` is where git is looked for (PATH). All is written, or nothing is left.
 */
export async function writeDemo(
  folder: string,
  commits: Iterable<DemoCommit>,
  environment: Environment,
): Promise<DemoWritten> {
  const refused = whyNot(folder)
  if (refused) return { refused }
  const wasThere = existsSync(folder)
  try {
    mkdirSync(folder, { recursive: true })
    const history = await writeHistory(folder, commits, environment)
    if (history) return { ...history, history: 'written' }
    return { ...writeFiles(folder, commits), history: 'not written' }
  } catch (error) {
    if (!(error instanceof Error)) throw error
    takeAway(folder, wasThere)
    return { failed: error.message.split('\n')[0] ?? '' }
  }
}

/** Takes away what was written so far: it lay in an empty folder, so all of it is ours. */
function takeAway(folder: string, keepsFolder: boolean): void {
  if (!existsSync(folder)) return
  if (!keepsFolder) rmSync(folder, { recursive: true, force: true })
  else for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true, force: true })
}

function whyNot(folder: string): 'not empty' | 'not a folder' | undefined {
  if (!existsSync(folder)) return undefined
  try {
    return readdirSync(folder).length > 0 ? 'not empty' : undefined
  } catch {
    return 'not a folder'
  }
}

/** The files as the last commit leaves them. The folder was empty, so nothing of the user's can be overwritten. */
function writeFiles(folder: string, commits: Iterable<DemoCommit>): { commits: number; files: number } {
  const paths = new Set<string>()
  let count = 0
  for (const commit of commits) {
    count++
    for (const file of commit.files) {
      const path = join(folder, file.path)
      if (!paths.has(file.path)) mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, file.text)
      paths.add(file.path)
    }
  }
  return { commits: count, files: paths.size }
}
