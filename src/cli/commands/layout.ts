import type { Command } from 'commander'
import { Option } from 'commander'
import type { Quantity } from '../../measure/quantities.js'
import { deviceKinds } from '../../records/device-kinds.js'
import type { NoStretch, StretchAsked } from '../../reports/layout-stretch.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { WrittenAs } from '../written.js'
import { reportFormats } from '../written.js'
import type { ReportFlags } from './report.js'
import { addWritingOptions, optionsOf, refuseUnknownNames } from './report.js'

interface StretchFlags extends WrittenAs {
  readonly pest: string
  readonly kind?: StretchAsked['kind']
  readonly atMost?: string
}

export function addLayout(program: Command, run: Runner): void {
  const layout = program
    .command('layout')
    .summary('how many devices and how far apart; what runs leave open; what to seal')
    .description(
      'How many devices a wall or a room takes and how far apart, by pest and kind; what the present runs of a site leave open; what an opening lets in, and what stops it.',
    )
  const stretch = (command: Command) =>
    withFormat(
      command
        .requiredOption('--pest <pest>', 'against which pest')
        .addOption(new Option('--kind <kind>', 'kind of device').choices([...deviceKinds]))
        .option('--at-most <distance>', 'another distance than the usual one: "10 ft"'),
    )
  stretch(layout.command('wall').argument('<length>', 'how long it is: "60 ft"'))
    .description('Devices along one wall.')
    .action(
      run(async (here, [length, flags]) =>
        writeStretch(here, flags as StretchFlags, { wall: await lengthIn('length', String(length)) }),
      ),
    )
  stretch(
    layout
      .command('room')
      .argument('<length>', 'one side: "30 ft"')
      .argument('<width>', 'the other side: "24 ft"'),
  )
    .description('Devices along all walls of a room.')
    .action(
      run(async (here, [length, width, flags]) =>
        writeStretch(here, flags as StretchFlags, {
          room: [await lengthIn('length', String(length)), await lengthIn('width', String(width))],
        }),
      ),
    )
  addWritingOptions(layout.command('runs').argument('<site>', 'the site'))
    .description('What the present runs of a site leave open.')
    .action(run(async (here, [site, flags]) => writeRuns(here, String(site), flags as ReportFlags)))
  withFormat(
    layout
      .command('seal')
      .option('--pest <pest>', 'against which pest')
      .option('--opening <width>', 'how wide the opening is: "0.5 in"'),
  )
    .description('What an opening lets in, and what stops it.')
    .action(
      run(async (here, [flags]) => writeSeal(here, flags as WrittenAs & { pest?: string; opening?: string })),
    )
}

function withFormat(command: Command): Command {
  return command
    .addOption(new Option('--format <format>', 'how to write it').choices([...reportFormats]).default('text'))
    .option('--show-work', 'also the sources')
    .addHelpText('after', '\nExit codes: 0 written, 2 called wrongly.')
}

async function writeStretch(
  here: Here,
  flags: StretchFlags,
  stretch: Pick<StretchAsked, 'wall' | 'room'>,
): Promise<ExitCode> {
  const { layoutStretchReport } = await import('../../reports/layout-stretch.js')
  const { dayWithoutLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  await knownPest(flags.pest)
  const report = layoutStretchReport({
    asOf: dayWithoutLedger(undefined, here),
    pest: flags.pest,
    ...(flags.kind === undefined ? {} : { kind: flags.kind }),
    ...(flags.atMost === undefined ? {} : { atMost: await lengthIn('--at-most', flags.atMost) }),
    ...stretch,
  })
  if (typeof report === 'string') throw new UsageError(await whyNot(report, flags))
  here.stdout.write(await written(report, flags, here))
  return 0
}

async function whyNot(why: NoStretch, { pest, kind }: StretchFlags): Promise<string> {
  switch (why) {
    case 'nothing known of the pest':
      return `No distance between devices is known against ${pest}; it is for mice, rats and crawling insects.`
    case 'kind does not fit the pest': {
      const { spacingFor } = await import('../../reports/layout-spacing.js')
      return `--kind ${kind}: against ${pest} it is ${spacingFor(pest)?.row.kinds.join(', ')}.`
    }
    case 'too long':
      return 'That would be more than a thousand devices; is the unit right?'
  }
}

async function writeRuns(here: Here, site: string, flags: ReportFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { layoutRunsReport } = await import('../../reports/layout-runs.js')
  const { written } = await import('../written.js')
  const ledger = openLedger([], flags, here)
  const options = { ...(await optionsOf(flags, ledger)), site }
  await refuseUnknownNames(ledger.source, options)
  const report = layoutRunsReport(ledger.source, site, options)
  here.stdout.write(await written(report, flags, here))
  return report.incomplete ? 2 : 0
}

async function writeSeal(
  here: Here,
  flags: WrittenAs & { readonly pest?: string; readonly opening?: string },
): Promise<ExitCode> {
  const { layoutOpeningsReport } = await import('../../reports/layout-openings.js')
  const { dayWithoutLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  if (flags.pest !== undefined) await knownPest(flags.pest)
  const report = layoutOpeningsReport({
    asOf: dayWithoutLedger(undefined, here),
    ...(flags.pest === undefined ? {} : { pest: flags.pest }),
    ...(flags.opening === undefined ? {} : { width: await lengthIn('--opening', flags.opening) }),
  })
  here.stdout.write(await written(report, flags, here))
  return 0
}

async function knownPest(pest: string): Promise<void> {
  const { pestTable } = await import('../../records/tables.js')
  const { refuseUnknown } = await import('../refuse-unknown.js')
  refuseUnknown('pest', pest, [...pestTable().keys()])
}

async function lengthIn(what: string, text: string): Promise<Quantity> {
  const { lengthOption } = await import('../length-option.js')
  return lengthOption(what, text, '60 ft')
}
