import type { Command } from 'commander'
import { Option } from 'commander'
import type { Source } from '../../files/source.js'
import type { ReportName } from '../../reports/all.js'
import { reportNames } from '../../reports/all.js'
import type { ReportOptions } from '../../reports/options.js'
import type { Report } from '../../types.js'
import type { OpenLedger } from '../find-ledger.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { WrittenAs } from '../written.js'
import { reportFormats } from '../written.js'

export interface ReportFlags {
  readonly site?: string
  readonly pest?: string
  readonly from?: string
  readonly to?: string
  readonly window?: string
  readonly asOf?: string
  readonly format: WrittenAs['format']
  readonly table?: string
  readonly showWork?: boolean
  readonly names?: boolean
  readonly ledger?: string
  readonly rev?: string
}

/** Reports that are of no one pest. */
const withoutPest: ReadonlySet<ReportName> = new Set(['compliance', 'conditions', 'contract'])

/** What a report needs said beyond its options. */
const helpOf: Partial<Record<ReportName, string>> = {
  conditions: `
Times are of conditions found within --from and --to, followed until the as-of day; what is open now is told whenever it
began. With --site, what is told of all sites together is left out.
`,
  complaints: `
Times are of complaints received within --from and --to, followed until the as-of day; what waits now is told whenever it
came in. The complaint log is for the district, not for publication.
`,
  onset: `
Judged are the six months up to the as-of day unless --from says otherwise; what is usual is learnt from the twelve months
before. A site needs five readings of a kind of device in an area there.
`,
  hotspots: `
Devices are compared with others of their kind on the same floor, by their positions (\`at:\`). A filter hides rows and
changes nothing else.
`,
  compliance: `
Without --from and --to, the twelve months to the as-of day. Each duty is shown, not shown, not applicable (and why), or
cannot be checked (and which fields are absent). For a page to sign: --format markdown. Every duty of every application
as a row: --format csv --table duties. What is not shown is no failure: the exit code is 0.
`,
}

export function addReport(program: Command, run: Runner): void {
  const report = program
    .command('report')
    .summary('answer from the ledger')
    .description(
      'Answers from the ledger: gaps, trends, thresholds, pesticides used, every duty for an auditor, the page left after a visit, and the page for parents about one application.',
    )
  for (const name of Object.keys(reportNames) as ReportName[]) {
    const command = report.command(name).summary(reportNames[name]).description(`Tells ${reportNames[name]}.`)
    const isOfOne = name === 'service' || name === 'application'
    if (name === 'service') command.argument('<visit>', 'the visit: its file, or site/date-who')
    else if (name === 'application')
      command
        .argument('<application>', 'the application: its file, or site/date-who')
        .option('--names', 'also the names of the people who did it, and the records behind each row')
        .addHelpText(
          'after',
          '\nMade of application records alone: bait put into a device is told by `report service`.',
        )
    else {
      command.option('--site <site>', 'only this site')
      // Duties are held against every application; one that is left out would be passed over in silence.
      if (!withoutPest.has(name)) command.option('--pest <pest>', 'only this pest')
      if (name === 'effect')
        command.option('--window <days>', 'days before and after each event that are compared', '90')
      if (name !== 'thresholds')
        command
          .option('--from <date>', 'first day of the period')
          .option('--to <date>', 'last day of the period')
    }
    addWritingOptions(command)
      .addHelpText(
        'after',
        `${helpOf[name] ?? ''}\nExit codes: 0 written, 2 called wrongly, or part of the ledger could not be examined.`,
      )
      .action(
        run(async (here, args) => {
          const one = isOfOne ? String(args[0]) : undefined
          return writeReport(here, name, (isOfOne ? args[1] : args[0]) as ReportFlags, one)
        }),
      )
  }
}

/** What every report can be asked: as of when, how to write it, and which ledger. */
export function addWritingOptions(command: Command): Command {
  return command
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .addOption(new Option('--format <format>', 'how to write it').choices([...reportFormats]).default('text'))
    .option('--table <id>', 'csv: which table of the report; the first if not said')
    .option('--show-work', 'also the records and numbers behind each row')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
}

async function writeReport(
  here: Here,
  name: ReportName,
  flags: ReportFlags,
  one: string | undefined,
): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  const ledger = openLedger([], flags, here)
  const options = await optionsOf(flags, ledger)
  await refuseUnknownNames(ledger.source, options)
  const report = await build(name, ledger, options, { one, flags, cwd: here.cwd() })
  here.stdout.write(await written(report, flags, here))
  return report.incomplete ? 2 : 0
}

