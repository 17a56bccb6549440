import { execFileSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { ledgerWith } from '../../src/rules/base-ledger.js'
import type { Ran } from './run-doorsweep.js'
import { git, newFolder, run, writeFiles } from './run-doorsweep.js'

/** A repository whose ledger lies in a folder with a blank in its name, beside other files. */
export class GitLedger {
  readonly top: string
  readonly ledger: string

  constructor(overlay: string | null = '') {
    this.top = join(newFolder(), 'a repository')
    this.ledger = join(this.top, 'pest records')
    writeFiles(this.top, new Map([['other.txt', 'not of the ledger\n']]))
    this.git('init', '-q')
    if (overlay !== null) this.commit(overlay)
  }

  /** Makes the ledger what an overlay on the base makes it. */
  write(overlay: string): void {
    rmSync(this.ledger, { recursive: true, force: true })
    writeFiles(this.ledger, ledgerWith(overlay))
  }

  commit(overlay: string): void {
    this.write(overlay)
    this.git('add', '-A')
    this.git('commit', '-q', '--no-verify', '--allow-empty', '-m', 'records')
  }

  git(...args: string[]): void {
    git(this.top, ...args)
  }

  /** The commit a name stands for. */
  idOf(name: string): string {
    return execFileSync('git', ['rev-parse', name], { cwd: this.top, encoding: 'utf8' }).trim()
  }

  check(...args: string[]): Promise<Ran> {
    return run(this.ledger, ['check', '--as-of', '2026-03-20', ...args])
  }
}

/** Rule and place of each problem, as a person reads them. */
export function toldIn(out: string): string[] {
  return [...out.matchAll(/^([^ \n]+:\d+:\d+): (?:error|warning|note): .* \[([a-z-]+)\]$/gm)].map(
    ([, place, rule]) => `${rule} ${place}`,
  )
}
