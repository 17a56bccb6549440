import type { Command } from 'commander'
import { Option } from 'commander'
import type { DraftedApplication } from '../../check/precheck.js'
import type { Source } from '../../files/source.js'
import type { NoticeReport } from '../../reports/notice.js'
import type { OpenLedger } from '../find-ledger.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { WrittenAs } from '../written.js'

interface NoticeFlags extends WrittenAs {
  readonly for?: 'parents' | 'staff' | 'sign' | 'statement'
  readonly language?: string
  readonly textOnly?: boolean
  readonly site?: string
  readonly by?: string
  readonly on?: string
  readonly word?: string
  readonly asOf?: string
  readonly ledger?: string
}

export function addNotice(program: Command, run: Runner): void {
  program
    .command('notice')
    .argument('<application>', 'a planned or done application: its file, or site/date-who')
    .summary('the letter to parents and staff and the sign for the doors')
    .description(
      'Drafts the notices, the sign and the statement of an emergency that the rulebooks in force ask for on account of one application, with what each has to say, and tells when each is sent, put up and taken down. Nothing is sent. It is no permission: the label, local code and a licensed applicator decide.',
    )
    .addOption(
      new Option('--for <text>', 'only this text').choices(['parents', 'staff', 'sign', 'statement']),
    )
    .option('--language <tag>', "in the district's own words (wordings/), such as es")
    .option('--text-only', 'only the texts, to paste or print')
    .option('--site <site>', 'the site, when the draft is kept elsewhere')
    .option('--by <person>', 'who is to apply it, when the name of the draft does not tell')
    .option('--on <date>', 'the day it is planned for, when the name of the draft does not tell')
    .option('--word <word>', 'tells it from another application of that person and day')
    .option('--as-of <date>', 'today, if another day: it tells which moments have passed')
    .addOption(
      new Option('--format <format>', 'how to write it')
        .choices(['text', 'markdown', 'json', 'csv'])
        .default('text'),
    )
    .option('--table <id>', 'csv: which table; the first if not said')
    .option('--show-work', 'also the records and sources behind each row')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .addHelpText(
      'after',
      `
A fact that the ledger does not have stands as [...] and is listed. Words that
a law sets are quoted where a rulebook holds them; else the blank names the
clause.

Exit codes: 0 written, nothing left to fill in; 1 written, with blanks to fill
in; 2 called wrongly, or it cannot be said what is asked, or until when.

Examples:
  doorsweep notice ottermere/2026-04-02-okafor
  doorsweep notice ottermere/2026-04-02-okafor --for sign --text-only
  doorsweep notice ottermere/2026-04-02-okafor --language es --format markdown`,
    )
    .action(run(async (here, [application, flags]) => tell(here, String(application), flags as NoticeFlags)))
}

async function tell(here: Here, written: string, flags: NoticeFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { refuseUnknownNames } = await import('./report.js')
  const { draftElsewhere } = await import('./precheck-draft.js')
  const { noticeReport } = await import('../../reports/notice.js')
  if (flags.textOnly === true && flags.format !== 'text' && flags.format !== 'markdown')
    throw new UsageError(`--text-only goes with text and markdown; ${flags.format} has the table \`texts\`.`)
  const ledger = openLedger(await ledgerPaths(here, written, flags), flags, here)
  const { source, asOf, asOfIsToday } = ledger
  const elsewhere = flags.site !== undefined
  if (elsewhere) await refuseUnknownNames(source, { asOf, asOfIsToday, site: flags.site as string })
  const draft = elsewhere
    ? await draftElsewhere(here, written, flags)
    : await applicationInLedger(written, flags, ledger)
  await refuseCancelled(draft)
  const language = await languageOf(source, flags, asOf)
  const made = noticeReport(source, draft, {
    today: asOf,
    language,
    ...(flags.for === undefined ? {} : { only: flags.for }),
  })
  here.stdout.write(await page(made, flags, here))
  if (made.report.incomplete) return 2
  return made.blanks > 0 ? 1 : 0
}

/** A file tells in which ledger it lies; `oak/2026-04-02-okafor` does not. */
async function ledgerPaths(here: Here, written: string, flags: NoticeFlags): Promise<readonly string[]> {
  const { existsSync } = await import('node:fs')
  const { resolve } = await import('node:path')
  if (flags.site !== undefined || flags.ledger !== undefined) return []
  return existsSync(resolve(here.cwd(), written)) ? [written] : []
}

