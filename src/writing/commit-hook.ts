import { chmodSync, existsSync, lstatSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { safeWrite } from '../files/safe-write.js'
import type { HookPlan } from './commit-hook-script.js'
import { hookFound, hookScript, nameOfHookBefore } from './commit-hook-script.js'

export type HookInstalled =
  /** `keepsBefore`: a hook that was there before runs first. */
  | { readonly is: 'installed' | 'was-there'; readonly keepsBefore: boolean }
  /** `no-folder`: hooks are switched off, or a file lies where their folder should be. */
  | { readonly is: 'no-folder' | 'changed-by-hand' | 'two-before' }

/**
 * Puts the hook into a folder of hooks, or brings it up to date. A hook that is not ours is kept beside it. The ledgers
 * that the hook checks already stay.
 */
export function installHook(folder: string, ledger: string, program: HookPlan['program']): HookInstalled {
  if (existsSync(folder) && !statSync(folder).isDirectory()) return { is: 'no-folder' }
  const hook = join(folder, 'pre-commit')
  const before = join(folder, nameOfHookBefore)
  const found = foundAt(hook)
  if (found.is === 'changed-by-hand') return { is: 'changed-by-hand' }
  if (found.is === 'not-ours' && isThere(before)) return { is: 'two-before' }
  const ledgers = found.is === 'ours' ? [...found.ledgers, ledger] : [ledger]
  const text = hookScript({ ledgers, program })
  if (found.is === 'ours' && readFileSync(hook, 'utf8') === text) {
    chmodSync(hook, executable)
    return { is: 'was-there', keepsBefore: isThere(before) }
  }
  if (found.is === 'not-ours') renameSync(hook, before)
  try {
    safeWrite(hook, text)
    chmodSync(hook, executable)
  } catch (error) {
    if (found.is === 'not-ours') renameSync(before, hook)
    throw error
  }
  return { is: 'installed', keepsBefore: isThere(before) }
}

export type HookRemoved =
  | { readonly is: 'removed'; readonly isBeforeBack: boolean }
  /** Other ledgers of the repository are still checked by it. */
  | { readonly is: 'kept-for-others'; readonly ledgers: readonly string[] }
  /** There is none, or none for this ledger. */
  | { readonly is: 'none' }
  | { readonly is: 'changed-by-hand' }
  | { readonly is: 'not-ours' }

/** Takes a ledger out of the hook; with the last one the hook goes, and the one that was there before comes back. */
export function removeHook(folder: string, ledger: string, program: HookPlan['program']): HookRemoved {
  const hook = join(folder, 'pre-commit')
  const before = join(folder, nameOfHookBefore)
  const found = foundAt(hook)
  if (found.is !== 'ours') return { is: found.is }
  if (!found.ledgers.includes(ledger)) return { is: 'none' }
  const ledgers = found.ledgers.filter((each) => each !== ledger)
  if (ledgers.length > 0) {
    safeWrite(hook, hookScript({ ledgers, program }))
    chmodSync(hook, executable)
    return { is: 'kept-for-others', ledgers }
  }
  const isBeforeBack = isThere(before)
  if (isBeforeBack) renameSync(before, hook)
  else rmSync(hook)
  return { is: 'removed', isBeforeBack }
}

const executable = 0o755

function foundAt(hook: string): ReturnType<typeof hookFound> | { readonly is: 'none' } {
  if (!isThere(hook)) return { is: 'none' }
  // A link that leads nowhere, a folder or bytes that are no text are somebody's all the same.
  if (!existsSync(hook) || !statSync(hook).isFile()) return { is: 'not-ours' }
  return hookFound(readFileSync(hook, 'utf8'))
}

/** Also a link that leads nowhere. */
function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined
}
