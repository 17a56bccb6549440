import type { Command } from 'commander'
import { Option } from 'commander'
import type { Part } from '../../reports/review/private.js'
import type { Review } from '../../reports/review/review.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface ReviewFlags {
  readonly site?: string
  readonly with?: readonly Part[]
  readonly asOf?: string
  readonly format: 'text' | 'markdown' | 'json' | 'html'
  readonly out?: string
  readonly replace?: boolean
  readonly ledger?: string
  readonly rev?: string
}

export function addReview(program: Command, run: Runner): void {
  program
    .command('review')
    .argument('<year>', 'a school year, as 2025-2026, or a calendar year, as 2026')
    .summary('the packet for the yearly meeting, and for whoever asks to see the file')
    .description(
      'Writes the packet for the yearly meeting with the maintenance head, and for whoever asks to see the file: what can improve, each question such a meeting asks with its answer from the records, its figures and pictures, what the last meeting decided and what came of it, and lines for what is decided now.',
    )
    .option('--site <site>', 'only this site')
    .addOption(
      new Option(
        '--with <part...>',
        'also what a page that may be published leaves out: the complaint log, floor plans (of one site), names of staff',
      ).choices(['complaints', 'floor-plan', 'names'] satisfies Part[]),
    )
    .option('--as-of <date>', 'the ledger as it stood on this day; later records are left out')
    .addOption(
      new Option(
        '--format <format>',
        'html is a page that stands alone, for the browser, for paper and for a phone',
      )
        .choices(['text', 'markdown', 'json', 'html'])
        .default('text'),
    )
    .option('--out <file>', 'write it to this file')
    .option('--replace', 'also if that file is there already')
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
    .addHelpText(
      'after',
      `
A school year is one of the calendar in district.yaml, with the recess after it. Every figure is that of the report named
beside it. No record names a pupil, so no page does.

Exit codes: 0 written; 2 called wrongly, or part of the ledger could not be examined.

Examples:
  doorsweep review 2025-2026 --format html --out review.html
  doorsweep review 2025-2026 --site ottermere --with complaints names`,
    )
    .action(run(async (here, [year, flags]) => writeReview(here, String(year), flags as ReviewFlags)))
}

async function writeReview(here: Here, year: string, flags: ReviewFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { refuseUnknownNames } = await import('./report.js')
  const { revisionInWords } = await import('../../files/git-revision.js')
  const { makeReview } = await import('../../reports/review/make-review.js')
  const ledger = openLedger([], flags, here)
  const { source, asOf, asOfIsToday } = ledger
  const ofSite = flags.site === undefined ? {} : { site: flags.site }
  await refuseUnknownNames(source, { asOf, asOfIsToday, ...ofSite })
  const withParts = new Set(flags.with ?? [])
  if (withParts.has('floor-plan') && flags.site === undefined)
    throw new UsageError('--with floor-plan shows the plan of one site: name it with --site.')
  const review = makeReview(source, {
    asOf,
    asOfIsToday,
    ...ofSite,
    year,
    withParts,
    revision: revisionInWords(ledger.root, source, flags.rev),
  })
  if ('refused' in review) throw new UsageError(review.refused)
  const text = await inFormat(review, here, flags)
  if (flags.out === undefined) here.stdout.write(text)
  else await writeOut(here, flags.out, text, flags.replace === true)
  return review.incomplete ? 2 : 0
}

/** A whole file or nothing. What ends like a record is none of ours: a page is never written over one. */
async function writeOut(here: Here, out: string, text: string, replace: boolean): Promise<void> {
  const { resolve } = await import('node:path')
  const { writeMapFile } = await import('../../writing/map-file.js')
  if (/\.ya?ml$/i.test(out))
    throw new UsageError(`--out ${out}: that is the name of a record; name the page as review.html.`)
  const done = writeMapFile(resolve(here.cwd(), out), text, replace)
  if (done !== 'written') throw new UsageError(`--out ${out} ${done.refused}.`)
  here.stderr.write(`${out} is written.\n`)
}

async function inFormat(review: Review, here: Here, { format }: ReviewFlags): Promise<string> {
  switch (format) {
    case 'html':
      return (await import('../../output/review-html.js')).reviewHtml(review)
    case 'json':
      return (await import('../../output/review-json.js')).reviewJson(review)
    case 'markdown':
      return (await import('../../output/review-markdown.js')).reviewMarkdown(review)
    case 'text': {
      const { isTTY, columns } = here.stdout
      const { reviewText } = await import('../../output/review-text.js')
      return reviewText(review, {
        paint: here.painter,
        ...(isTTY === true && columns !== undefined ? { width: columns } : {}),
      })
    }
  }
}
