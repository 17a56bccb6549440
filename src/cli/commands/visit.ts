import type { Command } from 'commander'
import { Option } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'

export interface VisitFlags {
  readonly by?: string
  readonly on?: string
  readonly enteredBy?: string
  readonly onPaper?: string
  readonly word?: string
  readonly blank?: boolean
  readonly file?: string
  readonly ledger?: string
  readonly terminal?: boolean
}

export function addVisit(program: Command, run: Runner): void {
  program
    .command('visit')
    .argument('<site>', 'the site: the name of its folder')
    .summary('asks what is due at a site, in walking order, and writes the visit')
    .description(
      'Asks what is due at a site, in walking order, and writes the record of the visit: what was answered and nothing else. Every answer is on the disk before the next question, so a visit that was cut off goes on where it was. Also for typing a page that was filled in on paper.',
    )
    .option('--by <person>', 'who made the visit; asked for if not said')
    .option('--on <date>', 'the day it was made; today if not said')
    .option('--entered-by <person>', 'who types it, when that is someone else')
    .option('--on-paper <date>', 'day the paper was filled in, when it is typed from paper')
    .option('--word <word>', 'tells two visits of one person and day apart')
    .option('--blank', 'print the record with everything due as a blank, to fill in with an editor')
    .option('--file <path>', 'write the visit from a filled-in record, all or nothing')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addOption(new Option('--terminal', 'take lines from standard input though it is no terminal').hideHelp())
    .addHelpText(
      'after',
      `
While it asks: Enter takes what stands in brackets, ? shows what can be typed, u takes the last answer back, q stops and
keeps everything. Words may be cut short while only one fits. A device set, moved, picked up, put out or taken up, a plant, a
photo, or who supervised is told where one comes to it, or at the end.

Exit codes: 0 written, 2 not written, 130 interrupted (what was answered is kept).

Examples:
  doorsweep visit ottermere --by okafor
  doorsweep visit ottermere --by okafor --on 2026-03-12 --entered-by reyes --on-paper 2026-03-12
  doorsweep visit ottermere --blank > /tmp/ottermere.yaml
  doorsweep visit ottermere --file /tmp/ottermere.yaml`,
    )
    .action(run(async (here, [site, flags]) => visit(here, String(site), flags as VisitFlags)))
}

async function visit(here: Here, site: string, flags: VisitFlags): Promise<ExitCode> {
  const { startOf } = await import('../visit-start.js')
  const start = await startOf(here, site, flags)
  if (flags.file !== undefined)
    return (await import('../visit-file.js')).writeFromFile(here, start, flags.file)
  if (flags.blank === true) return (await import('../visit-file.js')).printBlank(here, start)
  return (await import('../visit-terminal.js')).askVisit(here, start)
}
