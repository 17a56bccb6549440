import type { Command } from 'commander'
import type { Runner } from '../runner.js'

export function addRules(program: Command, run: Runner): void {
  program
    .command('rules')
    .summary('list every rule')
    .description('Lists every rule with its level and what it looks for.')
    .action(
      run(async (here) => {
        const { allRules } = await import('../../rules/all.js')
        const { ruleListText } = await import('../../output/rule-page.js')
        here.stdout.write(ruleListText(allRules, here.painter))
        return 0
      }),
    )
}
