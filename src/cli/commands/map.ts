import type { Command } from 'commander'
import { Option } from 'commander'
import type { SiteMap } from '../../reports/map-site.js'
import type { Report } from '../../types.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import type { ReportFlags } from './report.js'
import { optionsOf, refuseUnknownNames } from './report.js'

type MapFormat = 'svg' | ReportFlags['format']

interface MapFlags extends Omit<ReportFlags, 'format'> {
  readonly format?: MapFormat
  readonly area?: readonly string[]
  readonly out?: string
  readonly replace?: boolean
}

/** How a file of each format ends. */
const endings: Readonly<Record<MapFormat, string>> = {
  svg: '.svg',
  text: '.txt',
  markdown: '.md',
  html: '.html',
  json: '.json',
  csv: '.csv',
}
const formats = Object.keys(endings) as MapFormat[]

export function addMap(program: Command, run: Runner): void {
  program
    .command('map')
    .argument('<site>', 'the site: the name of its folder')
    .summary('the property diagram of one site: devices, their catch, what is open')
    .description(
      'Draws the property diagram of a site: areas in walking order, each device by its kind and with what it caught of a pest, open conditions, places that stand out, and what is not watched. The same as tables in the other formats.',
    )
    .option('--pest <pest>', 'show what each device caught of this pest')
    .option('--from <date>', 'first day of the catches shown')
    .option('--to <date>', 'last day of the catches shown')
    .option('--area <area...>', 'only these areas, drawn larger')
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .addOption(
      new Option(
        '--format <format>',
        'how to write it; svg if not said, but text on a terminal, and what the ending of --out says',
      ).choices(formats),
    )
    .option('--out <file>', 'write it to this file')
    .option('--replace', 'also if that file is there already')
    .option('--table <id>', 'csv: which table of the map; the devices if not said')
    .option('--show-work', 'text, markdown, html: also the records and numbers behind each row')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
    .addHelpText(
      'after',
      `
Devices and areas are drawn where \`at:\` and \`outline:\` say; what has neither is
drawn in boxes, not to scale. A PNG or JPEG named as \`diagram\` is laid under
them, if \`corners:\` says where it lies. Catches are those of the twelve months
to the as-of day, if no period is named. A map is not for publication.

Exit codes: 0 written; 2 called wrongly, or part of the ledger could not be
examined. Nothing is written when that is the site itself.

Examples:
  doorsweep map ottermere --pest german-cockroach --out kitchen.svg
  doorsweep map ottermere --pest german-cockroach --format text`,
    )
    .action(run(async (here, [site, flags]) => writeMap(here, String(site), flags as MapFlags)))
}

async function writeMap(here: Here, site: string, flags: MapFlags): Promise<ExitCode> {
  const format = formatOf(flags, here)
  const { openLedger } = await import('../find-ledger.js')
  const ledger = openLedger([], flags, here)
  const options = await optionsOf({ ...flags, format: 'text' }, ledger)
  await refuseUnknownNames(ledger.source, { ...options, site })
  const { readMap } = await import('../../reports/map.js')
  const read = readMap(ledger.source, options, site)
  if (!read.map) {
    here.stderr.write(await nothingWritten(site, read.report.notExamined))
    return 2
  }
  const { map, report } = await withAreas(read.map, read, flags.area)
  const text = await inFormat(format, map, report, flags, here)
  if (flags.out === undefined) here.stdout.write(text)
  else await writeTo(here, flags.out, text, flags.replace === true)
  if (report.incomplete) here.stderr.write(await notExaminedWords(report.notExamined))
  return report.incomplete ? 2 : 0
}

async function inFormat(
  format: MapFormat,
  map: SiteMap,
  report: Report,
  flags: MapFlags,
  here: Here,
): Promise<string> {
  if (format === 'svg') return (await import('../../output/map-svg.js')).mapSvg(map)
  if (format === 'html')
    return (await import('../../output/map-html.js')).mapHtml(map, report, {
      showWork: flags.showWork === true,
    })
  return (await import('../written.js')).written(report, { ...flags, format }, here)
}

/** A misspelt area would leave a map without it, which reads as if nothing were there. */
async function withAreas(
  map: SiteMap,
  read: { readonly report: Report; readonly bare: Report },
  asked: readonly string[] | undefined,
): Promise<{ readonly map: SiteMap; readonly report: Report }> {
  if (asked === undefined) return { map, report: read.report }
  const known = map.areas.map(({ id }) => id)
  const { refuseUnknown } = await import('../refuse-unknown.js')
  for (const area of asked) if (!known.includes(area)) refuseUnknown('area', area, known)
  const { onlyAreasOf } = await import('../../reports/map-part.js')
  const { reportOfMap } = await import('../../reports/map.js')
  const part = onlyAreasOf(map, asked)
  return { map: part, report: reportOfMap(part, read.bare) }
}

/** What was asked for; else what the file's ending says; else a picture, but tables on a terminal. */
function formatOf({ format, out }: MapFlags, here: Here): MapFormat {
  if (out === undefined) return format ?? (here.stdout.isTTY === true ? 'text' : 'svg')
  const byEnding = formats.find((one) => out.toLowerCase().endsWith(endings[one]))
  const found = format ?? byEnding
  // A record or a spreadsheet of another kind is not to be written over by a slip.
  if (found === undefined)
    throw new UsageError(
      `--out ${out}: a map is written to a file that ends in ${formats.map((one) => endings[one]).join(', ')}.`,
    )
  if (found !== byEnding)
    throw new UsageError(`--out ${out}: a file of --format ${found} ends in ${endings[found]}.`)
  return found
}

async function writeTo(here: Here, out: string, text: string, replace: boolean): Promise<void> {
  const { resolve } = await import('node:path')
  const { writeMapFile } = await import('../../writing/map-file.js')
  const done = writeMapFile(resolve(here.cwd(), out), text, replace)
  if (done !== 'written') throw new UsageError(`--out ${out} ${done.refused}.`)
  here.stderr.write(`${out} is written.\n`)
}

async function nothingWritten(site: string, why: readonly string[]): Promise<string> {
  return `doorsweep: ${site} could not be read, so no map was written. \`doorsweep check\` says what to mend.\n${await notExaminedWords(why)}`
}

async function notExaminedWords(lines: readonly string[]): Promise<string> {
  const { clean } = await import('../../output/clean.js')
  return lines.map((line) => `  not examined: ${clean(line)}\n`).join('')
}
