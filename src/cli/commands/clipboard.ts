import type { Command } from 'commander'
import { Option } from 'commander'
import type { Clipboard } from '../../reports/clipboard.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import { refuseUnknownNames } from './report.js'

interface ClipboardFlags {
  readonly area?: readonly string[]
  readonly asOf?: string
  readonly format: 'text' | 'html' | 'json'
  readonly ledger?: string
  readonly rev?: string
}

export function addClipboard(program: Command, run: Runner): void {
  program
    .command('clipboard')
    .argument('<site>', 'the site: the name of its folder')
    .summary('the pages to take along on a visit, to print and write on')
    .description(
      'Writes the pages to take along on a visit: whom to meet, complaints that wait, then area by area in walking order which key opens it, where to look, each device with its last count and a box for the new one, each open condition, and lines for what is found.',
    )
    .option('--area <area...>', 'only these areas')
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .addOption(
      new Option('--format <format>', 'html is a page that stands alone, for the browser to print')
        .choices(['text', 'html', 'json'])
        .default('text'),
    )
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
    .addHelpText(
      'after',
      `
Exit codes: 0 written; 2 called wrongly, or part of the ledger could not be
read. Nothing is written when that is the site itself; anything else the page
names.

Example:
  doorsweep clipboard ottermere --format html > ottermere.html`,
    )
    .action(run(async (here, [site, flags]) => writeClipboard(here, String(site), flags as ClipboardFlags)))
}

async function writeClipboard(here: Here, site: string, flags: ClipboardFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { readClipboard } = await import('../../reports/clipboard.js')
  const ledger = openLedger([], flags, here)
  const { source, asOf, asOfIsToday } = ledger
  await refuseUnknownNames(source, { asOf, asOfIsToday, site })
  const { clipboard, notExamined, incomplete } = readClipboard(source, { asOf, asOfIsToday }, site)
  if (!clipboard) {
    here.stderr.write(await nothingWritten(site, notExamined))
    return 2
  }
  here.stdout.write(await inFormat(await withAreas(clipboard, flags.area), flags.format))
  return incomplete ? 2 : 0
}

async function nothingWritten(site: string, why: readonly string[]): Promise<string> {
  const { clean } = await import('../../output/clean.js')
  const lines = why.map((line) => `  ${clean(line)}\n`).join('')
  return `doorsweep: ${site} could not be read, so no page was written. \`doorsweep check\` says what to mend.\n${lines}`
}

/** A misspelt area would leave a page without it, which reads as if nothing were there. */
async function withAreas(clipboard: Clipboard, asked: readonly string[] | undefined): Promise<Clipboard> {
  if (asked === undefined) return clipboard
  const { nearest } = await import('../../records/nearest.js')
  const { onlyAreas } = await import('../../reports/clipboard.js')
  const known = clipboard.areas.map(({ id }) => id).filter((id) => id !== '')
  for (const area of asked) {
    if (known.includes(area)) continue
    const meant = nearest(area, known)
    throw new UsageError(
      `${clipboard.site} has no area ${area} on ${clipboard.asOf}${meant === undefined ? `; it has: ${known.join(', ')}.` : `; did you mean ${meant}?`}`,
    )
  }
  return onlyAreas(clipboard, asked)
}

async function inFormat(clipboard: Clipboard, format: ClipboardFlags['format']): Promise<string> {
  switch (format) {
    case 'html':
      return (await import('../../output/clipboard-html.js')).clipboardHtml(clipboard)
    case 'json':
      return (await import('../../output/clipboard-json.js')).clipboardJson(clipboard)
    case 'text':
      return (await import('../../output/clipboard-text.js')).clipboardText(clipboard)
  }
}
