import type { Command } from 'commander'
import { Option } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { WrittenAs } from '../written.js'
import { reportFormats } from '../written.js'
import type { DraftFlags } from './precheck-draft.js'

interface PrecheckFlags extends DraftFlags, WrittenAs {
  readonly ledger?: string
  readonly asOf?: string
  readonly rev?: string
  readonly draft?: 'record' | 'notice'
}

export function addPrecheck(program: Command, run: Runner): void {
  program
    .command('precheck')
    .argument('[file]', 'a planned or drafted application; without it, say what is planned')
    .summary('what the rules would say of an application before it is made')
    .description(
      'Tells what would be broken if an application were made as drafted, what is still to do and until when: notices, signs, re-entry, record; and what differs on its other days (`rain-dates`). It is no permission: the label, local code and a licensed applicator decide.',
    )
    .option('--site <site>', 'the site; with a file, when the draft is kept elsewhere')
    .option('--by <person>', 'who is to apply it')
    .option('--on <date>', 'the day it is planned for')
    .option('--time <hours>', 'start and end, such as "15:40 to 16:05"')
    .option('--product <product>', 'the product: its folder in the register')
    .option('--pest <pest>', 'the target pest')
    .option('--area <areas>', 'the area; commas between several')
    .option('--method <method>', 'how it is to be applied, such as crack-and-crevice')
    .option('--amount <amount>', 'undiluted amount in all, such as "2 g"')
    .option('--word <word>', 'tells it from another application of that person and day')
    .option('--as-of <date>', 'today, if another day: it tells which moments have passed')
    .addOption(new Option('--format <format>', 'how to write it').choices([...reportFormats]).default('text'))
    .option('--table <id>', 'csv: which table of the report; the first if not said')
    .option('--show-work', 'also the records and sources behind each row')
    .addOption(
      new Option('--draft <what>', 'instead of the report, a draft of the record or the notice').choices([
        'record',
        'notice',
      ]),
    )
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger, and a draft that lies in it, as of a git revision')
    .addHelpText(
      'after',
      `
Exit codes: 0 nothing would be broken, of what was looked at; 1 something would
be (an error or a warning); 2 called wrongly, or part could not be looked at.

Examples:
  doorsweep precheck sites/oak/applications/2026-04-02-okafor.yaml
  doorsweep precheck --site oak --by okafor --on 2026-04-02 \\
    --time "15:40 to 16:05" --product bait-a --pest german-cockroach \\
    --area kitchen --method crack-and-crevice`,
    )
    .action(
      run(async (here, [file, flags]) => tell(here, file as string | undefined, flags as PrecheckFlags)),
    )
}

async function tell(here: Here, file: string | undefined, flags: PrecheckFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  const { refuseUnknownNames } = await import('./report.js')
  const { draftElsewhere, draftInLedger, draftOfFlags } = await import('./precheck-draft.js')
  const { precheckReport } = await import('../../reports/precheck.js')
  const isInLedger = file !== undefined && flags.site === undefined
  const ledger = openLedger(isInLedger ? [file] : [], flags, here)
  const { source, asOf, asOfIsToday } = ledger
  const { site, pest } = flags
  await refuseUnknownNames(source, {
    asOf,
    asOfIsToday,
    ...(site === undefined ? {} : { site }),
    ...(pest === undefined ? {} : { pest }),
  })
  const draft =
    file === undefined
      ? await draftOfFlags(flags, ledger)
      : isInLedger
        ? await draftInLedger(file, flags, ledger)
        : await draftElsewhere(here, file, flags)
  const { report, found, isBroken } = precheckReport(source, draft, asOf)
  if (flags.draft === undefined) here.stdout.write(await written(report, flags, here))
  else {
    const { noticeDraft, recordDraft } = await import('../../writing/new/application-drafts.js')
    const text = flags.draft === 'record' ? recordDraft(found) : noticeDraft(found)
    if (text === undefined)
      throw new UsageError(
        'This cannot be drafted, since it could not be judged; without --draft it is said why.',
      )
    here.stdout.write(text)
  }
  if (report.incomplete) return 2
  return isBroken ? 1 : 0
}
