import { realpathSync } from 'node:fs'
import { relative, resolve, sep } from 'node:path'
import { git } from './git.js'
import { topOfCheckout } from './git-environment.js'

/** Where a ledger lies in a git checkout. */
export interface LedgerInCheckout {
  /** The top of the checkout, as an absolute path without links. */
  readonly top: string
  /** Folder of the ledger from the top, with forward slashes; `''` when it is the top itself. */
  readonly prefix: string
}

/** Undefined where no checkout is around the ledger. Git need not be there to be asked. */
export function ledgerInCheckout(root: string): LedgerInCheckout | undefined {
  const top = topOfCheckout(root)
  if (top === undefined) return undefined
  return { top, prefix: relative(top, realpathSync.native(root)).split(sep).join('/') }
}

/** Where git looks for hooks. */
export interface HooksFolder {
  /** An absolute path. */
  readonly folder: string
  /** Whether the setting `core.hooksPath` says so; else it is the folder that all work trees of the repository share. */
  readonly isOfSettings: boolean
}

/** The folder from which git runs the hooks of a checkout. Undefined where git cannot tell. */
export function hooksFolder(top: string): HooksFolder | undefined {
  const common = git(top, ['rev-parse', '--git-common-dir'])
  const values = git(top, ['config', '--null', '--type=path', '--get-all', 'core.hooksPath'])
  if (common === null || values === null) return undefined
  // The last is our own, which `git` gives on the command line to switch hooks off; the one before it holds without.
  const set = values.toString('utf8').split('\0').slice(0, -2).at(-1)
  // Git takes a path that is not absolute from the folder in which it runs hooks, which is the top.
  return set === undefined
    ? { folder: resolve(top, lineOf(common), 'hooks'), isOfSettings: false }
    : { folder: resolve(top, set), isOfSettings: true }
}

function lineOf(output: Buffer): string {
  return output.toString('utf8').replace(/\r?\n$/, '')
}
