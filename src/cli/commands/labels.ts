import type { Command } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'
import type { ReportFlags } from './report.js'
import { addWritingOptions, optionsOf, refuseUnknownNames } from './report.js'

export function addLabels(program: Command, run: Runner): void {
  const command = program
    .command('labels')
    .argument('<site>', 'the site: the name of its folder')
    .summary('the labels and safety data sheets of one site, to have at hand')
    .description(
      'Tells which products were used at a site in the last twelve months or are kept there, with the registration number, the label and the safety data sheet of each, and whether these are there, unchanged and in force.',
    )
    .option('--from <date>', 'products used since this day, if not in the last twelve months')
  addWritingOptions(command)
    .addHelpText(
      'after',
      '\nExit codes: 0 written, also when a label or a sheet is missing or changed, which\nfails `doorsweep check`; 2 called wrongly, or part of it could not be examined.\n\nExample:\n  doorsweep labels ottermere --as-of 2026-06-30',
    )
    .action(run(async (here, [site, flags]) => writeLabels(here, String(site), flags as ReportFlags)))
}

async function writeLabels(here: Here, site: string, flags: ReportFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  const ledger = openLedger([], flags, here)
  const options = await optionsOf(flags, ledger)
  await refuseUnknownNames(ledger.source, { ...options, site })
  const { labelsReport } = await import('../../reports/labels.js')
  const report = labelsReport(ledger.source, options, site)
  here.stdout.write(await written(report, flags, here))
  return report.incomplete ? 2 : 0
}
