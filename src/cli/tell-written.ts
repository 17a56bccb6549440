import { join, relative } from 'node:path'
import type { WrittenChecked } from '../writing/write-checked.js'
import type { OpenLedger } from './find-ledger.js'
import { problemsShown } from './problems-shown.js'
import type { ExitCode, Here } from './runner.js'
import { UsageError } from './usage-error.js'

/** What became of one new record: its path on standard output, and on standard error what it brings. */
export function tellWritten(done: WrittenChecked, file: string, ledger: OpenLedger, here: Here): ExitCode {
  const shown = relative(here.cwd(), join(ledger.root, file))
  if (done.is === 'refused')
    throw new UsageError(
      `${shown} ${done.why.detail}.${done.why.refused === 'taken' ? ' Add --word and a word that tells them apart.' : ''}`,
    )
  if (done.brought.length > 0) here.stderr.write(problemsShown(done.brought, ledger, here))
  if (done.is === 'wrong') {
    here.stderr.write('Nothing was written.\n')
    return 2
  }
  here.stdout.write(`${shown}\n`)
  return 0
}