/** Days before and after an event: at least a week, so that a reading can lie within, and at most a year. */
function windowOf(text: string | undefined): number {
  const days = Number(text)
  if (text === undefined || !/^[0-9]{1,4}$/.test(text) || days < 7 || days > 366)
    throw new UsageError(`--window is a whole number of days from 7 to 366, not ${text}.`)
  return days
}

/** The days and names asked for; a period that nothing is known of is a mistake. */
export async function optionsOf(
  flags: ReportFlags,
  ledger: Pick<OpenLedger, 'asOf' | 'asOfIsToday'>,
): Promise<ReportOptions> {
  const { dayOption } = await import('../day-option.js')
  const day = (option: string, text: string | undefined) =>
    text === undefined ? undefined : dayOption(option, text)
  const from = day('--from', flags.from)
  const to = day('--to', flags.to)
  if (from !== undefined && to !== undefined && from > to)
    throw new UsageError(`The period ends before it starts: ${flags.from} to ${flags.to}.`)
  if (from !== undefined && from > ledger.asOf)
    throw new UsageError(
      `The period starts after the as-of day: ${flags.from}. Nothing is known of it; name a later day with --as-of.`,
    )
  return {
    asOf: ledger.asOf,
    asOfIsToday: ledger.asOfIsToday,
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...(flags.site === undefined ? {} : { site: flags.site }),
    ...(flags.pest === undefined ? {} : { pest: flags.pest }),
  }
}

async function build(
  name: ReportName,
  { source, root }: Pick<OpenLedger, 'source' | 'root'>,
  options: ReportOptions,
  {
    one = '',
    flags,
    cwd,
  }: { readonly one?: string | undefined; readonly flags: ReportFlags; readonly cwd: string },
): Promise<Report> {
  switch (name) {
    case 'gaps':
      return (await import('../../reports/gaps.js')).gapsReport(source, options)
    case 'trend':
      return (await import('../../reports/trend.js')).trendReport(source, options)
    case 'onset':
      return (await import('../../reports/onset.js')).onsetReport(source, options)
    case 'hotspots':
      return (await import('../../reports/hotspots.js')).hotspotsReport(source, options)
    case 'coverage':
      return (await import('../../reports/coverage.js')).coverageReport(source, options)
    case 'conditions':
      return (await import('../../reports/conditions.js')).conditionsReport(source, options)
    case 'complaints':
      return (await import('../../reports/complaints.js')).complaintsReport(source, options)
    case 'contract':
      return (await import('../../reports/contract.js')).contractReport(source, options)
    case 'effect': {
      const { effectReport } = await import('../../reports/effect.js')
      return effectReport(source, { ...options, window: windowOf(flags.window) })
    }
    case 'thresholds':
      return (await import('../../reports/thresholds.js')).thresholdsReport(source, options)
    case 'use':
      return (await import('../../reports/use.js')).useReport(source, options)
    case 'compliance': {
      const { revisionInWords } = await import('../../files/git-revision.js')
      const { complianceReport } = await import('../../reports/compliance.js')
      return complianceReport(source, { ...options, revision: revisionInWords(root, source, flags.rev) })
    }
    case 'service': {
      const { serviceReport } = await import('../../reports/service.js')
      const { eventFile } = await import('./event-file.js')
      const report = serviceReport(source, options, eventFile('visits', one))
      if (!report)
        throw new UsageError(
          `There is no visit ${one} that can be read; name its file, or its site and name: ottermere/2026-03-12-okafor.`,
        )
      return report
    }
    case 'application': {
      const { applicationPage } = await import('./application-named.js')
      return applicationPage(source, { asOf: options.asOf, cwd }, flags, one)
    }
  }
}

/** A filter for a site or pest that is not there would show an empty page that reads as an all-clear. */
export async function refuseUnknownNames(source: Source, options: ReportOptions): Promise<void> {
  const { site, pest } = options
  if (site === undefined && pest === undefined) return
  const { refuseUnknown } = await import('../refuse-unknown.js')
  const { inventoryOf } = await import('../../ledger/read-records.js')
  const { onlySite } = await import('../../ledger/one-site.js')
  const inventory = inventoryOf(site === undefined ? source : onlySite(source, site))
  // All sites are looked for only to say which one may be meant.
  if (site !== undefined && !inventory.sites.has(site))
    refuseUnknown('site', site, [...inventoryOf(source).sites.keys()])
  if (pest !== undefined) {
    const { pestTable } = await import('../../records/tables.js')
    refuseUnknown('pest', pest, [
      ...pestTable().keys(),
      ...inventory.district.filter((path) => path.kind === 'plan').map((path) => path.id),
    ])
  }
}
