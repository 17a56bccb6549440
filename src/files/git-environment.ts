import { existsSync, lstatSync, readFileSync, realpathSync } from 'node:fs'
import { delimiter, dirname, isAbsolute, join, resolve } from 'node:path'

type Environment = Readonly<Record<string, string | undefined>>

/**
 * The environment in which git reads the checkout around a folder: that checkout and no other, whatever GIT_DIR or the
 * checkout's own `core.worktree` say. Git sets such variables for the hooks it runs, which then call other programs.
 */
export function gitEnvironment(folder: string, around: Environment): Record<string, string> {
  const environment: Record<string, string> = {}
  for (const [name, value] of Object.entries(around))
    if (value !== undefined && (!name.startsWith('GIT_') || isKept(name))) environment[name] = value
  const { PATH: path } = environment
  // A folder that is not named from the top could lie in the checkout.
  if (path !== undefined) environment.PATH = path.split(delimiter).filter(isAbsolute).join(delimiter)
  const top = topOfCheckout(folder)
  if (top !== undefined) {
    environment.GIT_WORK_TREE = top
    const index = indexOfCommit(top, around.GIT_INDEX_FILE)
    if (index !== undefined) environment.GIT_INDEX_FILE = index
  }
  return {
    ...environment,
    GIT_OPTIONAL_LOCKS: '0',
    GIT_TERMINAL_PROMPT: '0',
    // What is not in the repository is not fetched. The list of protocols holds none that there is, and goes before any
    // that the checkout allows.
    GIT_NO_LAZY_FETCH: '1',
    GIT_ALLOW_PROTOCOL: 'none',
    // A commit says what its name vouches for, not what someone put in its place since.
    GIT_NO_REPLACE_OBJECTS: '1',
    LC_ALL: 'C',
  }
}

/** Where git and the user's own settings are: matters of the machine, not of one checkout. */
function isKept(name: string): boolean {
  return /^GIT_(EXEC_PATH|CEILING_DIRECTORIES|DISCOVERY_ACROSS_FILESYSTEM|CONFIG_(GLOBAL|SYSTEM|NOSYSTEM|COUNT|KEY_\d+|VALUE_\d+))$/.test(
    name,
  )
}

/** The folder that holds `.git`, at or above a folder; undefined where there is none. */
export function topOfCheckout(folder: string): string | undefined {
  let at: string
  try {
    at = realpathSync.native(folder)
  } catch {
    return undefined
  }
  for (;;) {
    if (gitFolderOf(at) !== undefined) return at
    const parent = dirname(at)
    if (parent === at) return undefined
    at = parent
  }
}

/** Where the repository of a checkout lies: `.git`, or the folder that a file of that name points to. */
export function gitFolderOf(top: string): string | undefined {
  const path = join(top, '.git')
  const found = lstatSync(path, { throwIfNoEntry: false })
  if (found === undefined) return undefined
  if (found.isFile()) {
    try {
      const pointsTo = /^gitdir: (.*?)\r?\n?$/s.exec(readFileSync(path, 'utf8'))?.[1]
      return pointsTo === undefined ? undefined : resolve(top, pointsTo)
    } catch {
      return undefined
    }
  }
  // Git passes by a folder of that name that is no repository, and looks further up.
  return ['HEAD', 'objects', 'refs'].every((name) => existsSync(join(path, name))) ? path : undefined
}

/** While a commit is made of some files only, git tells its hooks which index holds them. */
function indexOfCommit(top: string, stated: string | undefined): string | undefined {
  const folder = gitFolderOf(top)
  if (stated === undefined || folder === undefined) return undefined
  try {
    const index = resolve(top, stated)
    return realpathSync.native(dirname(index)) === realpathSync.native(folder) ? index : undefined
  } catch {
    return undefined
  }
}
