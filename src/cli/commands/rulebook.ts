import type { Command } from 'commander'
import { Option } from 'commander'
import type { ExitCode, Here, Runner } from '../runner.js'
import { UsageError } from '../usage-error.js'
import { reportFormats } from '../written.js'

export function addRulebook(program: Command, run: Runner): void {
  const rulebook = program
    .command('rulebook')
    .summary('list, show and check rulebooks')
    .description('The duties a district is judged by: those that come with the program, and its own.')
  rulebook
    .command('list')
    .summary('list the rulebooks of the program, and the values a rulebook can set')
    .description(
      'Lists the rulebooks that come with the program, and the name of every value that rules read.',
    )
    .action(run(async (here) => listRulebooks(here)))
  rulebook
    .command('show')
    .summary('show what a rulebook holds, with its sources and what it does not cover')
    .description('Shows what a rulebook holds, entry by entry, with its sources, and what it does not cover.')
    .argument('<rulebook>', 'a rulebook of the program, or the file of one')
    .addOption(new Option('--format <format>', 'how to write it').choices([...reportFormats]).default('text'))
    .action(run(async (here, [which, flags]) => show(here, String(which), flags as { format: Format })))
  rulebook
    .command('check')
    .summary('check a rulebook by itself')
    .description(
      'Checks one rulebook by itself: its shape, dates that overlap, classes that are defined nowhere, values that no rule reads.',
    )
    .argument('<file>', 'file of the rulebook')
    .addHelpText('after', '\nExit codes: 0 nothing wrong, 1 problems, 2 called wrongly.')
    .action(run(async (here, [file]) => check(here, String(file))))
}

type Format = 'text' | 'markdown' | 'json' | 'csv'

async function listRulebooks(here: Here): Promise<ExitCode> {
  const { builtInRulebook, builtInRulebooks } = await import('../../records/tables.js')
  const { allRules } = await import('../../rules/all.js')
  const { parametersRead } = await import('../../rules/rulebooks/rulebook-parameter-unread.js')
  const { stdout } = here
  stdout.write('Rulebooks of the program:\n')
  for (const id of builtInRulebooks) {
    const { title, 'read-on': readOn } = builtInRulebook(id)
    stdout.write(`  ${id.padEnd(14)} ${title} (read ${readOn})\n`)
  }
  stdout.write('\nValues that a rulebook can set under `parameters`:\n')
  for (const name of [...parametersRead(allRules)].sort()) {
    const readers = allRules.filter(({ parameters }) => parameters?.includes(name)).map(({ id }) => id)
    stdout.write(`  ${name.padEnd(26)} ${readers.join(', ')}\n`)
  }
  return 0
}

async function show(here: Here, which: string, flags: { format: Format }): Promise<ExitCode> {
  const { builtInRulebook, builtInRulebooks } = await import('../../records/tables.js')
  const { rulebookReport } = await import('../../reports/rulebook.js')
  const { today } = await import('../today.js')
  const { written } = await import('../written.js')
  const known = builtInRulebooks.find((id) => id === which)
  const record = known ? builtInRulebook(known) : await ownRulebook(here, which)
  const report = rulebookReport(known ?? stemOf(which), record, today('UTC', here))
  here.stdout.write(await written(report, flags, here))
  return 0
}

/** A rulebook of a file, in the shape of its kind; what is wrong with it is for `rulebook check` to say. */
async function ownRulebook(here: Here, path: string) {
  const { readRecord } = await import('../../files/read-record.js')
  const { rulebook } = await import('../../records/rulebook.js')
  const read = readRecord(await bytesOf(here, path))
  const shaped = 'data' in read ? rulebook.safeParse(read.data) : undefined
  if (!shaped?.success)
    throw new UsageError(
      `${path} is not a rulebook as it stands; \`doorsweep rulebook check ${path}\` says why.`,
    )
  return shaped.data
}

async function check(here: Here, path: string): Promise<ExitCode> {
  const { checkRulebook } = await import('../../check/check-rulebook.js')
  const { standsOn } = await import('../../check/run-check.js')
  const { locateProblems } = await import('../../check/locate-problems.js')
  const { memorySource } = await import('../../files/memory.js')
  const { isoOf } = await import('../../measure/calendar.js')
  const { problemsText } = await import('../../output/problems-text.js')
  const { today } = await import('../today.js')
  const bytes = await bytesOf(here, path)
  const id = stemOf(path)
  const asOf = today('UTC', here)
  const { problems } = checkRulebook(id, bytes, asOf)
  const standing = problems
    .filter((problem) => standsOn(problem, asOf))
    .map((problem) => ({ ...problem, at: { ...problem.at, file: path } }))
  if (standing.length === 0) {
    const { rulebookReport } = await import('../../reports/rulebook.js')
    const report = rulebookReport(id, await ownRulebook(here, path), asOf)
    here.stdout.write(
      `${path}: nothing wrong with its ${report.tables[0]?.rows.length} entries. ${report.headline}\n`,
    )
    return 0
  }
  const located = locateProblems(standing, memorySource(new Map([[path, bytes]])))
  here.stdout.write(
    problemsText(
      {
        asOf: isoOf(asOf),
        source: path,
        problems: located,
        excepted: [],
        notChecked: [],
        records: 1,
        sites: 0,
        later: 0,
        hidden: 0,
      },
      here.painter,
    ),
  )
  return 1
}

async function bytesOf(here: Here, path: string): Promise<Uint8Array> {
  const { readFile } = await import('node:fs/promises')
  const { resolve } = await import('node:path')
  try {
    return await readFile(resolve(here.cwd(), path))
  } catch {
    throw new UsageError(
      `${path} cannot be read; name the file of a rulebook, or one that \`doorsweep rulebook list\` lists.`,
    )
  }
}

function stemOf(path: string): string {
  return path.replace(/^.*[/\\]/, '').replace(/\.yaml$/, '')
}
