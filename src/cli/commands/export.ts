import type { Command } from 'commander'
import { Option } from 'commander'
import type { Exported } from '../../writing/export/export-ledger.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface ExportFlags {
  readonly format: 'csv' | 'parquet'
  readonly out: string
  readonly district?: string
  readonly from?: string
  readonly to?: string
  readonly asOf?: string
  readonly ledger?: string
}

export function addExport(program: Command, run: Runner): void {
  program
    .command('export')
    .summary('write the ledger as tables that many districts can put together')
    .description(
      'Writes the ledger as tidy tables, a folder each, split by district and year, for an engine that reads CSV or Parquet. The folders of many districts, laid over each other, are one set of tables.',
    )
    .requiredOption('--out <dir>', 'folder to write to: a new or empty one, or an export')
    .addOption(
      new Option('--format <format>', 'how the files are written')
        .choices(['csv', 'parquet'])
        .default('parquet'),
    )
    .option('--from <date>', 'first day of the events')
    .option('--to <date>', 'last day of the events')
    .option('--district <name>', 'id of the district in the export; made from its state and name if not said')
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText(
      'after',
      `
A second export takes the place of all that the folder held of this district, and of nothing else. State the id if the
district may yet change its name. Tables, columns, units and what an empty cell means: schemas/export/README.md; queries
for many districts: src/data/queries. Without names, free text and addresses: staff by their ids in the ledger.

Exit codes: 0 written, 2 called wrongly, or a site was left out because it could not be read.`,
    )
    .action(run(async (here, [flags]) => exportTo(here, flags as ExportFlags)))
}

async function exportTo(here: Here, flags: ExportFlags): Promise<ExitCode> {
  const { resolve } = await import('node:path')
  const { openLedger } = await import('../find-ledger.js')
  const { optionsOf } = await import('./report.js')
  const { exportLedger } = await import('../../writing/export/export-ledger.js')
  const { version } = await import('../version.js')
  const ledger = openLedger([], flags, here)
  const { from, to } = await optionsOf({ ...flags, format: 'text' }, ledger)
  const exported = await exportLedger({
    source: ledger.source,
    root: ledger.root,
    asOf: ledger.asOf,
    asOfIsToday: ledger.asOfIsToday,
    folder: resolve(here.cwd(), flags.out),
    format: flags.format,
    programVersion: version(),
    unique: String(process.pid),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...(flags.district === undefined ? {} : { district: flags.district }),
  }).catch((error: unknown) => {
    const why = diskFault(error)
    if (why === undefined) throw error
    throw new UsageError(`Nothing was exported to ${flags.out}: ${why}`)
  })
  if ('refused' in exported) throw new UsageError(refusal(exported, flags))
  return tell(here, exported, flags, ledger.asOf)
}

async function tell(
  here: Here,
  exported: Exclude<Exported, { readonly refused: string }>,
  { out }: ExportFlags,
  asOf: number,
): Promise<ExitCode> {
  const { isoOf } = await import('../../measure/calendar.js')
  const { clean } = await import('../../output/clean.js')
  const { district, rows, years, notChecked, nameBefore } = exported
  const all = [...rows.values()].reduce((sum, count) => sum + count, 0)
  const [first, last] = [Math.min(...years), Math.max(...years)]
  const when = years.size === 0 ? 'no event' : first === last ? `of ${first}` : `of ${first} to ${last}`
  if (nameBefore !== undefined)
    here.stderr.write(`${district} was there under another name, ${clean(nameBefore)}; it was replaced.\n`)
  for (const { what, why } of notChecked) here.stderr.write(`left out: ${clean(what)}: ${clean(why)}.\n`)
  here.stdout.write(
    `${out}: ${rows.size} tables of ${district}, ${all} rows, ${when}, as of ${isoOf(asOf)}.\n`,
  )
  return notChecked.length > 0 ? 2 : 0
}

function refusal(exported: Extract<Exported, { readonly refused: string }>, flags: ExportFlags): string {
  const { out } = flags
  switch (exported.refused) {
    case 'no district':
      return 'district.yaml cannot be read as a record, so nothing can be exported; `doorsweep check` says what is wrong.'
    case 'no safe id':
      return 'No id can be made from the name of the district without dropping letters of it; state one with --district, such as or-alder-fork.'
    case 'bad id':
      return `--district ${flags.district}: an id is lower-case letters, digits and single hyphens, a letter first, at most 63; such as or-alder-fork.`
    case 'in the ledger':
      return `${out} lies in the ledger, whose folders hold records and nothing else; name a folder outside of it.`
    case 'not a folder':
      return `${out} is a file; name a folder that does not exist yet, or an export.`
    case 'not an export':
      return `${out} holds something else than an export, which could be overwritten; name a new or empty folder.`
    case 'unreadable marker':
      return `${out} may be an export, but its _doorsweep-export.json cannot be read; name another folder.`
    case 'other format':
      return `${out} holds an export as ${exported.format}, and a table is read in one format; name another folder, or --format ${exported.format}.`
    case 'other version':
      return `${out} was written with version ${exported.version} of the tables, which does not mix with this one; name another folder.`
    case 'other district':
      return `${out} holds another district under this id, ${JSON.stringify(exported.name)}; tell them apart with --district, which also states the id of a district that changed its name.`
  }
}

/** What the file system said, where it is something that the one who asks can mend. */
function diskFault(error: unknown): string | undefined {
  switch ((error as { code?: unknown } | null)?.code) {
    case 'EACCES':
    case 'EPERM':
      return 'you have no right to write there; name another folder.'
    case 'EROFS':
      return 'the disk can only be read; name another folder.'
    case 'ENOSPC':
    case 'EDQUOT':
      return 'the disk is full; name a folder on another one.'
    case 'ENOTDIR':
      return 'a part of that path is a file; name another folder.'
    case 'ENAMETOOLONG':
      return 'that name is too long; name another folder.'
    case 'ENOTEMPTY':
    case 'EEXIST':
      return 'something came into being there meanwhile; look at it, then export again.'
    default:
      return undefined
  }
}
