import { readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { fileNameOf } from './file-name.js'
import { git } from './git.js'
import type { CommitObject } from './git-history-commit.js'
import { parseCommit } from './git-history-commit.js'
import { namedObjects, readObjects } from './git-history-objects.js'

/** A file of the ledger before and after; the id of its content, null where there was no plain file. */
export interface FileChange {
  /** Path from the root of the ledger, with `/`. */
  readonly path: string
  readonly before: string | null
  readonly after: string | null
}

/** A commit that changed the ledger, and every merge in its history. */
export interface HistoryStep extends CommitObject {
  readonly id: string
  /** The nearest ancestors that are steps too; in the order of its parents. */
  readonly cameFrom: readonly string[]
  /** True where this clone was cut off: what was before is not here. */
  readonly isCutOff: boolean
  /** What differs from each of `cameFrom`, in that order; from nothing where there is none. */
  readonly differs: readonly (readonly FileChange[])[]
}

export type Walked =
  | { readonly is: 'walked'; readonly tip: string }
  /** `no git`: no git, no checkout, or one that git will not read. */
  | { readonly is: 'no git' | 'no such revision' | 'no commit yet' }
  | { readonly is: 'stopped'; readonly why: string }

/** Commits that are held at once. */
const atOnce = 250

/**
 * Walks the history of the ledger in a folder up to a revision, parents before children. Only plumbing is used: no
 * hooks, no filters, no conversion of text, nothing fetched, no replaced objects. Memory holds the ids of all commits and
 * the changes of some. Never throws for what a repository holds.
 */
export function walkHistory(
  root: string,
  rev: string | undefined,
  each: (step: HistoryStep) => void,
): Walked {
  if (git(root, ['rev-parse', '--is-inside-work-tree']) === null) return { is: 'no git' }
  const tip = commitOf(root, rev ?? 'HEAD')
  if (tip === undefined) return { is: rev === undefined ? 'no commit yet' : 'no such revision' }
  const listed = git(root, [
    'rev-list',
    ...['--topo-order', '--reverse', '--full-history', '--parents', tip, '--', '.'],
  ])
  if (listed === null) return { is: 'stopped', why: 'git could not list the commits' }
  const lines = listed
    .toString('latin1')
    .split('\n')
    .filter((line) => line !== '')
  const cutOff = shallowCommits(root)
  for (let at = 0; at < lines.length; at += atOnce) {
    const steps = stepsOf(root, lines.slice(at, at + atOnce), cutOff)
    if (steps === null)
      return { is: 'stopped', why: 'git could not read all commits; some may not be in this clone' }
    for (const step of steps) each(step)
  }
  return { is: 'walked', tip }
}

function commitOf(root: string, rev: string): string | undefined {
  if (rev.startsWith('-')) return undefined
  const output = git(root, ['rev-parse', '--verify', '--quiet', `${rev}^{commit}`])
  const id = output?.toString('latin1').trim() ?? ''
  return /^[0-9a-f]{40,64}$/.test(id) ? id : undefined
}

/** Ids of every file in a commit, wherever it lies in the repository; null when git fails. */
export function contentOf(root: string, commit: string): ReadonlySet<string> | null {
  const listing = git(root, ['ls-tree', '-r', '--full-tree', '-z', commit])
  if (listing === null) return null
  return new Set(
    [...listing.toString('latin1').matchAll(/(?:^|\0)\d+ blob ([0-9a-f]+)\t/g)].map(
      (found) => found[1] ?? '',
    ),
  )
}

/** Commits at which a shallow clone was cut off. */
function shallowCommits(root: string): ReadonlySet<string> {
  const where = git(root, ['rev-parse', '--git-path', 'shallow'])?.toString('utf8').replace(/\n$/, '')
  try {
    return new Set(where === undefined ? [] : readFileSync(resolve(root, where), 'latin1').split(/\s+/))
  } catch {
    return new Set()
  }
}

function stepsOf(root: string, lines: readonly string[], cutOff: ReadonlySet<string>): HistoryStep[] | null {
  const heads = lines.map((line) => line.split(' '))
  const ids = heads.map(([id = '']) => id)
  const objects = readObjects(root, ids)
  const trees = treesOf(root, heads.flat())
  if (objects === null || trees === null) return null
  const wanted: { readonly before: string; readonly after: string }[] = []
  for (const [id = '', ...parents] of heads) {
    const after = trees.get(id)
    if (after === undefined) return null
    for (const parent of parents.length === 0 ? [''] : parents) {
      const before = parent === '' ? noTree(id) : trees.get(parent)
      if (before === undefined) return null
      wanted.push({ before, after })
    }
  }
  const differences = differencesBetween(root, wanted)
  if (differences === null) return null
  let next = 0
  const steps: HistoryStep[] = []
  for (const [n, [id = '', ...parents]] of heads.entries()) {
    const object = objects[n]
    if (object?.kind !== 'commit') return null
    const differs = (parents.length === 0 ? [''] : parents).map(() => differences[next++] ?? [])
    steps.push({ ...parseCommit(object.bytes), id, cameFrom: parents, isCutOff: cutOff.has(id), differs })
  }
  return steps
}

/** The folder of the ledger in each commit; that of nothing where the commit has no such folder. */
function treesOf(root: string, commits: readonly string[]): Map<string, string> | null {
  const unique = [...new Set(commits)]
  const names = unique.map((id) => `${id}:./`)
  const found = namedObjects(root, names)
  if (found === null) return null
  return new Map(
    unique.map((id, n) => {
      const object = found[n]
      return [id, object?.kind === 'tree' ? object.id : noTree(id)]
    }),
  )
}

/** The id of a folder with nothing in it: git knows it without keeping it. By the length of other ids. */
function noTree(like: string): string {
  return like.length === 40
    ? '4b825dc642cb6eb9a060e54bf8d69288fbee4904'
    : '6ef19b41225c5369f1c104d45d8d85efa9b057b53b14b4b9b939dd74decc5321'
}

function differencesBetween(
  root: string,
  pairs: readonly { readonly before: string; readonly after: string }[],
): FileChange[][] | null {
  const unlike = pairs.filter(({ before, after }) => before !== after)
  const input = unlike.map(({ before, after }) => `${before} ${after}\n`).join('')
  const args = ['diff-tree', '--stdin', '-r', '--raw', '-z', '--no-abbrev', '--no-renames']
  const output = unlike.length === 0 ? Buffer.alloc(0) : git(root, args, input)
  const parsed = output === null ? null : rawDifferences(output)
  if (parsed === null || parsed.length !== unlike.length) return null
  let next = 0
  return pairs.map(({ before, after }) => (before === after ? [] : (parsed[next++] ?? [])))
}

/** `<tree> <tree>\n`, and then for each file `:<mode> <mode> <id> <id> <letter>\0<path>\0`. */
function rawDifferences(output: Buffer): FileChange[][] | null {
  const all: FileChange[][] = []
  let at = 0
  while (at < output.length) {
    if (output[at] !== 58) {
      const end = output.indexOf(10, at)
      if (end === -1) return null
      all.push([])
      at = end + 1
      continue
    }
    const end = output.indexOf(0, at)
    const pathEnd = output.indexOf(0, end + 1)
    const [mode = '', modeAfter = '', id = '', idAfter = ''] = output
      .toString('latin1', at + 1, end)
      .split(' ')
    if (end === -1 || pathEnd === -1) return null
    const before = mode.startsWith('100') ? id : null
    const after = modeAfter.startsWith('100') ? idAfter : null
    // Links, submodules and mere changes of mode are no change of what a record says.
    if (before !== after)
      all.at(-1)?.push({ path: fileNameOf(output.subarray(end + 1, pathEnd)), before, after })
    at = pathEnd + 1
  }
  return all
}