async function applicationInLedger(
  written: string,
  flags: NoticeFlags,
  { source, asked }: OpenLedger,
): Promise<DraftedApplication> {
  if (flags.on !== undefined || flags.by !== undefined || flags.word !== undefined)
    throw new UsageError(
      'Day and person of a record are in its name; --on, --by and --word go with a draft kept elsewhere, and --site.',
    )
  const { recordPathOf } = await import('../../records/paths.js')
  const { eventFile } = await import('./event-file.js')
  const found = recordPathOf(asked[0] ?? eventFile('applications', written))
  if (found === null || 'stray' in found || found.kind !== 'application')
    throw new UsageError(
      `${written} is no application: name its file, or its site and name, as ottermere/2026-04-02-okafor; for a draft kept elsewhere add --site.`,
    )
  const { site = '', day = 0 } = found
  const read = source.read(found.file)
  if ('refused' in read) throw new UsageError(await noSuchApplication(source, found.file, site, found.id))
  return { path: { ...found, site, day }, text: read.bytes }
}

async function noSuchApplication(source: Source, file: string, site: string, id: string): Promise<string> {
  const { nearest } = await import('../../records/nearest.js')
  const { inventoryOf, recordPathsOf } = await import('../../ledger/read-records.js')
  const sites = inventoryOf(source).sites
  const known = recordPathsOf(sites.get(site) ?? [])
    .filter(({ kind }) => kind === 'application')
    .map((path) => path.id)
  const suggest = (meant: string | undefined) => (meant === undefined ? '.' : `; did you mean ${meant}?`)
  if (!sites.has(site)) return `There is no site ${site}${suggest(nearest(site, sites.keys()))}`
  return `There is no application ${file} that can be read${suggest(nearest(id, known))}`
}

async function refuseCancelled({ path, text }: DraftedApplication): Promise<void> {
  const { draftFacts } = await import('../../check/draft.js')
  if (draftFacts(text).status === 'cancelled')
    throw new UsageError(
      `${path.file} says that it was cancelled: there is no notice of it to draft. Whoever was told of it may want to know.`,
    )
}

/** English is ours; any other language needs words of the district. */
async function languageOf(source: Source, { language = 'en' }: NoticeFlags, asOf: number): Promise<string> {
  if (language === 'en') return language
  const { readLedger } = await import('../../ledger/read-ledger.js')
  const { onlySite } = await import('../../ledger/one-site.js')
  const { languagesOf } = await import('../../reports/notice-wording.js')
  const { nearest } = await import('../../records/nearest.js')
  // No site of that name: only the records of the district are read.
  const { district } = readLedger(onlySite(source, ''), { asOf, asOfIsToday: false }, () => {})
  const known = district ? languagesOf(district) : []
  if (known.includes(language)) return language
  const meant = nearest(language, known)
  throw new UsageError(
    `The district has no wording in ${language}${
      meant !== undefined
        ? `; did you mean ${meant}?`
        : known.length > 0
          ? `; it has: ${known.join(', ')}.`
          : '. Write one with `doorsweep new wording ID`.'
    }`,
  )
}

async function page(made: NoticeReport, flags: NoticeFlags, here: Here): Promise<string> {
  const { written } = await import('../written.js')
  const { format } = flags
  if (format === 'json' || format === 'csv') return written(made.report, flags, here)
  const { textsMarkdown, textsPlain } = await import('../../output/notice-texts.js')
  const { textsTableId } = await import('../../reports/notice.js')
  const { columns, isTTY } = here.stdout
  const options = {
    bare: flags.textOnly === true,
    ...(isTTY === true && columns !== undefined ? { width: columns } : {}),
  }
  const texts = format === 'text' ? textsPlain(made.texts, options) : textsMarkdown(made.texts, options)
  if (flags.textOnly === true && made.texts.length > 0) return texts
  const tables = made.report.tables.filter(({ id }) => id !== textsTableId)
  const report = await written({ ...made.report, tables }, flags, here)
  return texts === '' ? report : `${report}\n${texts}`
}
