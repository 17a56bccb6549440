import type { Command } from 'commander'
import { Argument } from 'commander'
import type { Shell } from '../complete/shells.js'
import { shells } from '../complete/shells.js'
import type { Runner } from '../runner.js'

export function addCompletion(program: Command, run: Runner): void {
  program
    .command('completion')
    .summary('complete commands, options and names in bash, zsh or fish')
    .description(
      'Prints a script for your shell. With it the tab key completes commands, options and their words, and names of the ledger around you: sites, areas, people, pests, products, conditions, visits, applications; and rules.',
    )
    .addArgument(new Argument('<shell>', 'your shell').choices([...shells]))
    .addHelpText(
      'after',
      `
What it offers are names that stand in the ledger, right or wrong; nothing is checked, and nothing is changed.

Examples:
  source <(doorsweep completion bash)        # in ~/.bashrc
  source <(doorsweep completion zsh)         # in ~/.zshrc
  doorsweep completion fish | source         # in ~/.config/fish/config.fish`,
    )
    .action(
      run(async (here, [shell]) => {
        const { scripts } = await import('../complete/scripts.js')
        here.stdout.write(scripts[shell as Shell])
        return 0
      }),
    )
}
