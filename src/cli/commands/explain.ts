import type { Command } from 'commander'
import type { Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

export function addExplain(program: Command, run: Runner): void {
  program
    .command('explain')
    .summary('say why a rule exists, what to do, and show an example')
    .description(
      'Says what a rule looks for, why it matters, what to do, and what it rests on, with an example.',
    )
    .argument('<rule>', 'id of the rule, as `check` prints it')
    .action(
      run(async (here, [id]) => {
        const { allRules, ruleById } = await import('../../rules/all.js')
        const { rulePageText } = await import('../../output/rule-page.js')
        const { nearest } = await import('../../records/nearest.js')
        const rule = ruleById(String(id))
        if (!rule) {
          const meant = nearest(
            String(id),
            allRules.map((known) => known.id),
          )
          throw new UsageError(
            `There is no rule ${id}${meant === undefined ? '; `doorsweep rules` lists them' : `; did you mean ${meant}?`}`,
          )
        }
        here.stdout.write(rulePageText(rule))
        return 0
      }),
    )
}
