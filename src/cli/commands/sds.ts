import type { Command } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'
import type { ReportFlags } from './report.js'
import { addWritingOptions } from './report.js'

export interface SdsFlags extends ReportFlags {
  readonly product?: string
  readonly inForce?: boolean
}

export function addSds(program: Command, run: Runner): void {
  const command = program
    .command('sds')
    .argument('<product or file>', 'a product of the register: its folder; or the PDF of a sheet')
    .summary('read a safety data sheet from its PDF and hold it against the register')
    .description(
      'Reads the PDF of a safety data sheet: product identifier, EPA number, revision date and the sixteen headings of 29 CFR 1910.1200, Appendix D; holds them against the register, and ends with an entry to paste. It judges nothing that stands under a heading and changes nothing.',
    )
    .option('--product <product>', 'with a file: the product it is a sheet of')
    .option('--in-force', 'with a product: only the sheet in force, not all of them')
  addWritingOptions(command)
    .addHelpText(
      'after',
      `
Exit codes: 0 found, and agrees with the register; 1 something differs, is not
found, could be either, or is not in the register; 2 called wrongly, or a file
could not be read as a sheet: no PDF, encrypted, a scan, another language.

Reading a PDF takes an optional package; where it is not installed, this says
how to install it. No other command needs it.

Examples:
  doorsweep sds roach-gel
  doorsweep sds ~/Downloads/sheet.pdf --product roach-gel
  doorsweep sds sheet.pdf --format csv --table headings`,
    )
    .action(run(async (here, [what, flags]) => writeSds(here, String(what), flags as SdsFlags)))
}

async function writeSds(here: Here, what: string, flags: SdsFlags): Promise<ExitCode> {
  const { sheetsAsked } = await import('./sds-sheets.js')
  const { sdsReport } = await import('../../reports/sds.js')
  const { written } = await import('../written.js')
  const { sheets, subject, asOf } = await sheetsAsked(here, what, flags)
  const { report, isOpen } = sdsReport(sheets, subject, asOf)
  here.stdout.write(await written(report, flags, here))
  if (report.incomplete) return 2
  return isOpen ? 1 : 0
}
