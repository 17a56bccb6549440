import type { Command } from 'commander'
import { Option } from 'commander'
import type { FailOn } from '../../output/problems.js'
import type { CheckFormat } from '../check-written.js'
import type { OpenLedger } from '../find-ledger.js'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface CheckFlags {
  readonly asOf?: string
  readonly format: CheckFormat
  readonly failOn: FailOn
  readonly only?: string[]
  readonly skip?: string[]
  readonly ledger?: string
  readonly rev?: string
  readonly since?: string
  readonly staged?: boolean
  readonly cache: boolean
  readonly threads?: number
}

export function addCheck(program: Command, run: Runner): void {
  program
    .command('check')
    .summary('find what is missing, contradictory or overdue')
    .description(
      'Reads the whole ledger and says what is missing, contradictory or overdue, at file, line and column.\nPATH limits what is shown, not what is read: a record is judged with everything it leans on.',
    )
    .argument('[path...]', 'show only problems in these files and folders')
    .option('--as-of <date>', 'judge the ledger as on this day; later records are left out')
    .addOption(
      new Option('--format <format>', 'how to write the result')
        .choices(['text', 'json', 'sarif', 'junit', 'annotations'])
        .default('text'),
    )
    .addOption(
      new Option('--fail-on <level>', 'lowest level that makes the exit code 1')
        .choices(['error', 'warning', 'note', 'never'])
        .default('warning'),
    )
    .option('--only <rules>', 'show only these rules; commas between them', ruleList)
    .option('--skip <rules>', 'leave these rules out; commas between them', ruleList)
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--no-cache', 'read everything, whatever was found before')
    .addOption(
      new Option(
        '--threads <n>',
        'how many threads to work with; half as many as there are cores, if not said',
      ).argParser(threadsOption),
    )
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
    .addOption(
      new Option(
        '--since <revision>',
        'show only what was brought since the merge base of a git revision and HEAD, wherever it shows',
      ).conflicts(['rev', 'staged']),
    )
    .addOption(
      new Option(
        '--staged',
        'check what is staged in git, and show only what committing it would bring',
      ).conflicts('rev'),
    )
    .addHelpText(
      'after',
      '\nWith --since and --staged two complete checks are compared, as of one day. So a\nproduct that is taken away is told at the old record that names it, and old\nproblems are only counted. A record under a new name is a new record. What could\nnot be checked before the change has all its problems shown, and is named.\n--since needs the commits back to the merge base: in a CI job fetch all of them.\n`doorsweep hook install` runs --staged before every commit.\n\nExit codes: 0 nothing at or above --fail-on, 1 problems, 2 something could not be checked.',
    )
    .action(run(async (here, [paths, flags]) => checkAndShow(here, paths as string[], flags as CheckFlags)))
}

function threadsOption(text: string): number {
  const threads = Number(text)
  if (Number.isInteger(threads) && threads >= 1 && threads <= 64) return threads
  throw new UsageError(`--threads ${text}: write a number from 1 to 64.`)
}

/** Not variadic: `--only a b` would take the path that follows for a rule. */
function ruleList(text: string, before: string[] | undefined): string[] {
  return [...(before ?? []), ...text.split(',').map((id) => id.trim())]
}

async function checkAndShow(here: Here, paths: string[], flags: CheckFlags): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { checkLedger } = await import('../../check/check-ledger.js')
  const { broughtSince } = await import('../../check/new-since.js')
  const { meansFor } = await import('../means.js')
  const { progressOn } = await import('../progress.js')
  const { keepAnswer } = await import('../answers/keep.js')
  const { stateOf } = await import('../answers/state.js')
  const { checkPage } = await import('../check-page.js')
  const { checkWritten } = await import('../check-written.js')
  const { reaches } = await import('../../output/problems.js')
  await refuseUnknownRules([...(flags.only ?? []), ...(flags.skip ?? [])])
  const opened = openLedger(paths, flags, here)
  const comparison = await comparisonFor(opened, flags, here)
  const ledger = comparison?.ledger ?? opened
  const progress = progressOn(here, 'sites judged')
  const means = meansFor(ledger.root, flags, here, progress.tell)
  const now = await checkLedger(ledger.source, ledger, means)
  const then = []
  for (const source of comparison?.before ?? []) then.push(await checkLedger(source, ledger, means))
  progress.end()
  const checked = broughtSince(now, then, ledger)
  const page = checkPage(checked, ledger, flags, comparison)
  const text = await checkWritten(page, flags.format, { ...ledger, failOn: flags.failOn }, here)
  const isRed = page.problems.some(({ problem }) => reaches(problem.level, flags.failOn))
  const exitCode = page.notChecked.length > 0 ? 2 : isRed ? 1 : 0
  here.stdout.write(text)
  const state = now.stamps && stateOf(ledger.root, now.stamps)
  keepAnswer(here, ledger, { text, exitCode, start: flags.ledger ?? paths[0] ?? '.', state })
  return exitCode
}

async function comparisonFor(ledger: OpenLedger, flags: CheckFlags, here: Here) {
  if (flags.since === undefined && flags.staged !== true) return undefined
  const { sinceRevision, staged } = await import('../compare-with.js')
  return flags.since === undefined ? staged(ledger, here) : sinceRevision(ledger, flags.since)
}

async function refuseUnknownRules(ids: readonly string[]): Promise<void> {
  const { allRules, ruleById } = await import('../../rules/all.js')
  const { nearest } = await import('../../records/nearest.js')
  for (const id of ids) {
    if (ruleById(id)) continue
    const meant = nearest(
      id,
      allRules.map((rule) => rule.id),
    )
    throw new UsageError(
      `There is no rule ${id}${meant === undefined ? '; `doorsweep rules` lists them' : `; did you mean ${meant}?`}`,
    )
  }
}
