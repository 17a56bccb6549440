import type { Command } from 'commander'
import type { Runner } from '../runner.js'

export function addMan(program: Command, run: Runner): void {
  program
    .command('man')
    .summary('print the manual page')
    .description('Prints the manual page of all commands, as man and other programs for such pages read it.')
    .addHelpText(
      'after',
      `
Examples:
  doorsweep man | man -l -
  doorsweep man > ~/.local/share/man/man1/doorsweep.1`,
    )
    .action(
      run(async (here) => {
        const { manPage } = await import('../man/page.js')
        const { version } = await import('../version.js')
        here.stdout.write(manPage(program, version()))
        return 0
      }),
    )
}
