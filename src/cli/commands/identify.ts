import type { Command } from 'commander'
import { Option } from 'commander'
import type { MeasuredFeature, WordFeature } from '../../records/identification.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import type { WrittenAs } from '../written.js'
import { reportFormats } from '../written.js'

type Flags = WrittenAs & Readonly<Record<string, string | readonly string[] | undefined>>

const lengths: Readonly<Record<MeasuredFeature, string>> = {
  length: 'from head to tip of the body, of an insect and the like: "14 mm", "0.5 in"',
  'length-with-tail': 'of a mouse or rat, tail included',
  'length-without-tail': 'of a mouse or rat, head and body',
  droppings: 'length of a dropping',
  'egg-case': 'length of an egg case',
}

export function addIdentify(program: Command, run: Runner): void {
  const command = program
    .command('identify')
    .summary('from what was seen to the pests it can be')
    .description(
      'From what was seen of an animal or of its traces to the pests it can be: what fits, what speaks against, what to look at next, when to ask someone who knows. A length alone names nothing. `doorsweep identify` alone lists the words.',
    )
  for (const [feature, says] of Object.entries(lengths)) command.option(`--${feature} <length>`, says)
  for (const [feature, says] of Object.entries(words)) command.option(`--${feature} <word...>`, says)
  command
    .addOption(new Option('--format <format>', 'how to write it').choices([...reportFormats]).default('text'))
    .option('--table <id>', 'csv: which table; the first if not said')
    .option('--show-work', 'also the sources of every statement')
    .addHelpText(
      'after',
      '\nExit codes: 0 written, 2 called wrongly.\n\nExamples:\n  doorsweep identify --wings four-equal --waist broad --antennae beaded\n  doorsweep identify --droppings "6 mm" --ends pointed --where kitchen\n  doorsweep identify --length "3 mm" --body humped --signs runs',
    )
    .action(run(async (here, [flags]) => writeIdentify(here, flags as Flags)))
}

/** The words of each stand in the table; they are read only when asked for. */
const words: Readonly<Record<WordFeature, string>> = {
  colour: 'which colour most of it has',
  marks: 'what stands out on it',
  wings: 'what wings it has',
  waist: 'how the body narrows behind the legs',
  antennae: 'what its antennae are like',
  legs: '6, 8 or many',
  body: 'how its body is shaped',
  ends: 'what the ends of its droppings are like',
  tail: 'how long the tail is, against head and body',
  ears: 'how large its ears are',
  fur: 'fur or feathers',
  nest: 'what its nest is made of',
  tubes: 'tubes of soil on a wall or a post',
  where: 'where it was',
  when: 'day or night',
  signs: 'what else was seen, smelled or heard',
}

async function writeIdentify(here: Here, flags: Flags): Promise<ExitCode> {
  const { seenIn } = await import('./identify-seen.js')
  const { dayWithoutLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  const seen = seenIn(flags)
  const day = dayWithoutLedger(undefined, here)
  const report = seen
    ? (await import('../../reports/identify.js')).identifyReport(seen, day)
    : (await import('../../reports/identify-words.js')).identifyWordsReport(day)
  here.stdout.write(await written(report, flags, here))
  return 0
}
