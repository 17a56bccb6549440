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

export interface ReportFlags {
  readonly site?: string
  readonly pest?: string
  readonly from?: string
  readonly to?: string
  readonly asOf?: string
  readonly format: 'text' | 'markdown' | 'json' | 'csv'
  readonly table?: string
  readonly showWork?: boolean
  readonly ledger?: string
  readonly rev?: string
}

export function addReport(program: Command, run: Runner): void {
  const report = program
    .command('report')
    .summary('answer from the ledger')
    .description(
      'Answers from the ledger: gaps, trends, thresholds, pesticides used, and the page left after a visit.',
    )
  for (const name of Object.keys(reportNames) as ReportName[]) {
    const command = report.command(name).summary(reportNames[name]).description(`Tells ${reportNames[name]}.`)
    if (name === 'service') command.argument('<visit>', 'the visit: its file, or site/date-who')
    else {
      command.option('--site <site>', 'only this site').option('--pest <pest>', 'only this pest')
      if (name !== 'thresholds')
        command
          .option('--from <date>', 'first day of the period')
          .option('--to <date>', 'last day of the period')
    }
    addWritingOptions(command)
      .addHelpText(
        'after',
        '\nExit codes: 0 written, 2 called wrongly, or part of the ledger could not be examined.',
      )
      .action(
        run(async (here, args) => {
          const visit = name === 'service' ? String(args[0]) : undefined
          return writeReport(here, name, (name === 'service' ? args[1] : args[0]) as ReportFlags, visit)
        }),
      )
  }
}

/** What every report can be asked: as of when, how to write it, and which ledger. */
export function addWritingOptions(command: Command): Command {
  return command
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .addOption(
      new Option('--format <format>', 'how to write it')
        .choices(['text', 'markdown', 'json', 'csv'])
        .default('text'),
    )
    .option('--table <id>', 'csv: which table of the report; the first if not said')
    .option('--show-work', 'also the records and numbers behind each row')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
}

async function writeReport(
  here: Here,
  name: ReportName,
  flags: ReportFlags,
  visit: string | undefined,
): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { written } = await import('../written.js')
  const ledger = openLedger([], flags, here)
  const options = await optionsOf(flags, ledger)
  await refuseUnknownNames(ledger.source, options)
  const report = await build(name, ledger.source, options, visit)
  here.stdout.write(await written(report, flags, here))
  return report.incomplete ? 2 : 0
}

/** The days and names asked for; a period that nothing is known of is a mistake. */
export async function optionsOf(
  flags: ReportFlags,
  ledger: Pick<OpenLedger, 'asOf' | 'asOfIsToday'>,
): Promise<ReportOptions> {
  const { dayOf } = await import('../../measure/calendar.js')
  const day = (option: string, text: string | undefined) => {
    const found = text === undefined ? undefined : dayOf(text)
    if (found === null)
      throw new UsageError(`${option} ${text}: write a day as year-month-day, such as 2026-03-12.`)
    return found
  }
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
  source: Source,
  options: ReportOptions,
  visit: string | undefined,
): Promise<Report> {
  switch (name) {
    case 'gaps':
      return (await import('../../reports/gaps.js')).gapsReport(source, options)
    case 'trend':
      return (await import('../../reports/trend.js')).trendReport(source, options)
    case 'thresholds':
      return (await import('../../reports/thresholds.js')).thresholdsReport(source, options)
    case 'use':
      return (await import('../../reports/use.js')).useReport(source, options)
    case 'service': {
      const { serviceReport } = await import('../../reports/service.js')
      const report = serviceReport(source, options, visitFile(visit ?? ''))
      if (!report)
        throw new UsageError(
          `There is no visit ${visit} that can be read; name its file, or its site and name: ottermere/2026-03-12-okafor.`,
        )
      return report
    }
  }
}

/** `sites/oak/visits/2026-03-12-okafor.yaml`, wherever it was typed from, or `oak/2026-03-12-okafor`. */
function visitFile(written: string): string {
  const path = /(?:^|\/)(sites\/[^/]+\/visits\/[^/]+\.yaml)$/.exec(written.replaceAll('\\', '/'))
  if (path) return path[1] ?? ''
  const [site = '', visit = ''] = written.split('/')
  return `sites/${site}/visits/${visit.replace(/\.yaml$/, '')}.yaml`
}

/** A filter for a site or pest that is not there would show an empty page that reads as an all-clear. */
export async function refuseUnknownNames(source: Source, options: ReportOptions): Promise<void> {
  const { nearest } = await import('../../records/nearest.js')
  const refuse = (what: string, name: string, known: readonly string[]) => {
    if (known.includes(name)) return
    const meant = nearest(name, known)
    throw new UsageError(
      `There is no ${what} ${name}${meant === undefined ? '.' : `; did you mean ${meant}?`}`,
    )
  }
  const { site, pest } = options
  if (site === undefined && pest === undefined) return
  const { inventoryOf } = await import('../../ledger/read-records.js')
  const inventory = inventoryOf(source)
  if (site !== undefined) refuse('site', site, [...inventory.sites.keys()])
  if (pest !== undefined) {
    const { pestTable } = await import('../../records/tables.js')
    refuse('pest', pest, [
      ...pestTable().keys(),
      ...inventory.district.filter((path) => path.kind === 'plan').map((path) => path.id),
    ])
  }
}
