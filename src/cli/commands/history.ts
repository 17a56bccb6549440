import type { Command } from 'commander'
import type { OpenLedger } from '../find-ledger.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { ReportFlags } from './report.js'
import { addWritingOptions, optionsOf, refuseUnknownNames } from './report.js'

export function addHistory(program: Command, run: Runner): void {
  const command = program
    .command('history')
    .summary('what git says about the records')
    .description(
      'What git says about the records: which came in late, were changed without a stated correction, deleted, renamed or lost in a merge; dates that disagree; authors whom the ledger does not know; commits without a signature where the district asks for one; and every correction that is stated.',
    )
    .option('--site <site>', 'only records of this site')
    .option('--from <date>', 'first day of the commits that are told')
    .option('--to <date>', 'last day of the commits that are told')
  addWritingOptions(command)
    .addHelpText(
      'after',
      `
Git's dates and names are claims of whoever made a commit. Signatures are looked for, and not tested.

Exit codes: 0 written, 2 called wrongly, no git here, or part of the history or of the ledger could not be examined.

Examples:
  doorsweep history --from 2025-07-01 --to 2026-06-30 --format markdown
  doorsweep history --format csv --table changed`,
    )
    .action(run(async (here, [flags]) => writeHistory(here, flags as ReportFlags)))
}

async function writeHistory(here: Here, flags: ReportFlags): Promise<ExitCode> {
  const { openLedger, timeZoneOf } = await import('../find-ledger.js')
  const { revision } = await import('../../files/git-source.js')
  const { revisionInWords } = await import('../../files/git-revision.js')
  const { timeZone } = await import('../../measure/zone.js')
  const { collectHistory } = await import('../../reports/history/collect.js')
  const { historyReport } = await import('../../reports/history/report.js')
  const { written } = await import('../written.js')
  const ledger = openLedger([], flags, here)
  const options = await optionsOf(flags, ledger)
  // What is told is what was committed: a file that only lies on the disk is not in git.
  const committed = revision(ledger.root, flags.rev ?? 'HEAD')
  const collected = collectHistory({
    root: ledger.root,
    rev: flags.rev,
    zone: timeZone(timeZoneOf(committed ?? ledger.source)),
    asOf: ledger.asOf,
    asOfIsToday: ledger.asOfIsToday,
  })
  if (collected.is !== 'walked' || !committed) throw new UsageError(whyNot(collected, ledger))
  if (collected.facts.commits.length === 0)
    throw new UsageError(
      `No commit holds anything of the ledger at ${ledger.root}, so git says nothing about its records. Commit it first: git add, git commit.`,
    )
  await refuseUnknownNames(committed, options)
  const report = historyReport(committed, collected.facts, {
    ...options,
    revision: revisionInWords(ledger.root, ledger.source, flags.rev),
  })
  here.stdout.write(await written(report, flags, here))
  return report.incomplete ? 2 : 0
}

function whyNot(collected: { readonly is: string; readonly why?: string }, { root }: OpenLedger): string {
  switch (collected.is) {
    case 'no commit yet':
      return `There is no commit yet in the git checkout at ${root}, so git says nothing about its records. Commit them first: git add, git commit.`
    case 'stopped':
      return `What git says about the ledger at ${root} could not be read: ${collected.why}.`
    default:
      return `The ledger at ${root} is in no git checkout that can be read, so nothing says when its records were written or changed. Either it is not under git, git is not installed, or git does not trust a folder of another user (git's setting safe.directory).`
  }
}
