import type { Command } from 'commander'
import { Option } from 'commander'
import type { MixRequest } from '../../reports/mix.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { MixFlags } from './mix-request.js'
import { addWritingOptions } from './report.js'

export function addMix(program: Command, run: Runner): void {
  const command = program
    .command('mix')
    .summary("check a label's arithmetic: product, water and active ingredient")
    .description(
      "Works out what a label's directions come to: undiluted product, water and active ingredient, with every step. It is arithmetic and authorises no application; the printed label decides.",
    )
    .option('--strength <strength>', 'how strong the product is: "48 %", "4 lb/gal", "480 g/L"')
    .option('--target <strength>', 'how strong the mix is to be: "1 %"')
    .option('--make <amount>', 'how much mix to make: "55 gal", "10 lb"')
    .option('--rate <amount>', 'how much the label asks for: "1 fl oz", "2 lb"')
    .option('--per <size>', 'on or in how much: "1000 ft2", "1 acre", "100 gal" of mix, "placement"')
    .option('--area <size>', 'how much is treated: "2500 ft2", "0.5 acre", "12 placement"')
    .addOption(
      new Option(
        '--of <what>',
        'what the rate is of; product if not said, but active with a --strength per volume and a rate in weight',
      ).choices(['product', 'active']),
    )
    .option('--water <amount>', 'water the label asks for: "1 gal"')
    .option('--water-per <size>', 'on how much that water goes: "1000 ft2"')
    .option('--density <density>', 'weight of a volume of the undiluted product: "8.6 lb/gal"')
    .option('--diluent-density <density>', 'weight of a volume of the diluent; water is "8.34 lb/gal"')
    .option('--product <product>', 'a product of the ledger: its strength, density and label rates')
    .option('--method <method>', 'how it is to be applied, where the label has rates by method')
    .option('--active <ingredient>', 'which active ingredient of the product, where it has several')
  addWritingOptions(command)
    .addHelpText(
      'after',
      '\nExit codes: 0 written; 1 written, and above a label rate that the register tells;\n2 called wrongly, or with --product and no label rate could be held against it.\n\nExamples:\n  doorsweep mix --strength "48 %" --target "1 %" --make "55 gal"\n  doorsweep mix --rate "1 fl oz" --per "1000 ft2" --area "2500 ft2" --water "1 gal" --water-per "1000 ft2"\n  doorsweep mix --strength "4 lb/gal" --of active --rate "1 lb" --per "1 acre" --area "0.5 acre"\n  doorsweep mix --rate "2 lb" --per "100 gal" --make "300 gal"',
    )
    .action(run(async (here, [flags]) => writeMix(here, flags as MixFlags)))
}

async function writeMix(here: Here, flags: MixFlags): Promise<ExitCode> {
  const { mixRequest } = await import('./mix-request.js')
  const { mixReport } = await import('../../reports/mix.js')
  const { written } = await import('../written.js')
  const request = await mixRequest(flags, here)
  const mixed = mixReport(request)
  if (typeof mixed === 'string') throw new UsageError(noMix(mixed, request))
  here.stdout.write(await written(mixed.report, flags, here))
  if (mixed.report.incomplete) return 2
  return mixed.isAboveLabel ? 1 : 0
}

type NoMix = Extract<ReturnType<typeof import('../../reports/mix.js').mixReport>, string>

function noMix(why: NoMix, { asked }: MixRequest): string {
  switch (why) {
    case 'target stronger than product':
      return `The target is stronger than the product; water only makes it weaker. Look at --target and --strength again${asked.kind === 'strength' ? ` (${asked.target.value} ${asked.target.unit} from ${asked.strength.value} ${asked.strength.unit})` : ''}.`
    case 'more product than mix':
      return 'More undiluted product would go in than there is mix to make: the product is too weak for that, or a unit is not the one on the label. Look at strength, rate and units again.'
    case 'density of the diluent needed':
      return 'A percent is a share of weight here and a weight per volume is not: this takes the weight of a volume of the diluent. For water write --diluent-density "8.34 lb/gal".'
  }
}
