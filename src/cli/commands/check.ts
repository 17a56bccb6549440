import type { Command } from 'commander'
import { Option } from 'commander'
import type { ExitCode, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'

interface CheckFlags {
  readonly asOf?: string
  readonly format: 'text' | 'json'
  readonly failOn: 'error' | 'warning' | 'note' | 'never'
  readonly only?: string[]
  readonly skip?: string[]
  readonly ledger?: string
  readonly rev?: string
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
      new Option('--format <format>', 'how to write the result').choices(['text', 'json']).default('text'),
    )
    .addOption(
      new Option('--fail-on <level>', 'lowest level that makes the exit code 1')
        .choices(['error', 'warning', 'note', 'never'])
        .default('warning'),
    )
    .option('--only <rules>', 'show only these rules; commas between them', ruleList)
    .option('--skip <rules>', 'leave these rules out; commas between them', ruleList)
    .option('--ledger <dir>', 'the ledger, if not the one around you')
    .option('--rev <revision>', 'read the ledger as it stands in a git revision')
    .addHelpText(
      'after',
      '\nExit codes: 0 nothing at or above --fail-on, 1 problems, 2 something could not be checked.',
    )
    .action(run(async (here, [paths, flags]) => checkLedger(here, paths as string[], flags as CheckFlags)))
}

/** Not variadic: `--only a b` would take the path that follows for a rule. */
function ruleList(text: string, before: string[] | undefined): string[] {
  return [...(before ?? []), ...text.split(',').map((id) => id.trim())]
}

async function checkLedger(
  here: Parameters<Parameters<Runner>[0]>[0],
  paths: string[],
  flags: CheckFlags,
): Promise<ExitCode> {
  const { openLedger } = await import('../find-ledger.js')
  const { runCheck, standsOn } = await import('../../check/run-check.js')
  const { locateExceptions, locateProblems } = await import('../../check/locate-problems.js')
  const { isoOf } = await import('../../measure/calendar.js')
  await refuseUnknownRules([...(flags.only ?? []), ...(flags.skip ?? [])])
  const ledger = openLedger(paths, flags, here)
  const result = runCheck(ledger.source, ledger)
  const standing = result.problems.filter(
    (problem) => standsOn(problem, ledger.asOf) && isChosen(problem.rule, flags),
  )
  const isAsked = (file: string) =>
    ledger.asked.length === 0 || ledger.asked.some((path) => isWithin(file, path))
  const shown = standing.filter((problem) => isAsked(problem.at.file))
  const notChecked = result.notChecked.filter(
    ({ what }) =>
      !what.startsWith('sites/') ||
      ledger.asked.length === 0 ||
      ledger.asked.some((path) => isWithin(path, what) || isWithin(what, path)),
  )
  const page = {
    asOf: isoOf(ledger.asOf),
    source: ledger.source.name,
    problems: locateProblems(shown, ledger.source),
    excepted: locateExceptions(
      result.excepted.filter(
        ({ problem }) =>
          standsOn(problem, ledger.asOf) && isChosen(problem.rule, flags) && isAsked(problem.at.file),
      ),
      ledger.source,
    ),
    notChecked,
    records: result.records,
    sites: result.sites,
    later: result.later,
    hidden: standing.length - shown.length,
  }
  if (flags.format === 'json') {
    const { problemsJson } = await import('../../output/problems-json.js')
    here.stdout.write(problemsJson(page))
  } else {
    const { problemsText } = await import('../../output/problems-text.js')
    here.stdout.write(problemsText(page, here.painter))
  }
  if (notChecked.length > 0) return 2
  return page.problems.some(({ problem }) => reaches(problem.level, flags.failOn)) ? 1 : 0
}

function isWithin(path: string, folder: string): boolean {
  return path === folder || path.startsWith(`${folder}/`)
}

function isChosen(rule: string, flags: CheckFlags): boolean {
  return (flags.only === undefined || flags.only.includes(rule)) && !(flags.skip ?? []).includes(rule)
}

const order = { note: 0, warning: 1, error: 2, never: 3 }

function reaches(level: 'error' | 'warning' | 'note', failOn: CheckFlags['failOn']): boolean {
  return order[level] >= order[failOn]
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
