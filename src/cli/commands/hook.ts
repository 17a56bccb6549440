import { fileURLToPath } from 'node:url'
import type { Command } from 'commander'
import type { HookInstalled, HookRemoved } from '../../writing/commit-hook.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface HookFlags {
  readonly ledger?: string
}

export function addHook(program: Command, run: Runner): void {
  const hook = program
    .command('hook')
    .summary('have git check the records before every commit')
    .description(
      'Sets up, or takes away, a hook of git that runs `doorsweep check --staged` before every commit and lets nothing through that brings a problem.',
    )
  hook
    .command('install')
    .summary('set up the hook')
    .description(
      'Sets up the hook in the repository around the ledger, for all its work trees. A hook that is there already is kept and runs first. The hook calls the program from where it lies now; when it is gone from there, the one in the node_modules of the checkout, then any on the PATH; when there is none, it says so and refuses.',
    )
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText(
      'after',
      '\nA record that cannot be read refuses every commit that touches the\nledger, since it cannot be told what else is wrong.\nPast the hook, when it must be: git commit --no-verify\n\nExit codes: 0 set up, 2 it could not be, and nothing was changed.',
    )
    .action(run(async (here, [flags]) => install(here, flags as HookFlags)))
  hook
    .command('remove')
    .summary('take the hook away')
    .description(
      'Takes the hook away and puts back the one that was there before. What `hook install` did not write is left alone.',
    )
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText('after', '\nExit codes: 0 it is gone, 2 it is not ours, and nothing was changed.')
    .action(run(async (here, [flags]) => remove(here, flags as HookFlags)))
}

async function install(here: Here, flags: HookFlags): Promise<ExitCode> {
  const { installHook } = await import('../../writing/commit-hook.js')
  const { folder, ledger, isOfSettings } = await placeOfHook(here, flags)
  const path = `${folder}/pre-commit`
  const done = orTold(path, () => installHook(folder, ledger, programRunning()))
  if (done.is !== 'installed' && done.is !== 'was-there') throw new UsageError(notInstalled[done.is](folder))
  here.stdout.write(
    [
      `${done.is === 'installed' ? 'The hook is set up' : 'The hook was set up already'}: ${path}`,
      `Before every commit it checks what is staged of ${ledger === '' ? 'this ledger' : ledger}; past it, when it must be: git commit --no-verify`,
      ...(done.keepsBefore ? ['The hook that was there before is kept, and runs first.'] : []),
      ...(isOfSettings
        ? [
            'The folder is that of the git setting core.hooksPath: other repositories or people may use it too. Where this ledger is not, the hook does nothing.',
          ]
        : []),
      '',
    ].join('\n'),
  )
  return 0
}

const notInstalled: Record<
  Exclude<HookInstalled['is'], 'installed' | 'was-there'>,
  (folder: string) => string
> = {
  'no-folder': (folder) =>
    `${folder} is where git looks for hooks, but it is no folder: hooks are switched off by the git setting core.hooksPath, or a file lies in its place. Mend that and try again.`,
  'changed-by-hand': (folder) =>
    `${folder}/pre-commit was set up by doorsweep and changed by hand since, so it was left alone. Save your changes under another name, take the file away and try again.`,
  'two-before': (folder) =>
    `${folder} holds two hooks that are not of doorsweep: pre-commit, and pre-commit.before-doorsweep of an earlier time. Only one can be kept: take one away or put them together, and try again.`,
}

async function remove(here: Here, flags: HookFlags): Promise<ExitCode> {
  const { removeHook } = await import('../../writing/commit-hook.js')
  const { folder, ledger } = await placeOfHook(here, flags)
  const path = `${folder}/pre-commit`
  const done = orTold(path, () => removeHook(folder, ledger, programRunning()))
  if (done.is === 'not-ours')
    throw new UsageError(`${path} is a hook that doorsweep did not write; it was left alone.`)
  if (done.is === 'changed-by-hand')
    throw new UsageError(
      `${path} was set up by doorsweep and changed by hand since, so it was left alone. Take it away yourself; the hook that was there before, if any, is pre-commit.before-doorsweep beside it.`,
    )
  here.stdout.write(`${removedText(done, path)}\n`)
  return 0
}

function removedText(done: Exclude<HookRemoved, { is: 'not-ours' | 'changed-by-hand' }>, path: string) {
  switch (done.is) {
    case 'removed':
      return `The hook is gone: ${path}${done.isBeforeBack ? '\nThe hook that was there before is back in its place.' : ''}`
    case 'kept-for-others':
      return `The hook no longer checks this ledger; it stays for ${done.ledgers.map((each) => each || 'the one at the top').join(', ')}: ${path}`
    case 'none':
      return `There is no hook of doorsweep for this ledger at ${path}; nothing was changed.`
  }
}

/** Where git looks for the hooks of the repository around the ledger, and where the ledger lies in it. */
async function placeOfHook(here: Here, flags: HookFlags) {
  const { resolve } = await import('node:path')
  const { rootAbove } = await import('../ledger-root.js')
  const { hooksFolder, ledgerInCheckout } = await import('../../files/git-hooks.js')
  const start = resolve(here.cwd(), flags.ledger ?? '.')
  const root = rootAbove(start)
  if (root === undefined)
    throw new UsageError(
      `There is no ledger at ${start}: no district.yaml there or above. Run this in the ledger, or name it with --ledger.`,
    )
  const found = ledgerInCheckout(root)
  const hooks = found && hooksFolder(found.top)
  if (!found || !hooks)
    throw new UsageError(
      `git can read no checkout at ${root}, so there are no hooks; \`git init\` starts one, \`git -C ${root} status\` says what is wrong with one that is there.`,
    )
  return { ...hooks, ledger: found.prefix }
}

/** The program as it runs now: installed for all, in one folder, or a checkout of its own. */
function programRunning() {
  return {
    node: process.execPath,
    file: fileURLToPath(new URL('../../../bin/doorsweep.js', import.meta.url)),
  }
}

/** A folder that may not be written to is no fault of the program. */
function orTold<T>(path: string, work: () => T): T {
  try {
    return work()
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : ''
    if (code === '') throw error
    throw new UsageError(`${path} could not be written (${code}); see who may write there, and try again.`)
  }
}
