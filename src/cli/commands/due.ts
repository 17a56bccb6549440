import type { Command } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { ReportFlags } from './report.js'
import { addWritingOptions, optionsOf, refuseUnknownNames } from './report.js'

type DueFlags = ReportFlags & { readonly days: string }

export function addDue(program: Command, run: Runner): void {
  const command = program
    .command('due')
    .summary('what is due, in walking order')
    .description(
      'Everything that is overdue or due within some days, in walking order: devices to read, areas to inspect, conditions, complaints, follow-ups, plants, notices and signs, training and licences that end, the yearly review. Keys and who lets you in stand beside it.',
    )
    .option('--site <site>', 'only this site')
    .option('--days <number>', 'how many days ahead', '14')
  addWritingOptions(command)
    .addHelpText(
      'after',
      '\nExit codes: 0 written, 2 called wrongly, or part of the ledger could not be examined.',
    )
    .action(run(async (here, [flags]) => writeDue(here, flags as DueFlags)))
}

async function writeDue(here: Here, flags: DueFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { dueReport } = await import('../../reports/due.js')
  const { written } = await import('../written.js')
  const { keepAnswer } = await import('../answers/keep.js')
  const { stateOfFiles } = await import('../answers/state.js')
  if (!/^[0-9]{1,3}$/.test(flags.days))
    throw new UsageError(`--days ${flags.days}: a whole number of days, such as 14.`)
  const ledger = openLedger([], flags, here)
  const options = await optionsOf(flags, ledger)
  await refuseUnknownNames(ledger.source, options)
  const state = stateOfFiles(ledger.root, ledger.source, flags.site, Date.now())
  const report = dueReport(ledger.source, { ...options, days: Number(flags.days) })
  const text = await written(report, flags, here)
  const exitCode = report.incomplete ? 2 : 0
  here.stdout.write(text)
  keepAnswer(here, ledger, {
    text,
    exitCode,
    start: flags.ledger ?? '.',
    state,
    ...(flags.site === undefined ? {} : { site: flags.site }),
  })
  return exitCode
}
