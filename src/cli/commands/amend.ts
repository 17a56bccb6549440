import type { Command } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'

export interface AmendFlags {
  readonly why?: string
  readonly by?: string
  readonly on?: string
  readonly set?: readonly string[]
  readonly remove?: readonly string[]
  readonly ledger?: string
}

export function addAmend(program: Command, run: Runner): void {
  program
    .command('amend')
    .summary('correct a committed record, and say so in it')
    .description(
      'Corrects a committed event: changes what is asked for, or takes the changes that were made in an editor, and adds who corrected it, when, why and which keys under `corrections`. Comments and layout stay. Nothing is written that breaks the record.',
    )
    .argument('<record>', 'the record: its file, or site/date-who')
    .option('--by <person>', 'who corrects it')
    .option('--why <text>', 'why it is corrected')
    .option('--on <date>', 'the day it is corrected; today if not said')
    .option('--set <key=value>', 'what a key is to say; may be given more than once', several)
    .option('--remove <key>', 'a key to take away; may be given more than once', several)
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText(
      'after',
      `
A key is written with dots: readings.K7.renewed. Without --set and --remove, what differs from the last commit is stated;
if nothing does, this tells how to correct the record. Reference files (people, products, plans, sites, district.yaml) are
not corrected: they hold dated spans, and what changes is a new one.

Exit codes: 0 written, or nothing was asked to be; 2 not written.

Examples:
  doorsweep amend ottermere/2026-03-12-okafor --by okafor --why "left later than first written" --set "time=06:10 to 06:55"
  doorsweep amend sites/ottermere/visits/2026-03-12-okafor.yaml --by okafor --why "K7 was K1 on the paper" --remove readings.K7`,
    )
    .action(run(async (here, [record, flags]) => amend(here, String(record), flags as AmendFlags)))
}

/** Not variadic: `--set a=1 b=2` would take what follows for another change. */
function several(text: string, before: readonly string[] | undefined): readonly string[] {
  return [...(before ?? []), text]
}

async function amend(here: Here, record: string, flags: AmendFlags): Promise<ExitCode> {
  return (await import('./amend-record.js')).amendRecord(here, record, flags)
}
