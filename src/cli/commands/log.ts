import type { Command } from 'commander'
import { Option } from 'commander'
import { complaintFrom, evidenceKinds, owners, traceAges } from '../../records/event-words.js'
import type { Runner } from '../runner.js'

export interface LogFlags {
  readonly site: string
  readonly by: string
  readonly enteredBy?: string
  readonly onPaper?: string
  readonly on?: string
  readonly word?: string
  readonly print?: boolean
  readonly ledger?: string
  readonly from?: string
  readonly at?: string
  readonly area?: string
  readonly pest?: string
  readonly other?: string
  readonly mends?: readonly string[]
  readonly owner?: string
  readonly order?: string
  readonly cost?: string
  readonly evidence?: string
  readonly age?: string
  readonly count?: string
  readonly cleaned?: string
  readonly looks?: string
  readonly name?: string
}

export function addLog(program: Command, run: Runner): void {
  const log = program
    .command('log')
    .summary('note a complaint, a repair or a sighting in one line')
    .description(
      'Notes a complaint, a repair or a sighting in one line: writes its record, and says what is now due of it. Nothing is written while a name in it is unknown or a day does not exist.',
    )
  withNoted(
    log
      .command('complaint')
      .argument('<says>', 'what was said; never the name of a pupil or a parent')
      .addOption(
        new Option('--from <role>', 'who complained, by role only')
          .choices([...complaintFrom])
          .default('staff'),
      )
      .option('--at <time>', 'when it came in: 09:10')
      .option('--area <area>', 'where')
      .option('--pest <pest>', 'pest, or unidentified')
      .option('--other <animal>', 'an animal that is in no table'),
    'doorsweep log complaint "droppings in the paper drawer" --site ottermere --by lind --area room-12 --pest house-mouse',
  ).action(run(async (here, [says, flags]) => write(here, 'complaint', String(says), flags as LogFlags)))
  withNoted(
    log
      .command('repair')
      .argument('<done>', 'what was done')
      .option('--mends <condition...>', 'conditions it mends, by their short names')
      .option('--area <area>', 'where')
      .addOption(new Option('--owner <owner>', 'whose work it was').choices([...owners]))
      .option('--order <order>', 'work order')
      .option('--cost <amount>', 'what it cost: "84 USD"'),
    'doorsweep log repair "new P-trap under the prep sink" --site ottermere --by ruiz --mends sink-drip',
  ).action(run(async (here, [done, flags]) => write(here, 'repair', String(done), flags as LogFlags)))
  withNoted(
    log
      .command('sighting')
      .requiredOption('--area <area>', 'where')
      .addOption(
        new Option('--evidence <kind>', 'what was seen of it')
          .choices([...evidenceKinds])
          .makeOptionMandatory(),
      )
      .option('--pest <pest>', 'pest, or unidentified')
      .option('--other <animal>', 'an animal that is in no table')
      .addOption(new Option('--age <age>', 'droppings and other traces').choices([...traceAges]))
      .option('--count <number>', 'how many')
      .addOption(new Option('--cleaned <yes-or-no>', 'whether traces were cleaned up').choices(['yes', 'no']))
      .option('--looks <text>', 'what it looks like, while it is not identified')
      .option('--name <name>', 'short name by which later records refer to it'),
    'doorsweep log sighting --site ottermere --by lind --area kitchen --pest house-mouse --evidence droppings --age fresh',
  ).action(run(async (here, [flags]) => write(here, 'sighting', '', flags as LogFlags)))
}

async function write(
  here: Parameters<Parameters<Runner>[0]>[0],
  kind: 'complaint' | 'repair' | 'sighting',
  says: string,
  flags: LogFlags,
) {
  const { writeLog } = await import('./log-write.js')
  return writeLog(here, kind, says, flags)
}

function withNoted(command: Command, example: string): Command {
  return command
    .requiredOption('--site <site>', 'the site')
    .requiredOption('--by <person>', 'who noted or did it')
    .option('--entered-by <person>', 'who typed it, when that was someone else')
    .option('--on-paper <date>', 'day the paper was filled in, when it was typed from paper')
    .option('--on <date>', 'the day it happened; today if not said')
    .option('--word <word>', 'tells two records of one person, kind and day apart')
    .option('--print', 'write it to standard output instead of a file')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText('after', `\nExit codes: 0 written, 2 not written.\n\nExample:\n  ${example}`)
}
