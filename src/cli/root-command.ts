import { Command } from 'commander'
import type { Surroundings } from './terminal.js'
import { version } from './version.js'

/** The program without its commands. */
export function rootCommand({ stdout, stderr }: Surroundings): Command {
  const program = new Command('doorsweep')
  program
    .description(
      "Keeps a school district's pest control file honest: checks a ledger of plain YAML files, and reports from it.",
    )
    .version(`doorsweep ${version()}`, '-V, --version', 'print the version')
    .option('--color', 'use colour')
    .option('--no-color', 'use no colour')
    .configureOutput({ writeOut: (text) => stdout.write(text), writeErr: (text) => stderr.write(text) })
    .exitOverride()
    .showHelpAfterError('(add --help for usage)')
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 problems found, 2 called wrongly or something could not be checked.\n\nExamples:\n  doorsweep check\n  doorsweep report trend --pest german-cockroach\n  doorsweep explain dangling-reference',
    )
  program.setOptionValueWithSource('color', undefined, 'default')
  return program
}
